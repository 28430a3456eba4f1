/**
 * The worst throws of one exact machine: every release instant of every branch flown with low drag, lift of
 * either sign and the gust blowing the bad way; the best samples then refined between their neighbours.
 */
import type { WorstThrow } from "../contracts/sheet";
import { type Air, Flight, type Impact, windGrowthAt } from "../flight/flight";
import { Scout } from "../flight/scout";
import type { Instant, Releases } from "../release";

/** Samples within this share of the best are refined; the sampling itself errs by far less. */
const REFINE_FROM = 0.93;
/** Peaks that promise less than this share of the best found are left: the scout errs by 1e-4. */
const PROMISING = 0.998;
/**
 * Instants that reach less than this share of the best are not flown again with the other sign of the lift: the
 * two signs differ by about twice the lift's share of the weight, and a larger lift lowers the share with room to
 * spare.
 */
const NEAR = 0.6;
/** Lift beyond this share of the weight can turn a flight about: nothing is ruled out. */
const LARGE_LIFT = 0.3;
const GOLDEN = (Math.sqrt(5) - 1) / 2;
/** Relative error of `worst` that sampling and refinement leave; proven against dense scans in the tests. */
export const SEARCH_ALLOWANCE = 1e-4;

/** Directions towards which a gust may blow aside, degrees to the right of the bearing, and the share of the lift aside. */
const SLANTS = [
  [30, 0],
  [60, 0],
  [120, 0],
  [150, 0],
  [35, 0.7],
  [60, 0.7],
  [120, 0.7],
  [145, 0.7],
] as const;

/** The airs of the worst case: what helps a throw downrange and what helps one uprange. */
export interface WorstAirs {
  forward: readonly Air[];
  backward: readonly Air[];
  /** Lift and gust to the right of the bearing. */
  across: readonly Air[];
  /** The gust slantwise ahead and back, and lift to match. */
  slantwise: readonly Air[];
}

/** Air with low drag, lift of either sign and the gust along or against the bearing. */
export function worstAirs(base: Air, lowDrag: number, lift: number, gust: number): WorstAirs {
  const airs = (windX: number): Air[] => {
    const signs = lift > 0 ? [lift, -lift] : [0];
    return signs.map((signed) => ({ ...base, drag: lowDrag, lift: signed, windX, windZ: 0 }));
  };
  const forward = airs(gust);
  const still = gust === 0 && lift === 0;
  const across = { ...base, drag: lowDrag, lift: 0, sideLift: lift, windX: 0, windZ: gust };
  // What is turned aside flies farthest in a gust along its own way.
  const slantwise = (gust === 0 ? [] : SLANTS).map(([degrees, aside]): Air => {
    const angle = (degrees * Math.PI) / 180;
    const [windX, windZ] = [gust * Math.cos(angle), gust * Math.sin(angle)];
    return { ...across, lift: lift * Math.sqrt(1 - aside ** 2), sideLift: lift * aside, windX, windZ };
  });
  return {
    forward,
    backward: gust === 0 ? forward : airs(-gust),
    across: still ? [] : [across],
    slantwise,
  };
}

/** One flight of the scan; distances by direction, so that `best` compares like with like. */
export interface Candidate {
  instant: Instant;
  distance: number;
  flightTime: number;
}

export interface Scan {
  forward: Candidate | null;
  backward: Candidate | null;
  firstPass: { forward: Candidate | null; backward: Candidate | null };
  /** About how far each instant lands each way, m, for the plot: same order as the instants. */
  reach: { forward: Float64Array; backward: Float64Array };
  /** Highest above the ground, m, and the throw that goes there. */
  apex: number;
  apexBy: Candidate | null;
  /** Largest energy at first impact, J, and the throw that has it. */
  impactEnergy: number;
  impactBy: Candidate | null;
  flights: number;
}

/** A sample that lies between lesser neighbours, and how far the best instant between them may reach, m. */
interface Peak {
  i: number;
  from: number;
  to: number;
  promise: number;
}

type Way = "forward" | "backward";

export function scanWorst(releases: Releases, airs: WorstAirs): Scan {
  return new Scanner(releases, airs).run();
}

