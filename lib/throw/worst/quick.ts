/**
 * The worst throws of one exact machine, quickly: good for about 1e-3, to steer the search of the tolerance box;
 * what it finds is then worked out with care. Every release instant is judged by its airless distance plus what
 * the air was seen to change about it on a coarse table; only the best are flown.
 */
import { airsOf, moved } from "../case";
import { refusals } from "../check";
import type { HazardRequest } from "../contracts/request";
import type { Air } from "../flight/flight";
import { Scout } from "../flight/scout";
import type { Instant, Releases } from "../release";
import type { Frame } from "../setup";
import { CannotThrow } from "../swing/swing";
import type { WorstAirs } from "./scan";

/** What the search looks for the largest of. */
export const AIMS = [
  "forward",
  "backward",
  "firstForward",
  "firstBackward",
  "aside",
  "apex",
  "energy",
  "clearance",
] as const;
export type Aim = (typeof AIMS)[number];
/**
 * By aim: m; clearance says how near a swing that ends on the ground comes to missing it, 1 and more where it does
 * not end there: what misses whirls on, and may throw farther than anything around it. aside is speed × time of flight, apex in m,
 * energy in J. 0 where nothing goes that way.
 */
export type Quick = Record<Aim, number>;

/** How the swings judged here are followed; what is found is worked out at full accuracy. */
export const QUICK = { accuracy: 1e-7, coarse: 2 };
const SPEEDS = 8;
/** All the way round, from straight down. */
const ANGLES = 72;
const DEGREES = 360 / ANGLES;
/** Instants judged to reach this share of the best are flown where they lie between lesser neighbours. */
const NEAR = 0.985;
const MOST_PEAKS = 5;

/** Measured, µs: per machine, per step of its swing, per instant. */
const JUDGING = 300;
const STEP = 7;
const INSTANT = 0.6;

/** Distance of an airless throw to the landing plane along the way of `sign`, m; and its time. */
function airless(air: Air, sign: number, x: number, y: number, vx: number, vy: number, out: Airless): void {
  const clearance = y + air.below + air.fall * x;
  out.time = 0;
  out.reach = sign * x;
  if (y <= 0 && vy <= 0) return;
  const buried = clearance <= 0;
  const climb = buried ? vy : vy + air.fall * vx;
  const height = buried ? y : clearance;
  const square = climb * climb + 2 * air.gravity * height;
  if (square < 0) return;
  out.time = (climb + Math.sqrt(square)) / air.gravity;
  out.reach = sign * (x + vx * out.time);
}

interface Airless {
  reach: number;
  time: number;
}

/** What the airs of one way change about an airless distance, by speed and angle above that way's horizon. */
class AirTable {
  private readonly change = new Float64Array((SPEEDS + 1) * (ANGLES + 1));
  /** The most that the air adds to any throw, m. */
  most = 0;

  constructor(
    airs: readonly Air[],
    private readonly sign: number,
    private readonly fastest: number,
    height: number,
  ) {
    const scout = new Scout();
    const still: Airless = { reach: 0, time: 0 };
    for (let s = 1; s <= SPEEDS; s++) {
      const speed = (fastest * s) / SPEEDS;
      for (let a = 0; a <= ANGLES; a++) {
        const angle = ((a * DEGREES - 90) * Math.PI) / 180;
        const vx = sign * speed * Math.cos(angle);
        const vy = speed * Math.sin(angle);
        let best = Number.NEGATIVE_INFINITY;
        for (const air of airs) best = Math.max(best, sign * scout.fly(air, 0, height, vx, vy).x);
        airless(airs[0], sign, 0, height, vx, vy, still);
        const change = best - still.reach;
        this.change[s * (ANGLES + 1) + a] = change;
        if (change > this.most) this.most = change;
      }
    }
  }

