/**
 * A throw fitted to points of its way: place and velocity at time 0 by least squares, gravity and drag known; and gravity
 * as the points have it, which judges scale and time.
 */
import type { Air } from "../flight/flight";
import { dragDisplacements } from "./drag";

export interface Told {
  value: number;
  /** Expanded, k = 2. */
  uncertainty: number;
}

export interface Point {
  t: number;
  x: number;
  y: number;
}

/** What one working-out moves: none of it by default. */
export interface Moved {
  scale: number;
  time: number;
  /** rad */
  turn: number;
  /** s */
  later: number;
  drag: number | null;
}
export const NONE = { scale: 1, time: 1, turn: 0, later: 0 };

export interface ThrowFit {
  x: number;
  y: number;
  vx: number;
  vy: number;
  squares: number;
  /** Standard uncertainty of a speed for points of 1 m, 1/s. */
  slope: number;
  /** What drag moved each point by, x0, y0, x1, y1, …, m. */
  drag: Float64Array;
}

/** Drag is taken off the points as the throw that was found last has it; that settles at once. */
export function fitThrow(points: readonly Point[], air: Air, moved: Moved): ThrowFit {
  const [c, s] = [Math.cos(moved.turn), Math.sin(moved.turn)];
  const at = points.map(({ t, x, y }) => ({
    t: moved.time * t - moved.later,
    x: moved.scale * (c * x - s * y),
    y: moved.scale * (s * x + c * y),
  }));
  const times = at.map(({ t }) => t);
  let drag: Float64Array = new Float64Array(2 * points.length);
  let fit: ThrowFit | null = null;
  for (let round = 0; round < 4; round++) {
    const across = line(
      times,
      at.map(({ x }, i) => x - (drag[2 * i] as number)),
    );
    const up = line(
      times,
      at.map(({ t, y }, i) => y - (drag[2 * i + 1] as number) + 0.5 * air.gravity * t * t),
    );
    fit = {
      x: across.at,
      y: up.at,
      vx: across.slope,
      vy: up.slope,
      squares: across.squares + up.squares,
      slope: across.error,
      drag,
    };
    drag = dragDisplacements({ ...air, drag: moved.drag }, fit.vx, fit.vy, times);
  }
  return fit as ThrowFit;
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

/** The fall of the points with nothing assumed of gravity: twice the bend of their parabola. */
export function gravityOf(
  points: readonly Point[],
  drag: Float64Array,
  known: number,
  sigma: number,
  time = 1,
): Told | null {
  if (points.length < 4) return null;
  const times = points.map(({ t }) => time * t);
  // What the known gravity leaves, against what is square in time and no straight line.
  const bent = times.map((t) => 0.5 * t * t);
  const left = bent.map((b, i) => (points[i]?.y ?? 0) - (drag[2 * i + 1] as number) + known * b);
  const straight = line(times, bent);
  const curve = bent.map((b, i) => b - straight.at - straight.slope * (times[i] as number));
  const norm = curve.reduce((sum, c) => sum + c * c, 0);
  if (!(norm > 0)) return null;
  const more = curve.reduce((sum, c, i) => sum + c * (left[i] as number), 0) / norm;
  return { value: known - more, uncertainty: (2 * sigma) / Math.sqrt(norm) };
}

/** Whether the points fall otherwise than they must, by more than taps and scale explain. */
export function doubtful(gravity: Told | null, known: number, scale: number): boolean {
  if (!gravity) return false;
  const explained = 1.5 * gravity.uncertainty + 3 * scale * known;
  return Math.abs(gravity.value - known) > explained && gravity.uncertainty < 0.5 * known;
}

/** How many times slower than true it plays for the points to fall as they must; drag is that of the true speed. */
export function slowerBy(gravityAt: (time: number) => Told | null, known: number): number | null {
  let slower = 1;
  for (let round = 0; round < 6; round++) {
    const found = gravityAt(1 / slower)?.value ?? 0;
    if (!(found > 0.001)) return null;
    slower *= Math.sqrt(known / found);
  }
  return slower;
}