class Scanner {
  private readonly flight = new Flight();
  private readonly scout = new Scout();
  private apex = 0;
  private energy = 0;
  private highest: Candidate | null = null;
  private hardest: Candidate | null = null;

  constructor(
    private readonly releases: Releases,
    private readonly airs: WorstAirs,
  ) {}

  run(): Scan {
    const forward = this.scoutAll("forward");
    const backward = this.scoutAll("backward");
    const ways = { forward, backward };
    const pick = (way: Way, firstPass: boolean) => this.best(ways[way], way, firstPass);
    const firstPass = { forward: pick("forward", true), backward: pick("backward", true) };
    const scan: Scan = {
      forward: plainer(pick("forward", false), firstPass.forward),
      backward: plainer(pick("backward", false), firstPass.backward),
      firstPass,
      reach: ways,
      apex: 0,
      apexBy: null,
      impactEnergy: this.energy,
      impactBy: this.hardest,
      flights: 0,
    };
    this.refineApex();
    scan.apex = this.apex;
    scan.apexBy = this.highest;
    scan.flights = this.flight.flown + this.scout.flown;
    return scan;
  }

  /**
   * How far every instant goes one way, m. Where it cannot come near the best, only one sign of the lift is
   * flown, or none: then the reach is a bound below the best.
   */
  private scoutAll(way: Way): Float64Array {
    const { list } = this.releases;
    const airs = this.airs[way];
    const sign = way === "forward" ? 1 : -1;
    const reach = new Float64Array(list.length);
    let best = 0;
    let bestFirstPass = 0;
    list.forEach((instant, i) => {
      const least = Math.min(best, bestFirstPass);
      if (sign * instant.vx < 0 && blownBack(instant, airs[0]) + sign * instant.x < NEAR * least) {
        reach[i] = Number.NEGATIVE_INFINITY;
        return;
      }
      reach[i] = sign * this.note(instant, airs[0]).x;
      best = Math.max(best, reach[i]);
      if (!instant.hangUp) bestFirstPass = Math.max(bestFirstPass, reach[i]);
    });
    const fastest = Math.max(...list.map(({ vx, vy }) => Math.hypot(vx, vy)));
    const share = Math.min(NEAR, 1 - 5 * liftShare(fastest, airs[0]));
    const near = share > 0 ? share * Math.min(best, bestFirstPass) : Number.NEGATIVE_INFINITY;
    for (const air of airs.slice(1)) {
      list.forEach((instant, i) => {
        if (reach[i] >= near) reach[i] = Math.max(reach[i], sign * this.note(instant, air).x);
      });
    }
    return reach;
  }

  private note(instant: Instant, air: Air): Impact {
    const impact = this.scout.fly(air, instant.x, instant.y, instant.vx, instant.vy);
    if (impact.apex > this.apex) {
      this.apex = impact.apex;
      this.highest = flown(instant, impact);
    }
    const energy = 0.5 * air.mass * (impact.vx ** 2 + impact.vy ** 2);
    if (energy > this.energy) {
      this.energy = energy;
      this.hardest = flown(instant, impact);
    }
    return impact;
  }

  /** Distance one way, the best over the airs, m; the flight time of that best. */
  private distance(instant: Instant, way: Way): Candidate {
    const aside = this.releases.allRound?.aside ?? 0;
    let distance = Number.NEGATIVE_INFINITY;
    let flightTime = 0;
    for (const air of this.airs[way]) {
      const impact = this.flight.fly(air, instant.x, instant.y, instant.vx, instant.vy);
      const reached = way === "forward" ? impact.x : -impact.x;
      if (reached > distance) {
        distance = reached;
        flightTime = impact.time;
      }
    }
    // Thrown to any azimuth from a point aside of the firing point, the farthest landing lies straight along the bearing.
    return { instant, distance: aside > 0 ? Math.hypot(distance, aside) : distance, flightTime };
  }

