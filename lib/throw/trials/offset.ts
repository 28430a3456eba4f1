/**
 * Whether a setting's scale reads true: efficiency η and an offset δ of the setting fitted together, by least squares
 * (Gauss-Newton), to throws at several settings. Their covariance is s² (JᵀJ)⁻¹ with s² = Σ residual² / (n − 2), as in
 * JCGM 100:2008, H.3. What throws at one or two settings cannot tell apart is refused, with the reason.
 */
import type { MeasuredThrow } from "../contracts/calibration";
import type { HazardRequest } from "../contracts/request";
import { Flyers } from "../spread/efficiency";
import { statedOf } from "../spread/judging";
import { expanded } from "./coverage";

export const FEWEST_SETTINGS = 3;
export const FEWEST_THROWS = 4;
/** Beyond this correlation of the two slopes a change of one looks like a change of the other. */
const MOST_ALIKE = 0.98;
/** Degrees: a scale that is farther off than this is misread. */
const LARGEST = 15;
const STEP = 0.25;
const ROUNDS = 12;

export type OffsetRefusal = "few-settings" | "few-throws" | "alike" | "not-found";

export type OffsetFit =
  | { told: false; why: OffsetRefusal; correlation: number | null }
  | {
      told: true;
      /** What must be added to the scale, in the setting's unit, and its 95 % half-width. */
      offset: number;
      uncertainty: number;
      efficiency: number;
      efficiencyUncertainty: number;
      /** Of the slopes: the nearer to 1, the less the two can be told apart. */
      correlation: number;
      /** Standard deviation of one throw about the fit, m. */
      scatter: number;
      degrees: number;
      /** (JᵀJ)⁻¹: of η, of both, of δ. */
      cofactors: readonly [number, number, number];
      /** Whether the offset is larger than its uncertainty: only then is it worth turning the scale. */
      matters: boolean;
    };

/** @param name of the setting that all these throws carry, an angle */
export function fitOffset(
  request: HazardRequest,
  throws: readonly MeasuredThrow[],
  name: string,
  start: number,
): OffsetFit {
  const refused = (why: OffsetRefusal, correlation: number | null = null): OffsetFit => ({
    told: false,
    why,
    correlation,
  });
  const set = throws.filter(({ settings }) => settings?.[name] !== undefined);
  if (new Set(set.map(({ settings }) => settings?.[name])).size < FEWEST_SETTINGS)
    return refused("few-settings");
  if (set.length < FEWEST_THROWS) return refused("few-throws");
  const flyers = new Flyers(request);
  const at = (measured: MeasuredThrow, efficiency: number, offset: number): number => {
    const settings = { ...measured.settings, [name]: (measured.settings?.[name] as number) + offset };
    return flyers.of({ ...measured, settings })?.(efficiency) ?? Number.NaN;
  };
  let [eta, delta] = [start, 0];
  for (let round = 0; round < ROUNDS; round++) {
    const { normal, pull } = linearised(set, at, eta, delta);
    const found = inverse(normal);
    if (!found) return refused("not-found");
    const [aa, ab, bb] = found;
    // A long first step may leave what can be thrown.
    const turn = Math.max(-3, Math.min(3, ab * pull[0] + bb * pull[1]));
    eta = Math.max(0.02, eta + aa * pull[0] + ab * pull[1]);
    delta += turn;
    if (!(Math.abs(delta) <= LARGEST)) return refused("not-found");
    if (Math.abs(turn) < 1e-4) break;
  }
  const { normal, squares } = linearised(set, at, eta, delta);
  const cofactors = inverse(normal);
  const correlation = normal[1] / Math.sqrt(normal[0] * normal[2]);
  if (!cofactors || !Number.isFinite(squares)) return refused("not-found");
  if (Math.abs(correlation) > MOST_ALIKE) return refused("alike", correlation);
  const degrees = set.length - 2;
  const survey = set.reduce((sum, each) => sum + statedOf(each) ** 2, 0) / set.length;
  const scatter = Math.sqrt(Math.max(squares / degrees, survey));
  const uncertainty = expanded(scatter * Math.sqrt(cofactors[2]), degrees);
  return {
    told: true,
    offset: delta,
    uncertainty,
    efficiency: eta,
    efficiencyUncertainty: expanded(scatter * Math.sqrt(cofactors[0]), degrees),
    correlation,
    scatter,
    degrees,
    cofactors,
    matters: Math.abs(delta) > uncertainty,
  };
}

type Three = readonly [number, number, number];

function linearised(
  throws: readonly MeasuredThrow[],
  at: (measured: MeasuredThrow, efficiency: number, offset: number) => number,
  eta: number,
  delta: number,
): { normal: Three; pull: readonly [number, number]; squares: number } {
  let [aa, ab, bb, pa, pb, squares] = [0, 0, 0, 0, 0, 0];
  for (const each of throws) {
    const residual = each.distance - at(each, eta, delta);
    const a = (at(each, eta * 1.005, delta) - at(each, eta * 0.995, delta)) / (0.01 * eta);
    const b = (at(each, eta, delta + STEP) - at(each, eta, delta - STEP)) / (2 * STEP);
    aa += a * a;
    ab += a * b;
    bb += b * b;
    pa += a * residual;
    pb += b * residual;
    squares += residual * residual;
  }
  return { normal: [aa, ab, bb], pull: [pa, pb], squares };
}

/** Of a symmetric matrix by its upper half; null when it has none. */
function inverse([aa, ab, bb]: Three): Three | null {
  const determinant = aa * bb - ab * ab;
  if (!(determinant > 1e-12 * aa * bb)) return null;
  return [bb / determinant, -ab / determinant, aa / determinant];
}
