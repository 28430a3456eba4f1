/**
 * What an order costs, in seconds: the end of the day, and so much for each rule it breaks that no shorter day pays for
 * it. Between orders that end together the shorter longest wait and the more even places decide.
 */
import { type Compiled, pausedWithin, relative } from "./day";
import { newScratch, newTimes, type Times, time } from "./timeline";

/** For a second of waiting beyond the longest wait. */
const UNFAIR = 50;
/** For opening or closing one round too many; for a mean place at an end of the order. */
const UNROTATED = 20_000;
/** A turn moved by one place among those announced is worth so many seconds of the day. */
export const MOVED = 60;
/** Decide only between days of the same length: an hour of waiting counts as four seconds. */
const WAIT_TIE = 0.001;
const PLACE_TIE = 10;

/** The mean place of a machine stays within the middle half. */
const MIDDLE_HALF = 0.25;

export interface Figures {
  /** When the last machine is made safe. */
  end: number;
  /** The longest that a machine that was ready again waits, pauses left out, s. */
  longestWait: number;
  /** Seconds beyond the longest fair wait, of all turns together. */
  unfair: number;
  /** Rounds that a machine opens or closes beyond its share, and how far mean places are outside the middle half. */
  unrotated: number;
  /** How far the mean place of any machine is from the middle, 0 to 0.5. */
  uneven: number;
  /** By how many places turns were moved against what was announced. */
  moved: number;
}

/** Judges orders of one day; it keeps its space between calls. */
export class Judge {
  readonly times: Times;
  private readonly scratch: Float64Array;
  private readonly sum: Float64Array;
  private readonly count: Int32Array;
  private readonly opened: Int32Array;
  private readonly closed: Int32Array;
  private readonly share: number;
  /** Rank among the announced turns of the turn at hand, by machine and stage. */
  private readonly rank: ReadonlyMap<number, number>;
  readonly figures: Figures = { end: 0, longestWait: 0, unfair: 0, unrotated: 0, uneven: 0, moved: 0 };

  constructor(
    private readonly day: Compiled,
    turns: number,
    announced: readonly number[],
  ) {
    const n = day.ids.length;
    this.times = newTimes(turns);
    this.scratch = newScratch(day);
    this.sum = new Float64Array(n);
    this.count = new Int32Array(n);
    this.opened = new Int32Array(n);
    this.closed = new Int32Array(n);
    const rounds = day.stages.length + Math.max(0, ...day.opened);
    this.share = Math.max(1, Math.ceil(rounds / Math.max(1, n)));
    this.rank = new Map(announced.map((key, index) => [key, index]));
  }

  cost(order: Int32Array): number {
    const { day, figures, times } = this;
    figures.end = time(day, order, times, this.scratch);
    this.waits(order);
    this.places(order);
    figures.moved = this.rank.size > 0 ? this.moves(order) : 0;
    return (
      figures.end -
      day.now +
      UNFAIR * figures.unfair +
      (day.rules.rotate ? UNROTATED * figures.unrotated : 0) +
      MOVED * figures.moved +
      WAIT_TIE * figures.longestWait +
      PLACE_TIE * figures.uneven
    );
  }

  private waits(order: Int32Array): void {
    const { pauses } = this.day.rules;
    let longest = 0;
    let unfair = 0;
    for (let turn = 0; turn < order.length; turn++) {
      // Before its first throw nobody is kept from anything, and nobody waits for the time before now.
      const ready = Math.max(
        this.times.ready[turn] as number,
        this.day.from[order[turn] as number] as number,
      );
      if (ready === Number.NEGATIVE_INFINITY) continue;
      const start = this.times.start[turn] as number;
      const wait = start - ready - (pauses.length > 0 ? pausedWithin(pauses, ready, start) : 0);
      if (wait > longest) longest = wait;
      if (wait > this.day.longestWait) unfair += wait - this.day.longestWait;
    }
    this.figures.longestWait = longest;
    this.figures.unfair = unfair;
  }

  private places(order: Int32Array): void {
    const { day, sum, count, opened, closed, share } = this;
    sum.set(day.placeSum);
    count.set(day.placeCount);
    opened.set(day.opened);
    closed.fill(0);
    let turn = 0;
    for (const { machines, thrown } of day.stages) {
      const size = thrown + machines.length;
      for (let place = thrown; place < size; place++) {
        const a = order[turn++] as number;
        (sum[a] as number) += relative(place, size);
        (count[a] as number)++;
        if (place === 0) (opened[a] as number)++;
        if (place === size - 1) (closed[a] as number)++;
      }
    }
    let unrotated = 0;
    let uneven = 0;
    for (let a = 0; a < sum.length; a++) {
      unrotated += Math.max(0, (opened[a] as number) - share) + Math.max(0, (closed[a] as number) - share);
      if ((count[a] as number) < 2) continue;
      const off = Math.abs((sum[a] as number) / (count[a] as number) - 0.5);
      if (off > uneven) uneven = off;
      if (off > MIDDLE_HALF + 1e-9) unrotated += 4 * (off - MIDDLE_HALF);
    }
    this.figures.unrotated = unrotated;
    this.figures.uneven = uneven;
  }

  /** Places by which announced turns moved among themselves: what is new or gone moves nobody. */
  private moves(order: Int32Array): number {
    let moved = 0;
    let at = 0;
    let turn = 0;
    for (const { machines, stage } of this.day.stages)
      for (let index = 0; index < machines.length; index++) {
        const before = this.rank.get(keyOf(order[turn++] as number, stage));
        if (before === undefined) continue;
        moved += Math.abs(before - at);
        at++;
      }
    return moved;
  }
}

/** Of one machine in one round's order. */
export const keyOf = (machine: number, stage: number): number => stage * 65_536 + machine;
