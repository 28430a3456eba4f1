/** Of all instants at which a projectile may come free, those from which it flies to the target. */
import type { Explanation } from "../contracts/replay";
import type { Air } from "../flight/flight";
import { type Instant, type Releases, turnBetween } from "../release";
import { goldenMaximum } from "../worst/scan";
import { crossing, type Landed, type Lander, type Limits, type Start, type Turn } from "./landing";
import { RADIAN } from "./target";

export type Cause = Explanation["cause"];

/** One way to the target, or the nearest to it. */
export interface Hit {
  key: string;
  cause: Cause;
  turnBy: Explanation["turnBy"];
  instant: Instant;
  turn: Turn;
  landed: Landed;
  miss: number;
}

/** A release this near to the one as meant is a small error of it: in direction, and as a share of the speed. */
const NEAR_TURN = 5 * RADIAN;
const NEAR_SPEED = 0.05;
/** Crossings of one group that are worked out, those nearest in time to the throw as meant. */
const MOST_HITS = 4;
/** The turn and the instant are corrected in turn so often. */
const ROUNDS = 6;
/** A landing this near to the target is on it, m. */
const ON_TARGET = 0.002;

export interface Scanned {
  hits: Hit[];
  /** Of each group that never meets the target, the nearest miss. */
  nearest: Hit[];
}

interface Bracket {
  at: Instant;
  from: number;
  to: number;
}

/** Why an instant is not the throw as meant. */
export function causeOf(instant: Instant, nominal: Instant | null): Cause {
  if (instant.hangUp) return "hang-up";
  if (!nominal) return "astray";
  const speed = Math.hypot(nominal.vx, nominal.vy);
  const same =
    instant.stop !== "fails" &&
    turnBetween(instant, nominal) <= NEAR_TURN &&
    Math.abs(Math.hypot(instant.vx, instant.vy) - speed) <= NEAR_SPEED * speed;
  if (same) return "as-meant";
  if (instant.time === nominal.time) return "astray";
  return instant.time < nominal.time ? "early" : "late";
}

export class InstantScan {
  constructor(
    private readonly releases: Releases,
    private readonly lander: Lander,
    private readonly limits: Limits,
    /** The throw as meant, for the causes; that of the releases themselves by default. */
    private readonly nominal: Instant | null = releases.nominal,
  ) {}

  /** @param only the one group wanted; all without it */
  run(air: Air, only?: string): Scanned {
    const { list } = this.releases;
    const brackets = new Map<string, Bracket[]>();
    const closest = new Map<string, { short: number; i: number }>();
    let before: { key: string; short: number; i: number } | null = null;
    for (let i = 0; i < list.length; i++) {
      const here = this.look(list[i], air, only);
      if (!here) {
        before = null;
        continue;
      }
      const known = closest.get(here.key);
      if (!known || Math.abs(here.short) < Math.abs(known.short)) {
        closest.set(here.key, { short: here.short, i });
      }
      const last = before && list[before.i];
      if (before && last && last.step === list[i].step && last.segment === list[i].segment) {
        if (before.key === here.key && before.short * here.short <= 0) {
          const of = brackets.get(here.key) ?? [];
          of.push({ at: list[i], from: last.fraction, to: list[i].fraction });
          brackets.set(here.key, of);
        }
      }
      before = { ...here, i };
    }
    const hits: Hit[] = [];
    const meant = this.nominal?.time ?? 0;
    for (const [key, found] of brackets) {
      found.sort((a, b) => Math.abs(a.at.time - meant) - Math.abs(b.at.time - meant));
      for (const bracket of found.slice(0, MOST_HITS)) {
        const hit = this.refined(key, bracket, air);
        if (hit) hits.push(hit);
      }
    }
    const nearest: Hit[] = [];
    for (const [key, { i }] of closest) {
      if (brackets.has(key)) continue;
      const hit = this.nearest(key, i, air);
      if (hit) nearest.push(hit);
    }
    return { hits, nearest };
  }

  /** Arms that spin in a level plane let go from aside of the firing point, towards any azimuth. */
  private start(instant: Instant): Start {
    const { allRound } = this.releases;
    return allRound && instant.z === undefined ? { ...instant, z: allRound.aside } : instant;
  }

  private turnBy(turn: Turn): Explanation["turnBy"] {
    if (this.releases.allRound) return "all-round";
    if (turn.velocity !== 0) return "torn-sling";
    return turn.plane === 0 ? "none" : "aim";
  }

