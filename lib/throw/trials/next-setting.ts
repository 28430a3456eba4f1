/**
 * The setting to try next, from the calibrated machine: one number of it turned within a range, for the farthest throw
 * or for a mark. What one more throw may do about it follows from the scatter of the earlier ones and from how well they
 * tell the efficiency (and the scale's offset where that is taken in), as in JCGM 100:2008, H.3.
 */
import type { MeasuredThrow } from "../contracts/calibration";
import type { HazardRequest } from "../contracts/request";
import { Flyers } from "../spread/efficiency";
import { Crossings, type Range } from "../tuning/crossings";
import { Thrower } from "../tuning/evaluate";
import { isInRange, withValue } from "../tuning/knobs";
import { goldenMaximum } from "../worst/scan";
import { coverageFactor } from "./coverage";
import type { CalibratedMachine } from "./machine";

export interface NextAsked {
  /** In the air of the next throw. */
  request: HazardRequest;
  throws: readonly MeasuredThrow[];
  machine: Pick<CalibratedMachine, "calibration" | "thrown" | "offset">;
  /** The knob and between what it may stand. */
  vary: Range;
  goal: { kind: "farthest" } | { kind: "mark"; distance: number };
  /** Take in the offset of this knob's scale, where one is told. */
  withOffset: boolean;
}

export type NextSetting =
  | {
      found: true;
      value: number;
      /** First impact, m downrange, at that setting. */
      distance: number;
      /** Between what 95 of 100 throws are expected there, m; null while the scatter is not known. */
      between: readonly [number, number] | null;
      /** 95 % half-width of the setting itself, by what the efficiency is not known; null for the farthest throw. */
      uncertainty: number | null;
      /** For the farthest: from where to where it throws within a scatter (a per cent at least) of it. */
      flat: readonly [number, number] | null;
      /** Beyond what was thrown: nothing measured says that the efficiency holds there. */
      extrapolates: boolean;
      /** Other settings in the range that hit the mark too. */
      others: number[];
      offset: number;
    }
  | {
      found: false;
      why: "not-calibrated" | "nothing-thrown" | "out-of-reach" | "jumped-over";
      /** Between what the range throws, m. */
      reach: readonly [number, number] | null;
    };

const LOOKS = 48;
/** A mark is hit within this share of its distance, m at least. */
const HIT = { share: 0.001, least: 0.02 };

export function nextSetting(asked: NextAsked): NextSetting {
  const { request, machine, vary, goal } = asked;
  const { calibration, offset: scale } = machine;
  const taken = asked.withOffset && scale?.told ? scale : null;
  const efficiency = taken?.efficiency ?? calibration.efficiency;
  if (efficiency === null) return { found: false, why: "not-calibrated", reach: null };
  const offset = taken?.offset ?? 0;
  const with_ = (share: number) => new Thrower(request, share);
  const thrower = with_(efficiency);
  const thrown = (value: number, by = thrower, turned = offset) => {
    const changed = withValue(request, vary.name, value + turned);
    return isInRange(changed) ? by.distance(changed) : null;
  };
  const samples = Array.from({ length: LOOKS + 1 }, (_, i) => {
    const value = vary.low + ((vary.high - vary.low) * i) / LOOKS;
    return { value, distance: thrown(value) };
  });
  const known = samples.flatMap(({ distance }) => distance ?? []);
  if (known.length === 0) return { found: false, why: "nothing-thrown", reach: null };
  const reach = [Math.min(...known), Math.max(...known)] as const;

  const range = machine.thrown[vary.name];
  const outside = (value: number) =>
    range === undefined || value < range[0] - 1e-9 || value > range[1] + 1e-9;
  let value: number;
  let others: number[] = [];
  if (goal.kind === "farthest") value = farthest(samples, thrown, vary);
  else {
    const within = Math.max(HIT.least, HIT.share * goal.distance);
    const turned = { name: vary.name, low: vary.low + offset, high: vary.high + offset };
    const hits = new Crossings(
      request,
      { distance: (changed) => (isInRange(changed) ? thrower.distance(changed) : null) },
      goal.distance,
      within,
    )
      .of(request, turned)
      .map((hit) => plain(hit - offset, vary));
    if (hits.length === 0) {
      const inside = goal.distance >= reach[0] && goal.distance <= reach[1];
      return { found: false, why: inside ? "jumped-over" : "out-of-reach", reach };
    }
    // What was thrown before is known best; beyond it, the nearest to it.
    const middle = range ? (range[0] + range[1]) / 2 : (vary.low + vary.high) / 2;
    const worth = (hit: number) => (outside(hit) ? 1e6 : 0) + Math.abs(hit - middle);
    hits.sort((a, b) => worth(a) - worth(b));
    [value, ...others] = hits as [number, ...number[]];
  }
  const distance = thrown(value) as number;

  // How the throw moves with what the marks do not know exactly.
  const step = 0.005 * efficiency;
  const slope = (up: number | null, down: number | null, over: number) =>
    up === null || down === null ? null : (up - down) / over;
  const byEfficiency = slope(
    thrown(value, with_(efficiency + step)),
    thrown(value, with_(efficiency - step)),
    2 * step,
  );
  const turn = (vary.high - vary.low) / 200;
  const byValue = slope(thrown(value + turn), thrown(value - turn), 2 * turn);
  const spread = spreadOf(asked, efficiency, byEfficiency, byValue);
  return {
    found: true,
    value,
    distance,
    between: spread && [distance - spread.one, distance + spread.one],
    uncertainty:
      goal.kind === "mark" && spread && byValue !== null && Math.abs(byValue) > 1e-9
        ? spread.mean / Math.abs(byValue)
        : null,
    flat: goal.kind === "farthest" ? flatAround(samples, value, distance, calibration.scatter) : null,
    extrapolates: outside(value),
    others,
    offset,
  };
}

