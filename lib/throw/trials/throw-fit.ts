/**
 * A throw fitted to points of its way: place and velocity at time 0 by least squares, gravity and air known; and the fall
 * that the points themselves have, which judges scale, time and level.
 */
import { type AirWay, airDisplacements } from "./air-way";

export interface Told {
  value: number;
  /** Expanded. */
  uncertainty: number;
}

export interface Point {
  /** s, m */
  t: number;
  x: number;
  y: number;
}

export interface ThrowFit {
  x: number;
  y: number;
  vx: number;
  vy: number;
  squares: number;
  /** Standard uncertainty of a speed for points of 1 m, 1/s. */
  slope: number;
  /** What the points fall by with nothing assumed of gravity, m/s²; null where fewer than three tell. */
  fall: { down: number; ahead: number /** Standard, for points of 1 m, 1/s². */; error: number } | null;
}

/** The air's part is taken off the points as the throw that was found last has it; that settles at once. */
export function fitThrow(points: readonly Point[], air: AirWay): ThrowFit {
  const times = points.map(({ t }) => t);
  let moved: Float64Array = new Float64Array(2 * points.length);
  let fit: Omit<ThrowFit, "fall"> | null = null;
  for (let round = 0; round < 4; round++) {
    const across = line(
      times,
      points.map(({ x }, i) => x - (moved[2 * i] as number)),
    );
    const up = line(
      times,
      points.map(({ t, y }, i) => y - (moved[2 * i + 1] as number) + 0.5 * air.gravity * t * t),
    );
    fit = {
      x: across.at,
      y: up.at,
      vx: across.slope,
      vy: up.slope,
      squares: across.squares + up.squares,
      slope: across.error,
    };
    if (round < 3) moved = airDisplacements(air, fit.vx, fit.vy, times);
  }
  return { ...(fit as ThrowFit), fall: fallOf(points, moved) };
}

/** The straight line through values by least squares, at time 0; `error` is of its slope for values of error 1. */
function line(times: readonly number[], values: readonly number[]) {
  const n = times.length;
  const mean = times.reduce((sum, t) => sum + t, 0) / n;
  const middle = values.reduce((sum, v) => sum + v, 0) / n;
  const spread = times.reduce((sum, t) => sum + (t - mean) ** 2, 0);
  const slope = times.reduce((sum, t, i) => sum + (t - mean) * ((values[i] as number) - middle), 0) / spread;
  const at = middle - slope * mean;
  const squares = times.reduce((sum, t, i) => sum + ((values[i] as number) - at - slope * t) ** 2, 0);
  return { at, slope, squares, error: 1 / Math.sqrt(spread) };
}

/** Twice the bend of the points, less what the air did. */
function fallOf(points: readonly Point[], moved: Float64Array): ThrowFit["fall"] {
  if (points.length < 3) return null;
  const times = points.map(({ t }) => t);
  // What is square in time and no straight line.
  const bent = times.map((t) => 0.5 * t * t);
  const straight = line(times, bent);
  const curve = bent.map((b, i) => b - straight.at - straight.slope * (times[i] as number));
  const norm = curve.reduce((sum, c) => sum + c * c, 0);
  if (!(norm > 0)) return null;
  const bend = (of: (point: Point, i: number) => number) =>
    points.reduce((sum, point, i) => sum + (curve[i] as number) * of(point, i), 0) / norm;
  return {
    down: -bend(({ y }, i) => y - (moved[2 * i + 1] as number)),
    ahead: bend(({ x }, i) => x - (moved[2 * i] as number)),
    error: 1 / Math.sqrt(norm),
  };
}
