/**
 * A point from two or more tapes or bearings by least squares, linearised about the point until it stands still
 * (Newton). Weights are the inverse of the full covariance of the observations, pegs and declination included, so
 * two tapes from one peg share its error. Residuals are tested as Baarda does (data snooping, from memory): w = the
 * residual over its own standard deviation.
 */
import type { PlanePoint } from "../earth";
import { type Budget, type Contribution, merged } from "./budget";
import { chiSquareAbove } from "./chi-square";
import { apply, dot, inverseOf, multiply, transpose } from "./matrix";
import { DECLINATION, RADIANS, type Station } from "./site";
import { degrees, metres, unplaceable, type Warning } from "./warnings";

export interface Observation {
  /** "tape 2, from North" */
  label: string;
  kind: "distance" | "bearing";
  station: Station;
  /** Horizontal, m; or the direction in the plane, radians. */
  value: number;
  /** Standard uncertainty, m or radians. */
  sigma: number;
  /** What the site's declination may turn it by, radians. */
  declinationUncertainty?: number;
}

export interface Residual {
  label: string;
  kind: "distance" | "bearing";
  /** Measured less adjusted: m, or degrees. */
  value: number;
  /** Over its own standard deviation; 0 where nothing checks the observation. */
  normalised: number;
  /** Share of a blunder that shows in the residual, 0 (unchecked) to 1. */
  redundancy: number;
  /** The blunder that would explain it, if it alone were wrong: measured less true, m or degrees. */
  blunder: number;
}

export interface Adjustment {
  at: PlanePoint;
  budget: Budget;
  residuals: Residual[];
  /** Observations more than needed. */
  degrees: number;
  chiSquare: number;
}

/** Of Baarda: a sound observation is taken for a blunder once in a thousand times (two-sided normal). */
export const BLUNDER_LIMIT = 3.29;
/** Level of the chi-square tests: sound measurements fail one in twenty times. */
export const AGREEMENT_LEVEL = 0.95;
const STILL = 1e-7;
const STEPS = 100;
const ROUNDS = 10;

/** An angle brought into −π … π. */
export const turned = (angle: number) => Math.atan2(Math.sin(angle), Math.cos(angle));

interface Linear {
  /** Derivatives by east and north. */
  rows: number[][];
  /** Measured less predicted. */
  misclosures: number[];
  effects: Effect[];
  weights: number[][];
  chiSquare: number;
}

/** What one source of error does to each observation. */
interface Effect {
  source: string;
  shared: boolean;
  on: number[];
}

function effectsOn(observations: readonly Observation[], rows: readonly number[][]): Effect[] {
  const found = new Map<string, Effect>();
  const add = (source: string, shared: boolean, index: number, size: number) => {
    if (size === 0) return;
    const effect = found.get(source) ?? { source, shared, on: observations.map(() => 0) };
    effect.on[index] = (effect.on[index] as number) + size;
    found.set(source, effect);
  };
  observations.forEach(({ label, sigma, station, declinationUncertainty }, index) => {
    add(label, false, index, sigma);
    // A peg that is off moves the point with it, as if the observation were off along its own derivative.
    for (const { source, east, north } of station.budget)
      add(source, true, index, dot(rows[index] as number[], [east, north]));
    add(DECLINATION, true, index, declinationUncertainty ?? 0);
  });
  return [...found.values()];
}

/** Measured less what it would be at a point: m, or radians. */
function misclosure({ kind, station, value }: Observation, at: PlanePoint): number {
  const [e, n] = [at.east - station.at.east, at.north - station.at.north];
  return kind === "distance" ? value - Math.hypot(e, n) : turned(value - Math.atan2(e, n));
}

/** At a point; with the weights that go with it unless they are held. */
function linear(
  observations: readonly Observation[],
  { east, north }: PlanePoint,
  held?: number[][],
): Linear | null {
  const rows: number[][] = [];
  const misclosures: number[] = [];
  for (const observation of observations) {
    const { kind, station } = observation;
    const [e, n] = [east - station.at.east, north - station.at.north];
    const distance = Math.hypot(e, n);
    if (distance < 1e-6) return null;
    rows.push(kind === "distance" ? [e / distance, n / distance] : [n / distance ** 2, -e / distance ** 2]);
    misclosures.push(misclosure(observation, { east, north }));
  }
  const effects = held ? [] : effectsOn(observations, rows);
  const weights = held ?? inverseOf(covarianceBy(effects, rows.length));
  return (
    weights && {
      rows,
      misclosures,
      effects,
      weights,
      chiSquare: dot(misclosures, apply(weights, misclosures)),
    }
  );
}