  /** The farthest throw one way; null when none goes that way. */
  private best(reach: Float64Array, way: Way, firstPass: boolean): Candidate | null {
    const { list } = this.releases;
    const allowed = (i: number) => !firstPass || !list[i].hangUp;
    let top = 0;
    for (let i = 0; i < list.length; i++) if (allowed(i)) top = Math.max(top, reach[i]);
    if (top <= 0) return null;
    const peaks: Peak[] = [];
    for (let i = 0; i < list.length; i++) {
      if (!allowed(i) || reach[i] < REFINE_FROM * top) continue;
      const [first, last] = [!this.sameStep(i, i - 1), !this.sameStep(i, i + 1) || !allowed(i + 1)];
      const before = first ? this.across(reach, i, -1) : reach[i - 1];
      const after = last ? this.across(reach, i, 1) : reach[i + 1];
      if (before > reach[i] || after > reach[i]) continue;
      const from = list[first ? i : i - 1].fraction;
      const to = list[last ? i : i + 1].fraction;
      peaks.push({ i, from, to, promise: promiseOf(before, reach[i], after) });
    }
    let best: Candidate | null = null;
    for (const { i, from, to, promise } of peaks.sort((a, b) => b.promise - a.promise)) {
      if (best && promise < PROMISING * best.distance) break;
      const candidate = this.refine(list[i], from, to, way);
      if (!best || candidate.distance > best.distance) best = candidate;
    }
    return best;
  }

  /** The reach of the neighbour across the end of a step, where the motion goes on without a jump; −∞ otherwise. */
  private across(reach: Float64Array, i: number, way: -1 | 1): number {
    const { list } = this.releases;
    const [here, same, next] = [list[i], list[i + way], i + 2 * way];
    const goesOn =
      same &&
      same.segment === here.segment &&
      same.hangUp === here.hangUp &&
      Math.abs(same.vx - here.vx) + Math.abs(same.vy - here.vy) <
        1e-6 * (Math.abs(here.vx) + Math.abs(here.vy)) &&
      this.sameStep(i + way, next);
    return goesOn && list[next].hangUp === here.hangUp ? reach[next] : Number.NEGATIVE_INFINITY;
  }

  private sameStep(i: number, j: number): boolean {
    const { list } = this.releases;
    return j >= 0 && j < list.length && list[j].step === list[i].step;
  }

  /** Golden-section search for the farthest throw between two fractions of one step. */
  private refine(instant: Instant, from: number, to: number, way: Way): Candidate {
    const sampled = this.distance(instant, way);
    if (to <= from) return sampled;
    const scouted = (fraction: number) => {
      const near = this.releases.near(instant, fraction);
      const sign = way === "forward" ? 1 : -1;
      const { x, y, vx, vy } = near;
      return {
        near,
        reach: Math.max(...this.airs[way].map((air) => sign * this.scout.fly(air, x, y, vx, vy).x)),
      };
    };
    // The scout's error changes so slowly with the instant that its best instant is the best one.
    const { near } = goldenMaximum(scouted, ({ reach }) => reach, from, to);
    const found = this.distance(near, way);
    return found.distance > sampled.distance ? found : sampled;
  }

  private refineApex(): void {
    if (!this.highest) return;
    const highest = this.highest.instant;
    const airs =
      this.airs.forward === this.airs.backward
        ? this.airs.forward
        : [...this.airs.forward, ...this.airs.backward];
    const apexOf = (flight: Flight | Scout, { x, y, vx, vy }: Instant) =>
      Math.max(...airs.map((air) => flight.fly(air, x, y, vx, vy).apex));
    const scouted = (fraction: number) => {
      const near = this.releases.near(highest, fraction);
      return { near, apex: apexOf(this.scout, near) };
    };
    const width = 0.5;
    const { near } = goldenMaximum(
      scouted,
      ({ apex }) => apex,
      Math.max(0, highest.fraction - width),
      Math.min(1, highest.fraction + width),
    );
    const [sampled, refined] = [apexOf(this.flight, highest), apexOf(this.flight, near)];
    this.apex = Math.max(sampled, refined);
    if (refined > sampled) this.highest = { ...this.highest, instant: near };
  }
}

/** Of two throws that go equally far the one that is no hang-up. */
const plainer = (any: Candidate | null, first: Candidate | null): Candidate | null =>
  any && first && first.distance >= any.distance * (1 - 1e-9) ? first : any;

