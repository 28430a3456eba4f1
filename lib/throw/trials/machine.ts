/**
 * A machine as its practice throws show it. The throws may have been made at different settings of one machine: each is
 * flown from its own, and one efficiency explains all of them together (spread/efficiency.ts).
 */
import type { Calibration, MeasuredThrow } from "../contracts/calibration";
import type { HazardRequest } from "../contracts/request";
import { machineKind } from "../machines/registry";
import { calibrate } from "../spread/calibration";
import { Flyers } from "../spread/efficiency";
import { orNull } from "../tuning/evaluate";
import { withValues } from "../tuning/knobs";
import { findWorst } from "../worst/worst";
import { coverageFactor } from "./coverage";
import { fitOffset, type OffsetFit } from "./offset";

/** The projectile's own tolerance, which every worst throw takes in. */
const WEIGHED = 0.02;

export interface CalibratedMachine {
  calibration: Calibration;
  /** 95 % half-width of the efficiency; null below two throws. */
  uncertainty: number | null;
  /** The factor that made it of the standard uncertainty. */
  coverage: number | null;
  /** What the calibrated machine throws at each mark's setting, in its wind, m; null where nothing is thrown. */
  fitted: (number | null)[];
  /** Worst first impacts of the machines that were thrown, m: the farthest of each way. */
  worst: { forward: number; backward: number };
  /** Backward throws that went beyond the worst one, by index into those that were given. */
  behindWorst: number[];
  /** Between which values each setting was thrown. */
  thrown: Record<string, readonly [number, number]>;
  /** Of the scale of the setting; null where the machine's first setting is no angle, or nothing is explained. */
  offset: OffsetFit | null;
}

/**
 * @param throws in the order in which they were made, forwards
 * @param backward distances of those that went backwards, m, with their settings
 * @param setting the name of an angle that all throws carry; its scale is looked at
 * @throws CannotThrow of the machine as declared; a throw whose own numbers cannot be is left unexplained
 */
export function calibratedMachine(
  request: HazardRequest,
  throws: readonly MeasuredThrow[],
  backward: readonly MeasuredThrow[],
  setting: string | null,
): CalibratedMachine {
  const flyers = new Flyers(request);
  const worst = worstThrows(
    request,
    [...throws, ...backward].filter((each) => flyers.of(each) !== null),
  );
  const calibration = calibrate(request, throws, (measured) => worst(measured)?.forward ?? Infinity);
  const { efficiency, standardError, degreesOfFreedom } = calibration;
  const all = [...throws, ...backward].flatMap((each) => worst(each) ?? []);
  const coverage = standardError === null ? null : coverageFactor(degreesOfFreedom);
  return {
    calibration,
    uncertainty: standardError === null || coverage === null ? null : coverage * standardError,
    coverage,
    fitted: throws.map((each) => (efficiency === null ? null : (flyers.of(each)?.(efficiency) ?? null))),
    worst: {
      forward: Math.max(0, ...all.map(({ forward }) => forward)),
      backward: Math.max(0, ...all.map(({ backward }) => backward)),
    },
    behindWorst: backward.flatMap((each, index) =>
      each.distance > (worst(each)?.backward ?? Infinity) ? [index] : [],
    ),
    thrown: rangesOf(throws),
    offset: setting === null || efficiency === null ? null : fitOffset(request, throws, setting, efficiency),
  };
}

/**
 * The worst throws of each machine that was thrown, for winds as strong as were read and projectiles as light as were
 * weighed: what decides the throw as meant alone changes none.
 */
function worstThrows(request: HazardRequest, throws: readonly MeasuredThrow[]) {
  const { parameters } = machineKind(request.machine.kind);
  const meantOnly = new Set(parameters.filter(({ onlyNominal }) => onlyNominal).map(({ name }) => name));
  const wind = request.air?.wind;
  const gust = Math.max(wind?.speed ?? 0, wind?.gust ?? 0, ...throws.map((each) => each.wind?.speed ?? 0));
  const declared = request.projectile.mass;
  const lightest = Math.min(declared, ...throws.flatMap((each) => each.mass ?? []));
  // A very light one may fly less far, and must not make the worst of the others less.
  const masses = lightest < (1 - WEIGHED) * declared ? [lightest, declared] : [declared];
  const ofMass = (mass: number): HazardRequest => ({
    ...request,
    projectile: { ...request.projectile, mass },
    air: { ...request.air, wind: { speed: 0, direction: 0, height: 10, ...wind, gust } },
  });
  const known = new Map<string, { forward: number; backward: number } | null>();
  return ({ settings = {} }: MeasuredThrow) => {
    const changed = Object.entries(settings).filter(([name]) => !meantOnly.has(name));
    const key = JSON.stringify(changed.sort());
    const before = known.get(key);
    if (before !== undefined) return before;
    const search = () => {
      const all = masses.map(
        (mass) => findWorst(withValues(ofMass(mass), Object.fromEntries(changed))).worst,
      );
      return {
        forward: Math.max(...all.map(({ forward }) => forward.distance)),
        backward: Math.max(...all.map(({ backward }) => backward.distance)),
      };
    };
    // Null where such a machine cannot be: a number written down wrong, which hides nothing of the other throws.
    const found = changed.length > 0 ? orNull(search) : search();
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
