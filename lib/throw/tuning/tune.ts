/**
 * The best machine of a range: the farthest throw, or the mark hit by the steadiest or the gentlest machine, within the
 * limits that somebody sets. `search.ts` says how it is looked for. What it answers is worked out again at full
 * accuracy; nobody has yet checked what it leaves out.
 */
import type { HazardRequest } from "../contracts/request";
import { Crossings, type Range } from "./crossings";
import { type Evaluation, evaluate, MEASURES, type Measure, Thrower } from "./evaluate";
import { knobValue, withValues } from "./knobs";
import { MOST_DIMENSIONS, type Problem, search } from "./search";
import { scatter } from "./sensitivity";

/** To throw farthest; or to land at a distance downrange, m, by the machine that scatters least or pulls its sling least. */
export type Goal =
  | { kind: "farthest" }
  | { kind: "mark"; distance: number; prefer: "steadiest" | "gentlest" };

/** Most that a measure may be; least for `armReserve`. */
export type Limits = Partial<Record<Measure, number>>;

export interface Tuned {
  /** Of the knobs that were turned. */
  values: Record<string, number>;
  /** The whole machine. */
  request: HazardRequest;
  evaluation: Evaluation;
  /** One standard deviation of ordinary throws by the declared ±, m. */
  scatter: number | null;
}

export interface TuningResult {
  /** The best that keeps every limit; null where none was found. */
  best: Tuned | null;
  /** Without a best: what came nearest, and which limits it breaks. */
  nearest: (Tuned & { breaks: Measure[] }) | null;
  present: Tuned | null;
  /** What holds the best back: a limit, or an end of a knob's range. */
  binds: ({ limit: Measure } | { name: string; end: "low" | "high" })[];
  /** Machines thrown, and machines whose limits were worked out. */
  thrown: number;
  asked: number;
}

/** Limits are kept with this share to spare, for what rough swings err by. */
const SPARE = 0.002;
/** Within these shares a limit or an end of a range holds back. */
const AT_LIMIT = 0.01;
const AT_END = 0.002;
/** A mark is hit within this share of its distance, m at least. */
const HIT = { share: 0.002, least: 0.05 };
/** First looks, a dimension. */
const LOOKS = { farthest: 500, steadiest: 40, gentlest: 30, nearest: 300 };

/**
 * @param vary ranges of different knobs, whose ends the contract takes
 * @param onProgress called with 0 to 1
 * @throws RangeError for no knobs, or more than can be searched
 */
export function tune(
  request: HazardRequest,
  goal: Goal,
  vary: readonly Range[],
  limits: Limits = {},
  onProgress: (done: number) => void = () => {},
): TuningResult {
  if (vary.length < 1 || vary.length > MOST_DIMENSIONS) {
    throw new RangeError(`Turn 1 to ${MOST_DIMENSIONS} numbers, not ${vary.length}.`);
  }
  return new Tuner(request, goal, vary, limits).run(onProgress);
}

type Values = Record<string, number>;

class Tuner {
  private readonly thrower: Thrower;
  private readonly wanted: Measure[];
  private asked = 0;

  constructor(
    private readonly request: HazardRequest,
    private readonly goal: Goal,
    private readonly vary: readonly Range[],
    private readonly limits: Limits,
  ) {
    this.thrower = new Thrower(request);
    this.wanted = MEASURES.filter((measure) => limits[measure] !== undefined);
  }

  run(onProgress: (done: number) => void): TuningResult {
    const { best, nearest } = this.goal.kind === "mark" ? this.hit(onProgress) : this.farthest(onProgress);
    const tuned = best && this.toldPlainly(best);
    const near = !tuned && nearest ? this.told(nearest) : null;
    return {
      best: tuned,
      nearest: near && { ...near, breaks: this.broken(near.evaluation, 0) },
      present: this.told({}),
      binds: tuned ? this.bindsOf(tuned) : [],
      thrown: this.thrower.thrown,
      asked: this.asked,
    };
  }

  private farthest(onProgress: (done: number) => void) {
    const found = search(
      this.problem(LOOKS.farthest, (distance) => distance),
      onProgress,
    );
    return { best: found.best?.what ?? null, nearest: found.nearest?.what ?? null };
  }

  /** Over all knobs, by what the distance is worth. */
  private problem(looks: number, worth: (distance: number) => number): Problem<Values> {
    const { vary, thrower, request } = this;
    return {
      dimension: vary.length,
      samples: looks * vary.length,
      starts: [this.presentPoint(vary)],
      offers: (point) => {
        const what = this.valuesAt(vary, point);
        const distance = thrower.distance(withValues(request, what));
        return distance !== null && distance > 0 ? [{ what, value: worth(distance) }] : [];
      },
      violation: (what) => this.violation(what),
    };
  }

