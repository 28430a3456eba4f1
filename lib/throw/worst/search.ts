/**
 * The search of the tolerance box for the worst machine of each aim. In order:
 *   1. the declared machine, and every side of the box by itself, both ways;
 *   2. for each aim the corner that these point to, then sides flipped one by one while that helps;
 *   3. every corner of the six sides that matter most, the others as the best corner so far has them;
 *   4. random points of the whole box;
 *   5. from the best points of each aim, random steps of shrinking size.
 * The count of machines tried is fixed beforehand from what one costs, so the same request gives the same sheet on
 * every computer. A box whose aims answer smoothly needs, and gets, few of the last two.
 */
import { xoroshiro128plus } from "pure-rand/generator/xoroshiro128plus";
import { type Box, requestAt } from "./box";
import { AIMS, type Aim, type Quick, QuickJudge } from "./quick";

/** The aims that the search climbs for; the others are noted as they come by. */
export const CLIMBED = ["forward", "backward", "firstForward", "firstBackward"] as const;
/** How many best points of each aim are kept to climb from. */
const KEPT = 4;
const SENSITIVE = 6;
/** Steps of the last climb shorter than this share of a side find nothing that matters. */
const SHORTEST = 0.01;
/** An aim counts as smooth when its best corner is this near to what its sides foretold by themselves. */
const SMOOTH = 0.01;

export interface Found {
  value: number;
  point: Float64Array;
}

export interface Search {
  /** The best of each aim; null where nothing goes that way. */
  best: Record<Aim, Found | null>;
  /** Largest change of the worst distances that each side makes by itself, as a share; by name. */
  sensitivity: Record<string, number>;
  /** Machines tried. */
  tried: number;
  /** By aim: how much the last third of the search still found, as a share of the best. */
  lateGain: Record<(typeof CLIMBED)[number], number>;
}

/** @param budget how many machines may be tried */
export function searchBox(
  box: Box,
  hangUp: boolean,
  budget: number,
  onProgress: (done: number) => void = () => {},
): Search {
  return new BoxSearch(box, hangUp, budget, onProgress).run();
}

class BoxSearch {
  private readonly judge: QuickJudge;
  private readonly sides: number;
  private readonly random = xoroshiro128plus(20_260_704);
  private readonly kept: Record<Aim, Found[]>;
  private readonly known = new Map<string, Quick | null>();
  private tried = 0;
  private readonly sensitivity: Record<string, number> = {};

  constructor(
    private readonly box: Box,
    hangUp: boolean,
    private readonly budget: number,
    private readonly onProgress: (done: number) => void,
  ) {
    this.judge = new QuickJudge(hangUp);
    this.sides = box.sides.length;
    this.kept = Object.fromEntries(AIMS.map((aim) => [aim, [] as Found[]])) as Record<Aim, Found[]>;
  }

  run(): Search {
    const centre = this.try(new Float64Array(this.sides));
    this.corners(this.alone(centre), centre);
    this.inside(0.4);
    const middle = this.bests();
    this.climb();
    const best = Object.fromEntries(AIMS.map((aim) => [aim, this.kept[aim][0] ?? null])) as Search["best"];
    const lateGain = Object.fromEntries(
      CLIMBED.map((aim) => {
        const end = best[aim]?.value ?? 0;
        return [aim, end > 0 ? (end - middle[aim]) / end : 0];
      }),
    ) as Search["lateGain"];
    return { best, sensitivity: this.sensitivity, tried: this.tried, lateGain };
  }

  private bests(): Record<Aim, number> {
    return Object.fromEntries(AIMS.map((aim) => [aim, this.kept[aim][0]?.value ?? 0])) as Record<Aim, number>;
  }

  /** The machine at a point, judged and kept where it is among the best; null when it cannot throw. */
  private try(point: Float64Array): Quick | null {
    const key = point.join();
    const before = this.known.get(key);
    if (before !== undefined) return before;
    const quick = this.judge.judgeRequest(requestAt(this.box, point), this.box.frame);
    this.known.set(key, quick);
    this.tried++;
    if (this.tried % 16 === 0) this.onProgress(Math.min(1, this.tried / this.budget));
    if (!quick) return null;
    for (const aim of AIMS) {
      const value = quick[aim];
      const kept = this.kept[aim];
      if (value <= 0 || (kept.length === KEPT && value <= kept[KEPT - 1].value)) continue;
      kept.push({ value, point: point.slice() });
      kept.sort((a, b) => b.value - a.value);
      if (kept.length > KEPT) kept.pop();
    }
    return quick;
  }

