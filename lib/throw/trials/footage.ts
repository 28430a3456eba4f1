/**
 * Release speed and direction from points tapped on the frames of a film: the motion after the release is a throw under
 * known gravity and drag, fitted by least squares in place and speed at the release. Uncertainties are those of JCGM
 * 100:2008: the taps' from the fit, all others by working it out again with each input moved by its standard
 * uncertainty; expanded with k = 2. The picture plane is taken to be the plane of the throw.
 */
import { nominalAir } from "../case";
import type { HazardRequest } from "../contracts/request";
import { projectileAir } from "../flight/projectile";
import {
  doubtful,
  fitThrow,
  gravityOf,
  type Moved,
  NONE,
  type Point,
  slowerBy,
  type Told,
} from "./throw-fit";

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
