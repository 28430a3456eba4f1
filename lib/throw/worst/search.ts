/**
 * The search of the tolerance box for the worst machine of each aim. In order:
 *   1. the declared machine, and every side of the box by itself, both ways;
 *   2. for each aim the corner that these point to, then sides flipped one by one while that helps;
 *   3. where an aim does not answer as foretold, every corner of the sides that matter most, the others as declared
 *      and at the side that alone throws farther;
 *   4. random points of the whole box;
 *   5. from the best points of each aim, random steps of shrinking size.
 * The count of machines tried is fixed beforehand from what one costs, so the same request gives the same sheet on
 * every computer. A box whose aims answer smoothly needs, and gets, few of the last two.
 */
import { xoroshiro128plus } from "pure-rand/generator/xoroshiro128plus";
import { type Box, requestAt } from "./box";
import { AIMS, type Aim, type Quick, QuickJudge } from "./quick";

/** The aims that the search climbs for; the others are noted as they come by. */
export const CLIMBED = ["forward", "backward", "firstForward", "firstBackward", "clearance"] as const;
/** How many best points of each aim are kept to climb from. */
const KEPT = 4;
const SENSITIVE = 6;
/** Share of the survey after which no more corners are tried. */
const CORNERS = 0.75;
/** Steps of the last climb shorter than this share of a side find nothing that matters. */
const SHORTEST = 0.01;
const FIRST_STEP = 0.4;
/** Over so much of a side's half its slope is taken. */
const SLOPE = 0.1;
/** A gain below this share does not repay the slope. */
const WORTH = 1e-3;
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
  /** By aim: how much the climb still found, as a share of the best. */
  lateGain: Record<Climbed, number>;
  /** The aims that do not answer as their sides foretold. */
  rough: ReadonlySet<Climbed>;
  /** Whether the swings of some machines of the box end on the ground and others miss it. */
  grazes: boolean;
  /** How far the best of each aim exceeds what the sides by themselves foretold, as a share; 0 where it does not. */
  surprise: Record<Climbed, number>;
}

export type Climbed = (typeof CLIMBED)[number];

/** Along the border of striking the ground: this share goes to corners first… */
const CORNERS_FIRST = 0.4;
/** …in which so many sides are turned against what helps… */
const DISAGREE = 0.3;
/** …and the border is halved in on so often. */
const HALVINGS = 8;

/** The search of one box: first `survey`, then `climb` for the aims at which the box can still be the worst. */
export class BoxSearch {
  private readonly judge: QuickJudge;
  private readonly sides: number;
  private readonly random = xoroshiro128plus(20_260_704);
  private readonly kept: Record<Aim, Found[]>;
  private readonly known = new Map<string, Quick | null>();
  private tried = 0;
  private middle: Record<Aim, number>;
  private readonly rough = new Set<Climbed>();
  private strikes = false;
  private foretold = Object.fromEntries(CLIMBED.map((aim) => [aim, 0])) as Record<Climbed, number>;
  private readonly sensitivity: Record<string, number> = {};
  /** Of every side the sign that by itself helps an aim. */
  private helpful: Record<Climbed, Float64Array>;

  /**
   * @param hangUp whether throws that hang up count for what lies aside
   * @param onTried called with the count of machines tried
   */
  constructor(
    private readonly box: Box,
    hangUp: boolean,
    private readonly onTried: (tried: number) => void = () => {},
  ) {
    this.judge = new QuickJudge(hangUp);
    this.sides = box.sides.length;
    this.kept = Object.fromEntries(AIMS.map((aim) => [aim, [] as Found[]])) as Record<Aim, Found[]>;
    this.middle = this.bests();
    this.helpful = Object.fromEntries(CLIMBED.map((aim) => [aim, new Float64Array(this.sides)])) as Record<
      Climbed,
      Float64Array
    >;
  }

  /** The declared machine, sides, corners and random points. @param budget machines that may be tried */
  survey(budget: number): void {
    const centre = this.try(new Float64Array(this.sides));
    const pointed = this.alone(centre);
    this.helpful = pointed.signs;
    this.corners(pointed, centre, budget);
    this.inside(budget);
    this.middle = this.bests();
  }