  at(vx: number, vy: number): number {
    const speed = (Math.min(this.fastest, Math.hypot(vx, vy)) / this.fastest) * SPEEDS;
    // From straight down by way of this side's horizon.
    const turn =
      (Math.atan2(this.sign * vx, -vy) * (180 / Math.PI) + (vx * this.sign < 0 ? 360 : 0)) / DEGREES;
    const s = Math.min(SPEEDS - 1, Math.floor(speed));
    const a = Math.min(ANGLES - 1, Math.floor(turn));
    const fs = speed - s;
    const fa = turn - a;
    const { change } = this;
    const i = s * (ANGLES + 1) + a;
    const j = i + ANGLES + 1;
    return (
      (1 - fs) * ((1 - fa) * change[i] + fa * change[i + 1]) +
      fs * ((1 - fa) * change[j] + fa * change[j + 1])
    );
  }
}

/** From the instants of the longest segment: the last two say how deep a strike would have gone. */
function clearanceOf(list: readonly Instant[]): number {
  const last = list[list.length - 1];
  const before = list[list.length - 2];
  if (!before || last.vy >= 0 || last.y > 0.01 || last.time <= before.time) return 2;
  const upwards = (last.vy - before.vy) / (last.time - before.time);
  return upwards > 0 ? 1 / (1 + (last.vy * last.vy) / (2 * upwards)) : 1e-6;
}

export class QuickJudge {
  private readonly scout = new Scout();
  private readonly still: Airless = { reach: 0, time: 0 };
  private tables: { forward: AirTable; backward: AirTable } | null = null;
  private reach = new Float64Array(1024);
  /** About what the last request took, µs: counted, not timed, so that a search is the same on every computer. */
  cost = JUDGING;

  /** @param hangUp whether throws that hang up count for what lies aside */
  constructor(private readonly hangUp: boolean) {}

  /** One exact request on a frame; null when it cannot throw. */
  judgeRequest(request: HazardRequest, frame: Frame): Quick | null {
    if (refusals(request).length > 0) return null;
    try {
      const { releases, trace } = moved(request, frame, QUICK);
      this.cost = JUDGING + STEP * (trace?.steps ?? 0) + INSTANT * releases.list.length;
      return this.judge(releases, airsOf(request));
    } catch (error) {
      if (error instanceof CannotThrow || error instanceof RangeError) return null;
      throw error;
    }
  }

  /** The first machine judged sets the table: the others of its box differ little in mass and size. */
  judge(releases: Releases, airs: WorstAirs): Quick {
    const { list } = releases;
    this.tables ??= this.tablesFor(list, airs);
    const out: Quick = {
      forward: 0,
      backward: 0,
      firstForward: 0,
      firstBackward: 0,
      aside: 0,
      apex: 0,
      energy: 0,
      clearance: clearanceOf(list),
    };
    const { gravity, mass } = airs.forward[0];
    for (const { vx, vy, y, x, hangUp } of list) {
      const square = vx * vx + vy * vy;
      out.apex = Math.max(out.apex, y + (vy > 0 ? (vy * vy) / (2 * gravity) : 0));
      out.energy = Math.max(out.energy, mass * (0.5 * square + gravity * y));
      if (hangUp && !this.hangUp) continue;
      airless(airs.forward[0], 1, x, y, vx, vy, this.still);
      out.aside = Math.max(out.aside, Math.sqrt(square) * this.still.time);
    }
    this.best(releases, airs.forward, 1, out, "forward", "firstForward");
    this.best(releases, airs.backward, -1, out, "backward", "firstBackward");
    return out;
  }

  private tablesFor(list: readonly Instant[], airs: WorstAirs) {
    let fastest = 1;
    let height = 0;
    for (const { vx, vy, y } of list) {
      fastest = Math.max(fastest, Math.hypot(vx, vy));
      height = Math.max(height, y);
    }
    return {
      forward: new AirTable(airs.forward, 1, 1.2 * fastest, height / 2),
      backward: new AirTable(airs.backward, -1, 1.2 * fastest, height / 2),
    };
  }

