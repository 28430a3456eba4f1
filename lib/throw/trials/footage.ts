/**
 * Release speed and direction from points tapped on the frames of a film: the motion after the release is a throw under
 * known gravity and drag, fitted by least squares in place and speed at the release. Uncertainties are those of JCGM
 * 100:2008: the taps' from the fit, all others by working it out again with each input moved by its standard
 * uncertainty; expanded with k = 2. The picture plane is taken to be the plane of the throw.
 */
import { nominalAir } from "../case";
import type { HazardRequest } from "../contracts/request";
import type { Air } from "../flight/flight";
import { projectileAir } from "../flight/projectile";
import { dragDisplacements } from "./drag";

/** Picture elements to the right and down. */
export type Pixel = readonly [number, number];

export interface FrameMarks {
  /** s, in true time. */
  time: number;
  tip: Pixel | null;
  projectile: Pixel | null;
  /** Whether the loop has slipped in this frame. */
  free: boolean;
}

export interface Footage {
  /** The arm's axle; without it no angle of the sling is told. */
  pivot: Pixel | null;
  /** A known length in the plane of the throw, m, with its standard uncertainty. */
  scale: { from: Pixel; to: Pixel; length: number; uncertainty: number };
  /** Where the machine throws to in the picture. */
  towards: "right" | "left";
  /** In the order of time. */
  frames: readonly FrameMarks[];
  /** How closely a point is tapped: standard deviation in each direction, picture elements. */
  tap: number;
  /** How far the camera may lean at most, ± degrees. */
  level: number;
  /** Of the time between frames: standard uncertainty as a share. */
  timing: number;
}

export interface Told {
  value: number;
  /** Expanded, k = 2. */
  uncertainty: number;
}

export const FOOTAGE_SOURCES = ["taps", "scale", "level", "timing", "drag", "instant"] as const;
export type FootageSource = (typeof FOOTAGE_SOURCES)[number];

export type FootageResult =
  | { ok: false; why: "scale" | "few-points" | "order" }
  | {
      ok: true;
      /** m/s. */
      speed: Told;
      /** Degrees above the horizontal, downrange 0. */
      launchAngle: Told;
      /** Between the sling and the outward line of the arm, degrees, as a machine's release angle; null where pivot, tip or
       * projectile are missing on either side of the release. */
      slingAngle: Told | null;
      /** Where the projectile leaves, m from the pivot (from the first end of the known length without one). */
      at: { ahead: number; up: number };
      /** s: the frames between which the loop slipped. */
      between: readonly [number, number];
      points: number;
      /** What each source alone makes of speed and direction, standard, m/s and degrees. */
      budget: Record<FootageSource, { speed: number; angle: number }>;
      /** Of the points about the fit, as a multiple of what the taps explain; null below three points. */
      roughness: number | null;
      /** Gravity as the points have it, m/s²: known better, so it judges scale and time. Null below four points. */
      gravity: Told | null;
      /** How many times slower than true the film plays, where gravity says that it does; null where it agrees. */
      slower: number | null;
    };

export const FEWEST_POINTS = 3;

interface Point {
  t: number;
  x: number;
  y: number;
}

/** What one working-out moves: all of it none by default. */
interface Moved {
  scale: number;
  time: number;
  /** rad */
  turn: number;
  /** s */
  later: number;
  drag: number | null;
}
const NONE = { scale: 1, time: 1, turn: 0, later: 0 };