/** Of so many values, from what each source of error does to them. */
export function covarianceBy(effects: readonly Pick<Effect, "on">[], size: number): number[][] {
  return Array.from({ length: size }, (_, i) =>
    Array.from({ length: size }, (__, j) =>
      effects.reduce((sum, { on }) => sum + (on[i] as number) * (on[j] as number), 0),
    ),
  );
}

/** The point nearest to a start at which the observations fit best; null when they do not hold it in both directions. */
export function adjust(observations: readonly Observation[], start: PlanePoint): Adjustment | null {
  let at = start;
  // What a peg's error does depends on the direction to it, so the weights follow the point.
  for (let round = 0; round < ROUNDS; round++) {
    const now = linear(observations, at);
    const there = now && descended(observations, at, now.weights);
    if (!there) return null;
    if (Math.hypot(there.east - at.east, there.north - at.north) < STILL) break;
    at = there;
  }
  const now = linear(observations, at);
  if (!now) return null;
  const weighted = multiply(transpose(now.rows), now.weights);
  const normal = inverseOf(multiply(weighted, now.rows));
  return normal && finished(observations, at, now, normal, multiply(normal, weighted));
}

/** Downhill from a start by Newton's steps, the weights held; null when nothing holds the point. */
function descended(
  observations: readonly Observation[],
  start: PlanePoint,
  weights: number[][],
): PlanePoint | null {
  let at = start;
  let now = linear(observations, at, weights);
  for (let step = 0; now && step < STEPS; step++) {
    const pulls = apply(weights, now.misclosures);
    const slope = apply(transpose(now.rows), pulls);
    const gauss = multiply(multiply(transpose(now.rows), weights), now.rows);
    // Large misclosures bend the valley; where the bent form has no bottom the straight one leads down all the same.
    const inverse = inverseOf(bent(gauss, observations, at, pulls)) ?? inverseOf(gauss);
    if (!inverse) return null;
    const [east = 0, north = 0] = apply(inverse, slope);
    if (Math.hypot(east, north) < STILL / 10) return at;
    let [share, next, there] = [1, null as Linear | null, at];
    // A step that makes it worse went too far.
    do {
      there = { east: at.east + share * east, north: at.north + share * north };
      next = linear(observations, there, weights);
      share /= 2;
    } while (share > 1e-9 && !(next && next.chiSquare <= now.chiSquare));
    // Nothing lower anywhere along the step: this is the bottom, as far as numbers go.
    if (!(next && next.chiSquare <= now.chiSquare)) return at;
    at = there;
    now = next;
  }
  return at;
}

/** The normal matrix with the second derivatives of the observations, weighted by what pulls at them. */
function bent(
  gauss: number[][],
  observations: readonly Observation[],
  at: PlanePoint,
  pulls: readonly number[],
): number[][] {
  let [ee, en, nn] = [gauss[0]?.[0] as number, gauss[0]?.[1] as number, gauss[1]?.[1] as number];
  observations.forEach(({ kind, station }, index) => {
    const [e, n] = [at.east - station.at.east, at.north - station.at.north];
    const d = Math.hypot(e, n);
    const pull = pulls[index] as number;
    if (kind === "distance") {
      const k = pull / d ** 3;
      ee -= k * n * n;
      en += k * e * n;
      nn -= k * e * e;
    } else {
      const k = pull / d ** 4;
      ee += 2 * k * e * n;
      en -= k * (e * e - n * n);
      nn -= 2 * k * e * n;
    }
  });
  return [
    [ee, en],
    [en, nn],
  ];
}