  private best(
    releases: Releases,
    airs: readonly Air[],
    sign: number,
    out: Quick,
    all: Aim,
    first: Aim,
  ): void {
    const { list } = releases;
    const table = this.tables?.[sign > 0 ? "forward" : "backward"] as AirTable;
    if (this.reach.length < list.length) this.reach = new Float64Array(2 * list.length);
    const { reach, still } = this;
    let top = 0;
    let topFirst = 0;
    for (let i = 0; i < list.length; i++) {
      const { x, y, vx, vy, hangUp } = list[i];
      airless(airs[0], sign, x, y, vx, vy, still);
      reach[i] = still.reach;
      // Where nothing that the air can add brings it near the best, its part need not be looked up.
      if (still.reach + table.most < NEAR * (hangUp ? top : topFirst)) continue;
      if (still.time > 0) reach[i] += table.at(vx, vy);
      if (reach[i] > top) top = reach[i];
      if (!hangUp && reach[i] > topFirst) topFirst = reach[i];
    }
    let found = 0;
    let foundFirst = 0;
    for (const i of this.peaks(list, top, topFirst)) {
      const flown = this.fly(releases, i, airs, sign);
      found = Math.max(found, flown);
      if (!list[i].hangUp) foundFirst = Math.max(foundFirst, flown);
    }
    const aside = releases.allRound?.aside ?? 0;
    out[all] = aside > 0 ? Math.hypot(found, aside) : found;
    out[first] = aside > 0 ? Math.hypot(foundFirst, aside) : foundFirst;
  }

  private beside(list: readonly Instant[], i: number, j: number): number {
    const lies =
      j >= 0 && j < list.length && list[j].step === list[i].step && list[j].hangUp === list[i].hangUp;
    return lies ? this.reach[j] : Number.NEGATIVE_INFINITY;
  }

  /** The instants judged near the best that lie between lesser neighbours, at most the highest few of each pass. */
  private peaks(list: readonly Instant[], top: number, topFirst: number): number[] {
    const { reach } = this;
    const peaks: number[] = [];
    for (let i = 0; i < list.length; i++) {
      if (reach[i] <= 0 || reach[i] <= NEAR * (list[i].hangUp ? top : topFirst)) continue;
      if (this.beside(list, i, i - 1) <= reach[i] && this.beside(list, i, i + 1) <= reach[i]) peaks.push(i);
    }
    peaks.sort((a, b) => reach[b] - reach[a]);
    const first = peaks.filter((i) => !list[i].hangUp).slice(0, MOST_PEAKS);
    return [...first, ...peaks.filter((i) => list[i].hangUp).slice(0, MOST_PEAKS)];
  }

  /** Flies an instant, and the top of the parabola through its neighbours. */
  private fly(releases: Releases, i: number, airs: readonly Air[], sign: number): number {
    const { list } = releases;
    const here = list[i];
    const before = this.beside(list, i, i - 1);
    const after = this.beside(list, i, i + 1);
    const best = this.flown(here, airs, sign);
    if (!Number.isFinite(before) || !Number.isFinite(after)) return best;
    const [f0, f1, f2] = [list[i - 1].fraction, here.fraction, list[i + 1].fraction];
    const p = (f1 - f0) * (this.reach[i] - after);
    const q = (f1 - f2) * (this.reach[i] - before);
    if (p === q) return best;
    const vertex = f1 - (0.5 * ((f1 - f0) * p - (f1 - f2) * q)) / (p - q);
    if (vertex <= f0 || vertex >= f2) return best;
    return Math.max(best, this.flown(releases.near(here, vertex), airs, sign));
  }

  private flown({ x, y, vx, vy }: Instant, airs: readonly Air[], sign: number): number {
    let best = Number.NEGATIVE_INFINITY;
    for (const air of airs) best = Math.max(best, sign * this.scout.fly(air, x, y, vx, vy).x);
    return best;
  }
}