  /**
   * One knob aims: wherever the others stand it is set so that the throw lands on the mark, and the others are searched
   * for what is preferred. The knob that moves the distance farthest from end to end aims; where it finds no hit, the next.
   */
  private hit(onProgress: (done: number) => void) {
    const { goal, vary, request, thrower } = this;
    if (goal.kind !== "mark") throw new TypeError("unreachable");
    const crossings = new Crossings(request, thrower, goal.distance, this.within(goal.distance));
    for (const aiming of crossings.byReach(vary)) {
      const others = vary.filter(({ name }) => name !== aiming.name);
      const found = search<Values>(
        {
          dimension: others.length,
          samples: LOOKS[goal.prefer] * others.length,
          starts: [this.presentPoint(others)],
          offers: (point) => {
            const set = this.valuesAt(others, point);
            return crossings.of(withValues(request, set), aiming).map((value) => {
              const what = { ...set, [aiming.name]: value };
              return { what, value: -this.dislike(withValues(request, what), goal.prefer) };
            });
          },
          violation: (what) => this.violation(what),
        },
        onProgress,
      );
      if (found.best) return { best: found.best.what, nearest: null };
      // A mark that is hit, but not within the limits, is answered by what breaks them least.
      if (found.nearest) return { best: null, nearest: found.nearest.what };
    }
    const near = search(
      this.problem(LOOKS.nearest, (distance) => -Math.abs(distance - goal.distance)),
      onProgress,
    );
    return { best: null, nearest: (near.best ?? near.nearest)?.what ?? null };
  }

  private within = (distance: number) => Math.max(HIT.least, HIT.share * distance);

  /** What should be small: scatter, m; pull of the sling, N, or without a sling the speed that is given, m/s. */
  private dislike(request: HazardRequest, prefer: "steadiest" | "gentlest"): number {
    if (prefer === "steadiest") return scatter(request, this.thrower) ?? Infinity;
    const found = evaluate(request, ["slingPull"], true);
    return found?.slingPull ?? found?.nominal?.releaseSpeed ?? Infinity;
  }

  private valuesAt = (ranges: readonly Range[], point: readonly number[]): Values =>
    Object.fromEntries(ranges.map(({ name, low, high }, i) => [name, low + (high - low) * point[i]]));

  private presentPoint = (ranges: readonly Range[]) =>
    ranges.map(({ name, low, high }) => {
      const present = knobValue(this.request, name) ?? low;
      return high > low ? Math.min(1, Math.max(0, (present - low) / (high - low))) : 0;
    });

  private violation(values: Values): number {
    if (this.wanted.length === 0) return 0;
    this.asked++;
    const found = evaluate(withValues(this.request, values), this.wanted, true);
    if (!found) return Infinity;
    return this.wanted.reduce((sum, measure) => sum + this.excess(found, measure, SPARE), 0);
  }

  /** The share by which a limit is broken; 0 where it is kept, or the machine has no such thing. */
  private excess(evaluation: Evaluation, measure: Measure, spare: number): number {
    const limit = this.limits[measure];
    const value = evaluation[measure];
    if (limit === undefined || value === null) return 0;
    const over = measure === "armReserve" ? limit / value : value / Math.max(limit, 1e-9);
    return Math.max(0, over - (1 - spare));
  }

  private broken = (evaluation: Evaluation, spare: number): Measure[] =>
    this.wanted.filter((measure) => this.excess(evaluation, measure, spare) > 0);

  private told(values: Values): Tuned | null {
    const request = withValues(this.request, values);
    const evaluation = evaluate(request);
    return evaluation && { values, request, evaluation, scatter: scatter(request, this.thrower) };
  }

  /** In numbers that can be built: four digits, where that costs no limit, no mark and no distance worth telling. */
  private toldPlainly(exact: Values): Tuned | null {
    const best = this.told(exact);
    const rounded = Object.entries(exact).map(
      ([name, value]) => [name, Number(value.toPrecision(4))] as const,
    );
    const inside = rounded.every(([name, value]) =>
      this.vary.some((range) => range.name === name && value >= range.low && value <= range.high),
    );
    const plain = inside ? this.told(Object.fromEntries(rounded)) : null;
    const [from, to] = [best?.evaluation.nominal?.distance, plain?.evaluation.nominal?.distance];
    if (!best || !plain || from === undefined || to === undefined) return best;
    const { goal } = this;
    const near =
      goal.kind === "mark" ? Math.abs(to - goal.distance) <= this.within(goal.distance) : to >= 0.999 * from;
    return near && this.broken(plain.evaluation, 0).length === 0 ? plain : best;
  }

  private bindsOf({ values, evaluation }: Tuned): TuningResult["binds"] {
    const limits = this.broken(evaluation, AT_LIMIT).map((limit) => ({ limit }));
    const ends = this.vary.flatMap(({ name, low, high }): TuningResult["binds"] => {
      const at = (values[name] - low) / (high - low);
      if (at <= AT_END) return [{ name, end: "low" }];
      return at >= 1 - AT_END ? [{ name, end: "high" }] : [];
    });
    return [...limits, ...ends];
  }
}
