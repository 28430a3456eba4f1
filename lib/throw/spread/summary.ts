/** What a cloud of landing points says: percentiles, mean, ellipse, chances, each with its standard error. */
import type { Crossing, Dispersion, DispersionRequest } from "../contracts/spread";
import { CODE_VERSION } from "../version";
import { HELD, IMPOSSIBLE, LANDED, type Landings } from "./dispersion";

const SHARES = [0.01, 0.05, 0.25, 0.5, 0.75, 0.95, 0.99];
/** Two-sided 95 % of a normal distribution. */
const Z95 = 1.959963984540054;

/** Chunks in the order of their draws as one. */
export function joined(chunks: readonly Landings[]): Landings {
  const count = chunks.reduce((sum, { outcomes }) => sum + outcomes.length, 0);
  const whole: Landings = { points: new Float64Array(2 * count), outcomes: new Uint8Array(count) };
  let at = 0;
  for (const { points, outcomes } of chunks) {
    whole.points.set(points, 2 * at);
    whole.outcomes.set(outcomes, at);
    at += outcomes.length;
  }
  return whole;
}

export function summarise(
  { points, outcomes }: Landings,
  asked: Pick<DispersionRequest, "seed" | "aim" | "windTurn" | "probability" | "crossings" | "points">,
): Dispersion {
  const x: number[] = [];
  const z: number[] = [];
  let held = 0;
  let impossible = 0;
  outcomes.forEach((outcome, i) => {
    if (outcome === HELD) held++;
    if (outcome === IMPOSSIBLE) impossible++;
    if (outcome !== LANDED) return;
    x.push(points[2 * i]);
    z.push(points[2 * i + 1]);
  });
  const machines = x.length + held;
  return {
    codeVersion: CODE_VERSION,
    draws: outcomes.length,
    seed: asked.seed,
    landed: x.length,
    held,
    impossible,
    spread: x.length < 2 ? null : spreadOf(x, z, asked.probability),
    crossings: asked.crossings.map((crossing) => {
      const crosses = crossingTest(crossing);
      let count = 0;
      for (let i = 0; i < x.length; i++) if (crosses(x[i], z[i])) count++;
      return { name: crossing.name ?? null, ...chanceOf(count, machines) };
    }),
    points: x.slice(0, asked.points).map((each, i): [number, number] => [each, z[i]]),
    assumptions: assumptionsOf(asked),
  };
}

function spreadOf(x: readonly number[], z: readonly number[], probability: number) {
  const n = x.length;
  const { meanX, meanZ, xx, zz } = moments(x, z);
  return {
    mean: {
      distance: { value: meanX, standardError: Math.sqrt(xx / n) },
      drift: { value: meanZ, standardError: Math.sqrt(zz / n) },
    },
    standardDeviation: { distance: Math.sqrt(xx), drift: Math.sqrt(zz) },
    percentiles: percentiles(x, SHARES),
    ellipse: ellipseOf(x, z, probability),
  };
}

/** Means, and the covariance matrix with n − 1. */
function moments(x: readonly number[], z: readonly number[]) {
  const n = x.length;
  const meanX = x.reduce((sum, each) => sum + each, 0) / n;
  const meanZ = z.reduce((sum, each) => sum + each, 0) / n;
  let [xx, xz, zz] = [0, 0, 0];
  for (let i = 0; i < n; i++) {
    xx += (x[i] - meanX) ** 2;
    xz += (x[i] - meanX) * (z[i] - meanZ);
    zz += (z[i] - meanZ) ** 2;
  }
  return { meanX, meanZ, xx: xx / (n - 1), xz: xz / (n - 1), zz: zz / (n - 1) };
}

/**
 * Quantiles by linear interpolation between order statistics (R. J. Hyndman, Y. Fan, 1996, type 7). The standard error
 * of each is half the difference of the quantiles one binomial standard deviation to either side: no distribution is
 * assumed.
 */
export function percentiles(
  values: readonly number[],
  shares: readonly number[],
): { share: number; distance: number; standardError: number }[] {
  const sorted = Float64Array.from(values).sort();
  const last = sorted.length - 1;
  const at = (share: number) => {
    const place = Math.min(1, Math.max(0, share)) * last;
    const below = Math.floor(place);
    const above = Math.min(last, below + 1);
    return sorted[below] + (place - below) * (sorted[above] - sorted[below]);
  };
  return shares.map((share) => {
    const width = Math.sqrt((share * (1 - share)) / sorted.length);
    return { share, distance: at(share), standardError: (at(share + width) - at(share - width)) / 2 };
  });
}