export function releaseFromFootage(
  footage: Footage,
  request: Pick<HazardRequest, "projectile" | "air" | "site" | "terrain" | "machine">,
): FootageResult {
  const { scale, frames, tap } = footage;
  const long = Math.hypot(scale.to[0] - scale.from[0], scale.to[1] - scale.from[1]);
  if (!(long > 4 * tap && scale.length > 0)) return { ok: false, why: "scale" };
  const free = frames.filter((frame) => frame.free && frame.projectile);
  if (free.length < FEWEST_POINTS) return { ok: false, why: "few-points" };
  const firstFree = frames.find((frame) => frame.free) as FrameMarks;
  const held = frames.filter((frame) => !frame.free);
  if (held.some(({ time }) => time >= firstFree.time)) return { ok: false, why: "order" };

  const step = medianStep(frames);
  const lastHeld = held.at(-1)?.time ?? firstFree.time - step;
  const between = [lastHeld, firstFree.time] as const;
  const middle = (lastHeld + firstFree.time) / 2;
  const half = (firstFree.time - lastHeld) / 2;
  const perPixel = scale.length / long;
  const origin = footage.pivot ?? scale.from;
  const air = nominalAir(request as HazardRequest);
  const points = free.map(({ time, projectile }): Point => {
    const [px, py] = projectile as Pixel;
    const across = footage.towards === "right" ? px - origin[0] : origin[0] - px;
    return { t: time - middle, x: across * perPixel, y: (origin[1] - py) * perPixel };
  });

  const solve = (moved: Partial<Moved>) => fitThrow(points, air, { ...NONE, drag: air.drag, ...moved });
  const best = solve({});
  // Of a point in one direction.
  const perTap = tap * perPixel;
  const degrees = 2 * points.length - 4;
  const rough = degrees > 0 ? Math.sqrt(best.squares / degrees) : null;
  const sigma = Math.max(perTap, rough ?? 0);
  const speed = Math.hypot(best.vx, best.vy);
  const angle = Math.atan2(best.vy, best.vx);

  const moves = (a: Partial<Moved>, b: Partial<Moved>, share: number) => {
    const [one, other] = [solve(a), solve(b)];
    const turned = Math.atan2(one.vx * other.vy - one.vy * other.vx, one.vx * other.vx + one.vy * other.vy);
    const faster = Math.hypot(one.vx, one.vy) - Math.hypot(other.vx, other.vy);
    return { speed: Math.abs(faster) * share, angle: (Math.abs(turned) * share) / RADIAN };
  };
  const known = Math.hypot((Math.SQRT2 * tap) / long, scale.uncertainty / scale.length);
  const lean = (footage.level * RADIAN) / Math.sqrt(3);
  const late = half / Math.sqrt(3);
  const { lowDrag, highDrag } = projectileAir(request.projectile);
  const slope = sigma * best.slope;
  const budget: Record<FootageSource, { speed: number; angle: number }> = {
    taps: { speed: slope, angle: slope / speed / RADIAN },
    scale: moves({ scale: 1 + known }, { scale: 1 - known }, 0.5),
    level: moves({ turn: lean }, { turn: -lean }, 0.5),
    timing: moves({ time: 1 + footage.timing }, { time: 1 - footage.timing }, 0.5),
    drag: moves({ drag: lowDrag }, { drag: highDrag }, 0.5 / Math.sqrt(3)),
    instant: moves({ later: late }, { later: -late }, 0.5),
  };
  const total = (of: "speed" | "angle") => 2 * Math.hypot(...FOOTAGE_SOURCES.map((each) => budget[each][of]));
  const gravity = gravityOf(points, best.drag, air.gravity, sigma);
  return {
    ok: true,
    speed: { value: speed, uncertainty: total("speed") },
    launchAngle: { value: angle / RADIAN, uncertainty: total("angle") },
    slingAngle: slingAngleAt(footage, held.at(-1), firstFree),
    at: { ahead: best.x, up: best.y },
    between,
    points: points.length,
    budget,
    roughness: rough === null ? null : rough / perTap,
    gravity,
    slower: doubtful(gravity, air.gravity, known)
      ? slowerBy((time) => gravityOf(points, solve({ time }).drag, air.gravity, sigma, time), air.gravity)
      : null,
  };
}

const RADIAN = Math.PI / 180;

interface ThrowFit {
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
function fitThrow(points: readonly Point[], air: Air, moved: Moved): ThrowFit {
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
function gravityOf(
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
function doubtful(gravity: Told | null, known: number, scale: number): boolean {
  if (!gravity) return false;
  const explained = 1.5 * gravity.uncertainty + 3 * scale * known;
  return Math.abs(gravity.value - known) > explained && gravity.uncertainty < 0.5 * known;
}

/** How many times slower than true it plays for the points to fall as they must; drag is that of the true speed. */
function slowerBy(gravityAt: (time: number) => Told | null, known: number): number | null {
  let slower = 1;
  for (let round = 0; round < 6; round++) {
    const found = gravityAt(1 / slower)?.value ?? 0;
    if (!(found > 0.001)) return null;
    slower *= Math.sqrt(known / found);
  }
  return slower;
}

/** Halfway between the last frame in the sling and the first free one; what is between them is not known. */
function slingAngleAt(footage: Footage, before: FrameMarks | undefined, after: FrameMarks): Told | null {
  const { pivot, towards, tap } = footage;
  if (!pivot || !before) return null;
  const mirror = towards === "right" ? 1 : -1;
  const one = ({ tip, projectile }: FrameMarks) => {
    if (!tip || !projectile) return null;
    const direction = (from: Pixel, to: Pixel) => Math.atan2(from[1] - to[1], mirror * (to[0] - from[0]));
    const off = direction(tip, projectile) - direction(pivot, tip);
    const sling = Math.hypot(projectile[0] - tip[0], projectile[1] - tip[1]);
    const arm = Math.hypot(tip[0] - pivot[0], tip[1] - pivot[1]);
    return {
      angle: (off - 2 * Math.PI * Math.round(off / (2 * Math.PI))) / RADIAN,
      error: (Math.SQRT2 * tap * Math.hypot(1 / sling, 1 / arm)) / RADIAN,
    };
  };
  const [a, b] = [one(before), one(after)];
  if (!a || !b) return null;
  const unseen = Math.abs(a.angle - b.angle) / 2 / Math.sqrt(3);
  return {
    value: (a.angle + b.angle) / 2,
    uncertainty: 2 * Math.hypot(unseen, Math.hypot(a.error, b.error) / 2),
  };
}

function medianStep(frames: readonly FrameMarks[]): number {
  const steps = frames.slice(1).map(({ time }, i) => time - (frames[i]?.time ?? 0));
  steps.sort((a, b) => a - b);
  return steps[Math.floor(steps.length / 2)] ?? 0;
}