  private turnFor(start: Start): Turn | null {
    const limits = this.releases.allRound ? { plane: Math.PI, velocity: 0 } : this.limits;
    return this.lander.turnFor(start, limits);
  }

  private look(instant: Instant, air: Air, only: string | undefined) {
    const start = this.start(instant);
    const turn = this.turnFor(start);
    if (!turn) return null;
    const key = this.keyOf(instant, turn);
    if (only !== undefined && key !== only) return null;
    // Turned about the firing point the distance stays what it is: flown in its own plane, which is quicker.
    const flown = turn.velocity === 0 ? { plane: 0, velocity: 0 } : turn;
    const landed = this.lander.land(start, air, flown, false);
    const range = Math.hypot(landed.endX, landed.endZ);
    if (!Number.isFinite(range)) return null;
    const towards = landed.endX * instant.vx >= 0 || turn.velocity !== 0;
    return { key, short: (towards ? range : -range) - this.lander.target.distance };
  }

  private keyOf(instant: Instant, turn: Turn): string {
    const cause = causeOf(instant, this.nominal);
    const slack = instant.afterSlack ? "slack" : "";
    return [cause, slack, instant.stop, turn.velocity === 0 ? "aim" : "torn"].join("/");
  }

  private refined(key: string, { at, from, to }: Bracket, air: Air): Hit | null {
    const { lander, releases } = this;
    let extra: Turn = { plane: 0, velocity: 0 };
    let [low, high] = [from, to];
    let best: Hit | null = null;
    for (let round = 0; round < ROUNDS; round++) {
      const landing = (fraction: number) => this.flown(releases.near(at, fraction), air, extra);
      const beyond = (fraction: number) => {
        const flown = landing(fraction);
        return flown ? lander.beyond(flown.landed) : Number.POSITIVE_INFINITY;
      };
      const fraction = crossing(beyond, low, high, ON_TARGET);
      const instant = releases.near(at, fraction);
      const flown = this.flown(instant, air, extra);
      if (!flown) break;
      const hit = this.hit(key, instant, flown);
      if (!best || hit.miss < best.miss) best = hit;
      if (hit.miss < ON_TARGET) break;
      const limits = releases.allRound ? { plane: Math.PI, velocity: 0 } : this.limits;
      const turn = lander.corrected(instant, flown.turn, flown.landed, limits);
      extra = {
        plane: extra.plane + turn.plane - flown.turn.plane,
        velocity: extra.velocity + turn.velocity - flown.turn.velocity,
      };
      // The turn moves the crossing a little, perhaps out of where it was found.
      const wider = (to - from) * (round + 1);
      low = Math.max(0, from - wider);
      high = Math.min(1, to + wider);
    }
    return best;
  }

  private nearest(key: string, i: number, air: Air): Hit | null {
    const { releases, lander } = this;
    const at = releases.list[i];
    const beside = (j: number) => {
      const other = releases.list[j];
      return other && other.step === at.step && other.segment === at.segment ? other.fraction : at.fraction;
    };
    const tried = (fraction: number) => {
      const instant = releases.near(at, fraction);
      const flown = this.flown(instant, air);
      if (!flown) return null;
      const turn = lander.corrected(instant, flown.turn, flown.landed, this.limits);
      const landed = lander.land(this.start(instant), air, turn, true);
      const better = lander.miss(landed) < lander.miss(flown.landed);
      return this.hit(key, instant, better ? { turn, landed } : flown);
    };
    const value = (hit: Hit | null) => (hit ? -hit.miss : Number.NEGATIVE_INFINITY);
    const sampled = tried(at.fraction);
    const [from, to] = [beside(i - 1), beside(i + 1)];
    if (to <= from) return sampled;
    const found = goldenMaximum(tried, value, from, to);
    return value(found) > value(sampled) ? found : sampled;
  }

  private flown(instant: Instant, air: Air, extra?: Turn): { turn: Turn; landed: Landed } | null {
    const start = this.start(instant);
    const aimed = this.turnFor(start);
    if (!aimed) return null;
    const turn = {
      plane: aimed.plane + (extra?.plane ?? 0),
      velocity: aimed.velocity + (extra?.velocity ?? 0),
    };
    return { turn, landed: this.lander.land(start, air, turn, true) };
  }

  private hit(key: string, instant: Instant, { turn, landed }: { turn: Turn; landed: Landed }): Hit {
    const cause = causeOf(instant, this.nominal);
    return { key, cause, turnBy: this.turnBy(turn), instant, turn, landed, miss: this.lander.miss(landed) };
  }
}