/**
 * The ellipse about the mean that holds the stated share of a normal distribution with the same covariance:
 * its squared size is the quantile −2 ln(1 − P) of χ² with two degrees of freedom.
 */
export function ellipseOf(
  x: readonly number[],
  z: readonly number[],
  probability: number,
): {
  probability: number;
  semiMajor: number;
  semiMinor: number;
  direction: number;
  holds: number;
} {
  const { meanX, meanZ, xx, xz, zz } = moments(x, z);
  const middle = (xx + zz) / 2;
  const half = Math.hypot((xx - zz) / 2, xz);
  const major = Math.sqrt(middle + half);
  const minor = Math.sqrt(Math.max(0, middle - half));
  const angle = 0.5 * Math.atan2(2 * xz, xx - zz);
  const size = Math.sqrt(-2 * Math.log(1 - probability));
  const [ahead, aside] = [Math.cos(angle), Math.sin(angle)];
  const within = (value: number, deviation: number) =>
    deviation > 0 ? (value / (size * deviation)) ** 2 : 0;
  let inside = 0;
  for (let i = 0; i < x.length; i++) {
    const [dx, dz] = [x[i] - meanX, z[i] - meanZ];
    if (within(dx * ahead + dz * aside, major) + within(dz * ahead - dx * aside, minor) <= 1) inside++;
  }
  const degrees = (angle * 180) / Math.PI;
  return {
    probability,
    semiMajor: size * major,
    semiMinor: size * minor,
    direction: degrees < 0 ? degrees + 180 : degrees,
    holds: inside / x.length,
  };
}

/**
 * A share counted in `of` draws, its standard error, and E. B. Wilson's interval (1927), which stays honest where none
 * or all were counted.
 */
export function chanceOf(count: number, of: number) {
  if (of === 0) return { chance: 0, standardError: 0, interval: [0, 1] as [number, number] };
  const chance = count / of;
  const z2 = Z95 * Z95;
  const centre = (chance + z2 / (2 * of)) / (1 + z2 / of);
  const half = (Z95 * Math.sqrt((chance * (1 - chance)) / of + z2 / (4 * of * of))) / (1 + z2 / of);
  return {
    chance,
    standardError: Math.sqrt((chance * (1 - chance)) / of),
    interval: [
      count === 0 ? 0 : Math.max(0, centre - half),
      count === of ? 1 : Math.min(1, centre + half),
    ] as [number, number],
  };
}

/** Whether a landing lies beyond the line or inside the polygon. */
export function crossingTest(crossing: Crossing): (x: number, z: number) => boolean {
  if ("beyond" in crossing) {
    const { beyond } = crossing;
    return beyond > 0 ? (x) => x > beyond : (x) => x < beyond;
  }
  if ("line" in crossing) {
    const [[ax, az], [bx, bz]] = crossing.line;
    const side = (x: number, z: number) => (bx - ax) * (z - az) - (bz - az) * (x - ax);
    const near = Math.sign(side(0, 0));
    return (x, z) => Math.sign(side(x, z)) === -near;
  }
  const { polygon } = crossing;
  return (x, z) => {
    let inside = false;
    for (let i = 0, j = polygon.length - 1; i < polygon.length; j = i++) {
      const [xi, zi] = polygon[i];
      const [xj, zj] = polygon[j];
      if (zi > z !== zj > z && x < xi + ((z - zi) * (xj - xi)) / (zj - zi)) inside = !inside;
    }
    return inside;
  };
}

function assumptionsOf({ aim, windTurn }: Pick<DispersionRequest, "aim" | "windTurn">): string[] {
  return [
    "Ordinary throws only, let go as meant: slips too early or too late, torn slings and broken machines are not in it. It never makes a zone smaller.",
    "Every tolerance, declared or usual for the kind, is a pair of limits with all values between them equally likely, independent of each other.",
    "The wind is equally likely to have any speed from its mean to its gust, and constant during a throw.",
    aim > 0 || windTurn > 0
      ? `The aim errs by up to ${aim}° either way, the wind turns by up to ${windTurn}°.`
      : "The aim is perfect and the wind keeps its direction: give how far they turn, or the ellipse is too narrow.",
    "First impacts: bounce and roll come on top.",
  ];
}
