/**
 * A machine as its practice throws show it. The throws may have been made at different settings of one machine: each is
 * flown from its own, and one efficiency explains all of them together (spread/efficiency.ts).
 */
import type { Calibration, MeasuredThrow } from "../contracts/calibration";
import type { HazardRequest } from "../contracts/request";
import { calibrate } from "../spread/calibration";
import { Flyers } from "../spread/efficiency";
import { coverageFactor } from "./coverage";
import { fitOffset, type OffsetFit } from "./offset";
import { ownWorst, searchedWorst, type Ways, type WorstOf } from "./worst-throws";

export interface CalibratedMachine {
  calibration: Calibration;
  /** 95 % half-width of the efficiency; null below two throws. */
  uncertainty: number | null;
  /** The factor that made it of the standard uncertainty. */
  coverage: number | null;
  /** What the calibrated machine throws at each mark's setting, in its wind, m; null where nothing is thrown. */
  fitted: (number | null)[];
  /** Worst first impacts of the machine as declared, m. */
  worst: Ways;
  /** The worst that each throw is held against: that of the machine as it was declared for it. */
  held: { forward: Ways[]; backward: Ways[] };
  /** Backward throws that went beyond the worst one, by index into those that were given. */
  behindWorst: number[];
  /** Between which values each setting was thrown, by the marks that are used. */
  thrown: Record<string, readonly [number, number]>;
  /** Of the scale of the setting; null where the machine's first setting is no angle, or nothing is explained. */
  offset: OffsetFit | null;
}

/**
 * @param throws in the order in which they were made, forwards
 * @param backward distances of those that went backwards, m, with their settings
 * @param setting the name of an angle that all throws carry; its scale is looked at
 * @param worstOf where the worst throws come from: worst-throws.ts
 * @param declaredOf what stood when a throw was made: its tolerances, its gust, its rule for projectiles
 * @throws CannotThrow of the machine as declared; a throw whose own numbers cannot be is left unexplained
 */
export function calibratedMachine(
  request: HazardRequest,
  throws: readonly MeasuredThrow[],
  backward: readonly MeasuredThrow[],
  setting: string | null,
  worstOf: WorstOf = searchedWorst(),
  declaredOf: (measured: MeasuredThrow) => HazardRequest = () => request,
): CalibratedMachine {
  const flyers = new Flyers(request);
  const worstOfDeclared = remembered(worstOf);
  const worst = remembered((measured: MeasuredThrow) =>
    ownWorst(declaredOf(measured), measured, worstOfDeclared),
  );
  const calibration = calibrate(request, throws, (measured) => worst(measured).forward);
  const { efficiency, standardError, degreesOfFreedom, marks } = calibration;
  const coverage = standardError === null ? null : coverageFactor(degreesOfFreedom);
  const used = throws.filter((_, index) => marks[index]?.used);
  return {
    calibration,
    uncertainty: standardError === null || coverage === null ? null : coverage * standardError,
    coverage,
    fitted: throws.map((each) => (efficiency === null ? null : (flyers.of(each)?.(efficiency) ?? null))),
    worst: worstOfDeclared(request),
    held: { forward: throws.map(worst), backward: backward.map(worst) },
    behindWorst: backward.flatMap((each, index) => (each.distance > worst(each).backward ? [index] : [])),
    thrown: rangesOf(used),
    offset: setting === null || efficiency === null ? null : fitOffset(request, used, setting, efficiency),
  };
}

/** Answers once for the same object. */
function remembered<Key, Found>(find: (key: Key) => Found): (key: Key) => Found {
  const known = new Map<Key, Found>();
  return (key) => {
    const found = known.get(key) ?? find(key);
    known.set(key, found);
    return found;
  };
}

function rangesOf(throws: readonly MeasuredThrow[]): CalibratedMachine["thrown"] {
  const out: Record<string, [number, number]> = {};
  for (const { settings = {} } of throws) {
    for (const [name, value] of Object.entries(settings)) {
      const range = out[name] ?? [value, value];
      out[name] = [Math.min(range[0], value), Math.max(range[1], value)];
    }
  }
  return out;
}