  /** Tries every side by itself, both ways; for each aim the sign that helps it, and what all helps promise. */
  private alone(centre: Quick | null) {
    const signs = Object.fromEntries(CLIMBED.map((aim) => [aim, new Float64Array(this.sides)])) as Signs;
    const promise = Object.fromEntries(CLIMBED.map((aim) => [aim, 1])) as Promise_;
    for (let i = 0; i < this.sides; i++) {
      const [low, high] = [-1, 1].map((u) => {
        const point = new Float64Array(this.sides);
        point[i] = u;
        return this.try(point);
      });
      let most = 0;
      for (const aim of CLIMBED) {
        const was = centre?.[aim] ?? 0;
        const [down, up] = [low?.[aim] ?? 0, high?.[aim] ?? 0];
        signs[aim][i] = up >= down ? 1 : -1;
        const gain = Math.max(up, down) / Math.max(was, 0.5);
        promise[aim] *= Math.max(1, gain);
        most = Math.max(most, Math.max(Math.abs(up - was), Math.abs(down - was)) / Math.max(was, 0.5));
      }
      this.sensitivity[this.box.sides[i].name] = most;
    }
    return { signs, promise };
  }

  /** Corners: what the sides point to, flips, and for aims that answer roughly all of the six that matter most. */
  private corners({ signs, promise }: { signs: Signs; promise: Promise_ }, centre: Quick | null): void {
    if (this.sides === 0) return;
    const rough: Aim[] = [];
    for (const aim of CLIMBED) {
      const was = centre?.[aim] ?? 0;
      const pointed = this.try(signs[aim])?.[aim] ?? 0;
      const foretold = Math.abs(pointed - was * promise[aim]) <= SMOOTH * Math.max(pointed, was, 0.5);
      const flipped = this.flip(aim, signs[aim]);
      if (!foretold || flipped > pointed * (1 + SMOOTH / 10)) rough.push(aim);
    }
    const order = this.box.sides
      .map(({ name }, i) => ({ i, by: this.sensitivity[name] }))
      .sort((a, b) => b.by - a.by)
      .slice(0, SENSITIVE);
    for (const aim of rough) {
      const start = this.kept[aim][0];
      if (!start) continue;
      const base = start.point.slice();
      for (let bits = 0; bits < 2 ** order.length && this.tried < 0.5 * this.budget; bits++) {
        order.forEach(({ i }, b) => {
          base[i] = bits & (1 << b) ? 1 : -1;
        });
        this.try(base);
      }
    }
  }

  /** Flips sides of a corner one by one while that helps; the best value met. */
  private flip(aim: Aim, from: Float64Array): number {
    const point = from.slice();
    let value = this.try(point)?.[aim] ?? 0;
    for (let sweep = 0; sweep < 3; sweep++) {
      let better = false;
      for (let i = 0; i < this.sides && this.tried < this.budget; i++) {
        const was = point[i];
        point[i] = -was;
        const flipped = this.try(point)?.[aim] ?? 0;
        if (flipped > value) {
          value = flipped;
          better = true;
        } else point[i] = was;
      }
      if (!better) break;
    }
    return value;
  }

  private uniform(): number {
    return (this.random.next() >>> 0) / 2 ** 31 - 1;
  }

  private inside(share: number): void {
    const until = this.tried + share * Math.max(0, this.budget - this.tried);
    const point = new Float64Array(this.sides);
    while (this.tried < until && this.sides > 0) {
      for (let i = 0; i < this.sides; i++) point[i] = this.uniform();
      this.try(point);
    }
  }

  /**
   * Random steps from the best points of every aim in turn, longer after a success and shorter after a failure; a
   * climber whose steps have become too short gives way to the others.
   */
  private climb(): void {
    if (this.sides === 0) return;
    let climbers = CLIMBED.flatMap((aim) =>
      this.kept[aim].map(({ value, point }) => ({ aim, value, point: point.slice(), step: 0.4 })),
    );
    const next = new Float64Array(this.sides);
    while (this.tried < this.budget && climbers.length > 0) {
      for (const climber of climbers) {
        if (this.tried >= this.budget) break;
        for (let i = 0; i < this.sides; i++) {
          const to = climber.point[i] + (this.uniform() < 0 ? 1.5 * climber.step * this.uniform() : 0);
          next[i] = Math.max(-1, Math.min(1, to));
        }
        const value = this.try(next)?.[climber.aim] ?? 0;
        if (value > climber.value) {
          climber.value = value;
          climber.point.set(next);
          climber.step = Math.min(1, 1.6 * climber.step);
        } else climber.step *= 0.9;
      }
      climbers = climbers.filter(({ step }) => step > SHORTEST);
    }
  }
}

type Signs = Record<(typeof CLIMBED)[number], Float64Array>;
type Promise_ = Record<(typeof CLIMBED)[number], number>;