const flown = (instant: Instant, { x, time }: Impact): Candidate => ({
  instant,
  distance: Math.abs(x),
  flightTime: time,
});

/**
 * How far the best instant about a peak may reach: the parabola through three samples rises above the middle one by
 * no more than an eighth of what it falls to the lower neighbour, and twice that is taken. A peak at the end of its
 * step may rise by as much as the sampling lets any neighbour differ.
 */
function promiseOf(before: number, at: number, after: number): number {
  const lower = Math.min(before, after);
  return lower > Number.NEGATIVE_INFINITY ? at + (at - lower) / 4 : at / REFINE_FROM;
}

/** Lift at a speed as a share of the weight. */
function liftShare(speed: number, air: Air): number {
  return (0.5 * air.density * air.area * Math.abs(air.lift) * speed * speed) / (air.mass * air.gravity);
}

/**
 * How far wind and lift can at most carry a projectile back against its release, m: at the wind's speed, and
 * pushed by the lift, for half as long again as it would fly without air. Infinite where the lift is not small.
 */
function blownBack({ y, vx, vy }: Instant, air: Air): number {
  const { gravity } = air;
  const speed = Math.hypot(vx, vy);
  const lift = liftShare(speed, air);
  if (lift > LARGE_LIFT) return Number.POSITIVE_INFINITY;
  const time = (1.5 * (vy + Math.sqrt(Math.max(0, vy * vy + 2 * gravity * y)))) / gravity;
  // The wind where it is strongest: at the top of an airless throw straight up, and half as high again.
  const top = (1.5 * (speed * speed)) / (2 * gravity) + y;
  const wind = Math.hypot(air.windX, air.windZ) * windGrowthAt(air, Math.max(top, air.anemometerHeight));
  return Math.max(0, time) * wind + 0.5 * lift * gravity * time * time;
}

/** The best that a golden-section search of a unimodal function meets between two points. */
export function goldenMaximum<T>(at: (x: number) => T, value: (t: T) => number, from: number, to: number): T {
  let a = from;
  let b = to;
  let x1 = b - GOLDEN * (b - a);
  let x2 = a + GOLDEN * (b - a);
  let r1 = at(x1);
  let r2 = at(x2);
  let best = value(r1) > value(r2) ? r1 : r2;
  for (let i = 0; i < 18; i++) {
    if (value(r1) > value(r2)) {
      b = x2;
      x2 = x1;
      r2 = r1;
      x1 = b - GOLDEN * (b - a);
      r1 = at(x1);
      if (value(r1) > value(best)) best = r1;
    } else {
      a = x1;
      x1 = x2;
      r1 = r2;
      x2 = a + GOLDEN * (b - a);
      r2 = at(x2);
      if (value(r2) > value(best)) best = r2;
    }
  }
  return best;
}

const NOTHING = {
  distance: 0,
  releaseTime: null,
  releaseSpeed: null,
  launchAngle: null,
  releaseHeight: null,
  flightTime: null,
  afterSlack: false,
  hangUp: false,
  stop: "none",
} as const;

/** Where in the box a throw was found. */
export type Found = Pick<WorstThrow, "corner" | "frame" | "load">;

export const DECLARED: Found = { corner: {}, frame: "held", load: "declared" };

/** A candidate as the sheet shows it, its distance stretched by `allowance`: what the search may have missed. */
export function worstThrow(candidate: Candidate | null, found: Found, allowance: number): WorstThrow {
  if (!candidate) return { ...NOTHING, ...DECLARED, allowance: 0 };
  const { instant } = candidate;
  return {
    distance: candidate.distance * (1 + allowance),
    releaseTime: instant.time,
    releaseSpeed: Math.hypot(instant.vx, instant.vy),
    launchAngle: (Math.atan2(instant.vy, instant.vx) * 180) / Math.PI,
    releaseHeight: instant.y,
    flightTime: candidate.flightTime,
    afterSlack: instant.afterSlack,
    hangUp: instant.hangUp,
    stop: instant.stop,
    ...found,
    allowance,
  };
}