  result(): Search {
    const best = Object.fromEntries(AIMS.map((aim) => [aim, this.kept[aim][0] ?? null])) as Search["best"];
    const lateGain = Object.fromEntries(
      CLIMBED.map((aim) => {
        const end = best[aim]?.value ?? 0;
        return [aim, end > 0 ? (end - this.middle[aim]) / end : 0];
      }),
    ) as Search["lateGain"];
    return {
      best,
      sensitivity: this.sensitivity,
      tried: this.tried,
      lateGain,
      rough: this.rough,
      surprise: Object.fromEntries(
        CLIMBED.map((aim) => {
          const foretold = this.foretold[aim];
          return [aim, foretold > 0 ? Math.max(0, (best[aim]?.value ?? 0) / foretold - 1) : 0];
        }),
      ) as Record<Climbed, number>,
      grazes: this.strikes && (best.clearance?.value ?? 0) > 1,
    };
  }

  /**
   * Where some machines of the box strike the ground and others just miss it, an aim jumps at the border between them:
   * a slope leads astray there, and the worst may lie right at the border. So more corners are tried that agree with
   * most of the sides that help, then the border is halved in on from the best points towards machines that strike.
   * What is gained counts as gained late.
   */
  alongBorder(aims: readonly Climbed[], budget: number): void {
    if (this.sides === 0 || aims.length === 0) return;
    this.middle = this.bests();
    const until = this.tried + budget;
    this.helpfulCorners(aims, Math.round(CORNERS_FIRST * budget));
    const [clear, struck, middle] = [0, 1, 2].map(() => new Float64Array(this.sides));
    for (let looks = 0; this.tried < until && looks < budget; looks++) {
      const aim = aims[looks % aims.length];
      const from = this.kept[aim];
      if (from.length === 0) continue;
      clear.set(from[Math.floor(((this.uniform() + 1) / 2) * from.length)].point);
      for (let i = 0; i < this.sides; i++) {
        struck[i] = this.uniform() < 0 ? clear[i] : Math.sign(this.uniform());
      }
      const there = this.try(struck);
      if (!there || there.clearance >= 1) continue;
      for (let halving = 0; halving < HALVINGS; halving++) {
        for (let i = 0; i < this.sides; i++) middle[i] = 0.5 * (clear[i] + struck[i]);
        const between = this.try(middle);
        (between && between.clearance >= 1 ? clear : struck).set(middle);
      }
    }
    this.climb(aims, Math.round(budget / 2));
  }

