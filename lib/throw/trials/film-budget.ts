/** What each source of uncertainty makes of a release read off a film, and of the fall that judges it: standard. */
import { projectileAir } from "../flight/projectile";
import { expandedOf } from "./coverage";
import { type Plane, shareOf } from "./film-plane";
import type { FilmRequest, Moved, Worked, Working } from "./film-working";
import { FOOTAGE_SOURCES, type Footage, type FootageSource } from "./footage";
import type { ThrowFit } from "./throw-fit";

/** m/s, rad, and m/s² of the fall. */
export interface Effect {
  speed: number;
  angle: number;
  down: number;
  ahead: number;
}
export type Effects = Record<FootageSource, Effect>;

/** A person's word on how closely taps hit is good to a third: JCGM 100:2008, G.4.2. */
const STATED_DEGREES = 4;
/** How straight a plumb line hangs, standard, rad. */
const PLUMB = 0.3 * (Math.PI / 180);
const RADIAN = Math.PI / 180;
/** Standard for what lies evenly within ±1. */
const EVEN = 1 / Math.sqrt(3);

export interface Budget {
  effects: Effects;
  /** Degrees of freedom of what taps and clock make: of the release, and of the fall. */
  degrees: { release: number; fall: number };
  /** Of the points about the fit, as a multiple of what taps and clock explain; null where nothing is left over. */
  roughness: number | null;
}

export function budgetOf(
  footage: Footage,
  request: FilmRequest,
  { still, windWithin, gravity, work }: Working,
  { plane, fit, slow }: Worked & { slow: number },
  points: number,
): Budget {
  const { tap, plumb, camera, pace } = footage;
  const speed = Math.hypot(fit.vx, fit.vy);
  const angle = Math.atan2(fit.vy, fit.vx);

  // What was said of taps and clock, larger where the points scatter more: both count by their degrees of freedom.
  const clock = footage.clock / slow;
  const stated = (tap * plane.perPixel) ** 2 + (speed * clock) ** 2 / 2;
  const left = 2 * points - 4;
  const rough = roughnessOf(fit.squares / stated, left);
  // Points that fall otherwise than they must scatter about their own parabola, not about the throw.
  const bend = fit.fall?.error ?? 0;
  const own = fit.fall
    ? fit.squares - ((fit.fall.down - gravity) ** 2 + fit.fall.ahead ** 2) / bend ** 2
    : fit.squares;
  const roughFall = roughnessOf(Math.max(0, own) / stated, Math.max(0, left - 2)) / rough;
  const perTap = rough * tap * plane.perPixel;
  const perClock = rough * speed * clock;

  const worst = (...changes: Partial<Moved>[]): Effect =>
    changes.map((change) => effectOf(fit, work(change).fit)).reduce(larger);
  const each = (name: Exclude<keyof Moved, "drag" | "slow">, by: number) =>
    by === 0 ? NONE : worst({ [name]: still[name] + by }, { [name]: still[name] - by });

  const lean = plumb
    ? Math.hypot(
        (Math.SQRT2 * rough * tap) / Math.hypot(plumb[1][0] - plumb[0][0], plumb[1][1] - plumb[0][1]),
        PLUMB,
      )
    : camera.level * RADIAN * EVEN;
  const askew = camera.square * RADIAN * EVEN;
  const { lowDrag, highDrag, lift } = projectileAir(request.projectile);
  const drag = worst({ drag: lowDrag }, { drag: highDrag });
  const perFall = roughFall * bend;
  // Where the fall sets the pace, what makes the fall uncertain makes time so.
  const ofFall = (Math.hypot(perTap, perClock * Math.sin(angle)) * perFall) / (2 * gravity);
  const timing = pace.by === "told" ? pace.timing : ofFall;
  return {
    degrees: { release: STATED_DEGREES + left, fall: STATED_DEGREES + Math.max(0, left - 2) },
    roughness: left > 0 ? Math.sqrt(fit.squares / stated / left) : null,
    effects: {
      taps: {
        speed: perTap * fit.slope,
        angle: (perTap * fit.slope) / speed,
        down: perTap * perFall,
        ahead: perTap * perFall,
      },
      clock: {
        speed: perClock * fit.slope,
        angle: 0,
        down: perClock * perFall * Math.abs(Math.sin(angle)),
        ahead: perClock * perFall * Math.abs(Math.cos(angle)),
      },
      scale: each("scale", scaleShare(footage, plane, rough)),
      level: each("turn", lean),
      square: both(each("yaw", askew), each("pitch", askew)),
      shutter: each("readout", camera.readout * EVEN),
      timing: timing === 0 ? NONE : worst({ slow, time: 1 + timing }, { slow, time: 1 - timing }),
      drag: scaled(both(drag, each("lift", lift)), EVEN),
      wind: each("wind", windWithin * EVEN),
      instant: each("later", ((footage.free - (footage.held ?? footage.free)) / 2 / slow) * EVEN),
    },
  };
}

/** How much more points scatter than was said, the word and what is left over counted by their degrees of freedom. */
const roughnessOf = (squares: number, left: number) =>
  Math.sqrt(Math.max(1, (STATED_DEGREES + squares) / (STATED_DEGREES + left)));

/** How well the scale is known, as a share: the lengths, how far off the plane they lie, how far they differ. */
function scaleShare({ lengths, tap, camera }: Footage, { distance, shares }: Plane, rough: number): number {
  const stated = 1 / Math.hypot(...lengths.map((known) => 1 / Math.max(1e-9, shareOf(known, rough * tap))));
  return Math.hypot(stated, (camera.depth / distance) * EVEN, spread(shares) * EVEN);
}

/** The farthest that one of several lengths' own scale is from their mean, as a share. */
export const spread = (shares: readonly number[]) => Math.max(...shares.map((share) => Math.abs(share - 1)));

/** Combined and expanded by Student's factor for the effective degrees of freedom (Welch and Satterthwaite). */
export function totalOf(
  { effects, degrees }: Budget,
  of: keyof Effect,
  sources: readonly FootageSource[] = FOOTAGE_SOURCES,
) {
  const standard = Math.hypot(...sources.map((source) => effects[source][of]));
  const free = of === "speed" || of === "angle" ? degrees.release : degrees.fall;
  const counted = Math.hypot(effects.taps[of], effects.clock[of]);
  return expandedOf(standard, counted === 0 ? Number.POSITIVE_INFINITY : free * (standard / counted) ** 4);
}

const NONE: Effect = { speed: 0, angle: 0, down: 0, ahead: 0 };

function effectOf(best: ThrowFit, moved: ThrowFit): Effect {
  const turned = Math.atan2(best.vx * moved.vy - best.vy * moved.vx, best.vx * moved.vx + best.vy * moved.vy);
  return {
    speed: Math.abs(Math.hypot(moved.vx, moved.vy) - Math.hypot(best.vx, best.vy)),
    angle: Math.abs(turned),
    down: Math.abs((moved.fall?.down ?? 0) - (best.fall?.down ?? 0)),
    ahead: Math.abs((moved.fall?.ahead ?? 0) - (best.fall?.ahead ?? 0)),
  };
}

const combine = (a: Effect, b: Effect, by: (p: number, q: number) => number): Effect => ({
  speed: by(a.speed, b.speed),
  angle: by(a.angle, b.angle),
  down: by(a.down, b.down),
  ahead: by(a.ahead, b.ahead),
});
const larger = (a: Effect, b: Effect) => combine(a, b, Math.max);
const both = (a: Effect, b: Effect) => combine(a, b, Math.hypot);
const scaled = (a: Effect, share: number) => combine(a, a, (p) => p * share);