function finished(
  observations: readonly Observation[],
  at: PlanePoint,
  { rows, misclosures, effects, weights, chiSquare }: Linear,
  normal: number[][],
  gain: number[][],
): Adjustment {
  const budget = effects.map(({ source, shared, on }): Contribution => {
    const [east = 0, north = 0] = apply(gain, on);
    return { source, shared, east, north };
  });
  // W − W·A·N⁻¹·Aᵀ·W: the inverse covariance of the observations, less what the point takes up.
  const weightedRows = multiply(weights, rows);
  const taken = multiply(multiply(weightedRows, normal), transpose(weightedRows));
  const pulls = apply(weights, misclosures);
  return {
    at,
    budget: merged(budget),
    degrees: observations.length - 2,
    chiSquare,
    residuals: observations.map(({ label, kind }, index) => {
      const weight = weights[index]?.[index] as number;
      const left = weight - (taken[index]?.[index] as number);
      const redundancy = Math.min(1, Math.max(0, left / weight));
      const unit = kind === "bearing" ? 1 / RADIANS : 1;
      const checked = redundancy > 1e-6;
      const pull = pulls[index] as number;
      return {
        label,
        kind,
        value: (misclosures[index] as number) * unit,
        normalised: checked ? pull / Math.sqrt(left) : 0,
        redundancy,
        blunder: checked ? (pull / left) * unit : 0,
      };
    }),
  };
}

const largestIn = ({ residuals }: Adjustment) =>
  Math.max(...residuals.map(({ normalised }) => Math.abs(normalised)));

/**
 * What the residuals say, as warnings. `what`: "tape" or "bearing"; `again`: the adjustment of fewer observations. A
 * blunder is located when the others agree without it, and without no other one: the residuals of all together would
 * name the wrong one where a large blunder has dragged the point along.
 */
export function judged(
  all: Adjustment,
  observations: readonly Observation[],
  what: string,
  again: (rest: readonly Observation[]) => Adjustment | null,
): Warning[] {
  if (all.degrees === 0) return [];
  const largest = largestIn(all);
  if (largest <= BLUNDER_LIMIT) return fit(all, what);
  const limits = `largest normalised residual ${largest.toFixed(1)}, limit ${BLUNDER_LIMIT}`;
  const suspects =
    all.degrees === 1
      ? []
      : observations.flatMap((observation) => {
          const rest = again(observations.filter((each) => each !== observation));
          return rest && largestIn(rest) <= BLUNDER_LIMIT ? [{ observation, rest }] : [];
        });
  const [only, ...others] = suspects;
  if (only && others.length === 0)
    return [
      {
        code: "blunder-suspect",
        text: `Check ${only.observation.label}: the others agree without it, and by them it is ${tooMuch(only.observation, only.rest.at)} (${limits}). Take it again; until then the point is pulled aside by it.`,
      },
    ];
  const why =
    all.degrees === 1
      ? `With a single ${what} more than needed nobody can tell which`
      : only
        ? `It may be any of these: ${suspects.map(({ observation }) => observation.label).join("; ")}`
        : "Leaving out a single one does not mend it";
  return [
    {
      code: "blunder-not-located",
      text: `The ${what}s do not agree (${limits}). ${why}: take them again, or add another, before you walk away.`,
    },
  ];
}

/** By how much an observation is off at a point, in words. */
function tooMuch(observation: Observation, at: PlanePoint): string {
  const off = misclosure(observation, at);
  return observation.kind === "distance"
    ? `${metres(Math.abs(off))} too ${off > 0 ? "long" : "short"}`
    : `${degrees(Math.abs(off) / RADIANS)} too ${off > 0 ? "large" : "small"}`;
}

/** Without a blunder: whether the observations fit as well as their uncertainties say. */
function fit({ degrees: redundant, chiSquare }: Adjustment, what: string): Warning[] {
  if (chiSquareAbove(chiSquare, redundant) >= 1 - AGREEMENT_LEVEL) return [];
  return [
    {
      code: "residuals-large",
      text: `The ${what}s fit worse than their uncertainties allow (chi-square test at ${AGREEMENT_LEVEL * 100} %, ${chiSquare.toFixed(1)} with ${redundant} more than needed), though none stands out. Take them again, or give larger uncertainties.`,
    },
  ];
}

/** The point, or a refusal in words. */
export function mustAdjust(
  observations: readonly Observation[],
  start: PlanePoint,
  what: string,
): Adjustment {
  return (
    adjust(observations, start) ??
    unplaceable(
      "flat-triangle",
      `These ${what}s do not hold a point: take one from a peg well aside of the others.`,
    )
  );
}