  /** Corners that agree with most of what helps an aim side by side. */
  private helpfulCorners(aims: readonly Climbed[], budget: number): void {
    const until = this.tried + budget;
    const corner = new Float64Array(this.sides);
    for (let looks = 0; this.tried < until && looks < budget; looks++) {
      const signs = this.helpful[aims[looks % aims.length]];
      for (let i = 0; i < this.sides; i++) {
        const random = this.uniform();
        // A side that helps at neither end stays where it is declared.
        corner[i] = Math.abs(random) < DISAGREE ? -signs[i] || Math.sign(random) : signs[i];
      }
      this.try(corner);
    }
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
    this.onTried(this.tried);
    if (!quick) return null;
    if (quick.clearance < 1) this.strikes = true;
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
    const signs = Object.fromEntries(
      CLIMBED.map((aim) => [aim, new Float64Array(this.sides)]),
    ) as Pointed["signs"];
    const promise = Object.fromEntries(CLIMBED.map((aim) => [aim, 1])) as Pointed["promise"];
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
        signs[aim][i] = Math.max(up, down) <= was ? 0 : up >= down ? 1 : -1;
        const gain = Math.max(up, down) / Math.max(was, 0.5);
        promise[aim] *= Math.max(1, gain);
        most = Math.max(most, Math.max(Math.abs(up - was), Math.abs(down - was)) / Math.max(was, 0.5));
      }
      this.sensitivity[this.box.sides[i].name] = most;
    }
    return { signs, promise };
  }

  /** Corners: what the sides point to, flips, and for aims that answer roughly all of the six that matter most. */
  private corners({ signs, promise }: Pointed, centre: Quick | null, budget: number): void {
    if (this.sides === 0) return;
    for (const aim of CLIMBED) {
      const was = centre?.[aim] ?? 0;
      this.foretold[aim] = was * promise[aim];
      const pointed = this.try(signs[aim])?.[aim] ?? 0;
      const foretold = Math.abs(pointed - this.foretold[aim]) <= SMOOTH * Math.max(pointed, was, 0.5);
      const flipped = this.flip(aim, signs[aim], budget);
      if (!foretold || flipped > pointed * (1 + SMOOTH / 10)) this.rough.add(aim);
    }
    if (this.rough.size === 0) return;
    const order = this.box.sides.map((_, i) => i).sort((a, b) => this.movedBy(b) - this.movedBy(a));
    const chosen = order.slice(0, SENSITIVE);
    for (const others of [new Float64Array(this.sides), ...[...this.rough].map((aim) => signs[aim])]) {
      this.allCorners(chosen, others, budget);
    }
  }

  private movedBy(side: number): number {
    return this.sensitivity[this.box.sides[side].name];
  }

  /** Every corner of some sides, the others as in `from`. */
  private allCorners(sides: readonly number[], from: Float64Array, budget: number): void {
    const point = from.slice();
    for (let bits = 0; bits < 2 ** sides.length && this.tried < CORNERS * budget; bits++) {
      sides.forEach((i, b) => {
        point[i] = bits & (1 << b) ? 1 : -1;
      });
      this.try(point);
    }
  }

  /** Flips sides of a corner one by one while that helps; the best value met. */
  private flip(aim: Aim, from: Float64Array, budget: number): number {
    const point = from.slice();
    let value = this.try(point)?.[aim] ?? 0;
    for (let sweep = 0; sweep < 3; sweep++) {
      let better = false;
      for (let i = 0; i < this.sides && this.tried < budget; i++) {
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

  private inside(budget: number): void {
    const point = new Float64Array(this.sides);
    while (this.tried < budget && this.sides > 0) {
      for (let i = 0; i < this.sides; i++) point[i] = this.uniform();
      this.try(point);
    }
  }

  /**
   * Towards the corner to which the slope points, as far as that helps, again and again: the way along a narrow
   * ridge, on which random steps are slow.
   */
  private ascend(climber: Climber, until: number): void {
    const next = new Float64Array(this.sides);
    const corner = new Float64Array(this.sides);
    for (let gained = true; gained && this.tried + this.sides < until; ) {
      gained = false;
      for (let i = 0; i < this.sides; i++) {
        next.set(climber.point);
        const ahead = climber.point[i] + SLOPE <= 1 ? SLOPE : -SLOPE;
        next[i] += ahead;
        const rises = (this.try(next)?.[climber.aim] ?? 0) > climber.value;
        corner[i] = Math.sign(ahead) * (rises ? 1 : -1);
      }
      for (let share = 1; share > 0.05 && this.tried < until; share /= 2) {
        for (let i = 0; i < this.sides; i++)
          next[i] = climber.point[i] + share * (corner[i] - climber.point[i]);
        const value = this.try(next)?.[climber.aim] ?? 0;
        if (value <= climber.value) continue;
        gained = value > climber.value * (1 + WORTH);
        climber.value = value;
        climber.point.set(next);
        break;
      }
    }
  }

  /**
   * Random steps from the best points of every aim in turn, longer after a success and shorter after a failure; a
   * climber whose steps have become too short gives way to the others. Smooth aims have one climber, rough ones more.
   */
  climb(aims: readonly Climbed[], budget: number): void {
    if (this.sides === 0) return;
    const until = this.tried + budget;
    let climbers = aims.flatMap((aim) =>
      this.kept[aim]
        .slice(0, this.rough.has(aim) ? KEPT : 1)
        .map(({ value, point }) => ({ aim, value, point: point.slice(), step: FIRST_STEP })),
    );
    for (const climber of climbers) this.ascend(climber, until);
    const next = new Float64Array(this.sides);
    while (this.tried < until && climbers.length > 0) {
      for (const climber of climbers) {
        if (this.tried >= until) break;
        for (let i = 0; i < this.sides; i++) {
          const to = climber.point[i] + (this.uniform() < 0 ? 1.5 * climber.step * this.uniform() : 0);
          next[i] = Math.max(-1, Math.min(1, to));
        }
        const value = this.try(next)?.[climber.aim] ?? 0;
        if (value > climber.value) {
          climber.value = value;
          climber.point.set(next);
          climber.step = Math.min(1, 1.6 * climber.step);
        } else climber.step *= this.rough.has(climber.aim) ? 0.92 : 0.8;
      }
      climbers = climbers.filter(({ step }) => step > SHORTEST);
    }
  }
}

interface Climber {
  aim: Climbed;
  value: number;
  point: Float64Array;
  step: number;
}

interface Pointed {
  signs: Record<Climbed, Float64Array>;
  promise: Record<Climbed, number>;
}