type Sample = { value: number; distance: number | null };

function farthest(samples: readonly Sample[], thrown: (value: number) => number | null, vary: Range): number {
  let best = 0;
  samples.forEach(({ distance }, i) => {
    if ((distance ?? -Infinity) > (samples[best]?.distance ?? -Infinity)) best = i;
  });
  const from = samples[Math.max(0, best - 1)]?.value ?? vary.low;
  const to = samples[Math.min(samples.length - 1, best + 1)]?.value ?? vary.high;
  const worth = (value: number) => thrown(value) ?? -Infinity;
  const found = plain(
    goldenMaximum((value) => value, worth, from, to),
    vary,
  );
  const sampled = samples[best]?.value ?? found;
  return worth(found) >= worth(sampled) ? found : sampled;
}

/** Four digits, where they stay within what was asked. */
function plain(value: number, { low, high }: Range): number {
  const short = Number(value.toPrecision(4));
  return Math.min(high, Math.max(low, short));
}

/** 95 % half-widths of one more throw and of the mean of many, m. */
function spreadOf(
  { request, throws, machine, withOffset }: NextAsked,
  efficiency: number,
  byEfficiency: number | null,
  byValue: number | null,
): { one: number; mean: number } | null {
  const { calibration, offset } = machine;
  if (byEfficiency === null) return null;
  if (withOffset && offset?.told) {
    const { cofactors, scatter, degrees } = offset;
    const g = byValue ?? 0;
    const share =
      byEfficiency ** 2 * cofactors[0] + 2 * byEfficiency * g * cofactors[1] + g * g * cofactors[2];
    return halfWidths(scatter, share, degrees);
  }
  const { scatter, degreesOfFreedom } = calibration;
  if (scatter === null) return null;
  const flyers = new Flyers(request);
  const leverage = throws.reduce((sum, each) => {
    const fly = flyers.of(each);
    return fly ? sum + ((fly(efficiency * 1.005) - fly(efficiency * 0.995)) / (0.01 * efficiency)) ** 2 : sum;
  }, 0);
  return leverage > 0 ? halfWidths(scatter, byEfficiency ** 2 / leverage, degreesOfFreedom) : null;
}

function halfWidths(scatter: number, share: number, degrees: number) {
  const k = coverageFactor(degrees) * scatter;
  return { one: k * Math.sqrt(1 + share), mean: k * Math.sqrt(share) };
}

/** The neighbouring samples that throw nearly as far. */
function flatAround(
  samples: readonly Sample[],
  value: number,
  distance: number,
  scatter: number | null,
): readonly [number, number] {
  const enough = distance - Math.max(scatter ?? 0, 0.01 * Math.abs(distance));
  const reaches = ({ distance: there }: Sample) => (there ?? -Infinity) >= enough;
  let [low, high] = [value, value];
  for (let i = samples.length - 1; i >= 0; i--) {
    const sample = samples[i] as Sample;
    if (sample.value >= value) continue;
    if (!reaches(sample)) break;
    low = sample.value;
  }
  for (const sample of samples) {
    if (sample.value <= value) continue;
    if (!reaches(sample)) break;
    high = sample.value;
  }
  return [low, high];
}
