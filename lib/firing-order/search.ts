/**
 * The search for an order: simulated annealing over the order within each round, from several first orders, then a
 * descent over every single move. The number of orders tried is fixed by the size of the day and chance by a fixed
 * seed, so the same day has the same order anywhere.
 */

import { Judge, keyOf } from "./cost";
import type { Compiled } from "./day";

/** xorshift32 (Marsaglia 2003): as much chance as an annealing needs. */
class Chance {
  private state = 0x9e3779b9;
  /** 0 up to 1. */
  next(): number {
    this.state ^= this.state << 13;
    this.state ^= this.state >>> 17;
    this.state ^= this.state << 5;
    return (this.state >>> 0) / 4_294_967_296;
  }
  below(count: number): number {
    return Math.floor(this.next() * count);
  }
}

/** Simple steps that a search may take in all; an order costs turns × machines of them. */
const STEPS = 20_000_000;
const FEWEST = 1500;
const MOST = 20_000;
/** Orders tried before others get their turn. */
const SLICE = 200;
/** The first temperature, s: a day longer by this is taken at first with probability 1/e. */
const HOT = 900;
const COLD = 2;

/** Where each stage's turns begin and end in an order. */
interface Span {
  from: number;
  to: number;
}

/**
 * Yields now and then, so that whoever runs it can let others in; returns the best order found.
 * `starts` are first orders; `firm` turns stay first in each.
 */
export function* search(
  day: Compiled,
  starts: readonly Int32Array[],
  announced: readonly number[],
  firm: number,
): Generator<void, Int32Array> {
  const [first] = starts;
  if (!first) throw new RangeError("The search needs an order to begin with.");
  const turns = first.length;
  const judge = new Judge(day, turns, announced);
  const spans = spansOf(day, firm);
  let best = first.slice();
  let lowest = judge.cost(best);
  if (spans.length === 0) return best;
  const tries = Math.max(FEWEST, Math.min(MOST, Math.round(STEPS / (turns * (day.ids.length + 4)))));
  const each = Math.ceil(tries / starts.length);
  const chance = new Chance();
  for (const start of starts) {
    const order = start.slice();
    let cost = judge.cost(order);
    let heat = HOT;
    const cooling = (COLD / HOT) ** (1 / each);
    for (let tried = 0; tried < each; tried++, heat *= cooling) {
      if (tried % SLICE === 0) yield;
      const span = spans[chance.below(spans.length)] as Span;
      const size = span.to - span.from;
      const a = span.from + chance.below(size);
      const b = span.from + ((a - span.from + 1 + chance.below(size - 1)) % size);
      const swaps = chance.next() < 0.5;
      if (swaps) swap(order, a, b);
      else shift(order, a, b);
      const now = judge.cost(order);
      if (now <= cost || chance.next() < Math.exp((cost - now) / heat)) {
        cost = now;
        if (cost < lowest - 1e-9) {
          lowest = cost;
          best = order.slice();
        }
      } else if (swaps) swap(order, a, b);
      else shift(order, b, a);
    }
  }
  yield* descend(best, spans, judge, each);
  return best;
}

/** Takes every single move that helps until none does, or `most` sweeps' worth of orders were tried. */
function* descend(
  order: Int32Array,
  spans: readonly Span[],
  judge: Judge,
  most: number,
): Generator<void, void> {
  let cost = judge.cost(order);
  let tried = 0;
  for (let helped = true; helped && tried < most; ) {
    helped = false;
    for (const { from, to } of spans)
      for (let a = from; a < to; a++)
        for (let b = from; b < to; b++) {
          if (a === b) continue;
          if (++tried % SLICE === 0) yield;
          shift(order, a, b);
          const now = judge.cost(order);
          if (now < cost - 1e-9) {
            cost = now;
            helped = true;
          } else shift(order, b, a);
          if (b < a) continue;
          swap(order, a, b);
          const swapped = judge.cost(order);
          if (swapped < cost - 1e-9) {
            cost = swapped;
            helped = true;
          } else swap(order, a, b);
        }
  }
}

/** The parts of the order within which turns may change places. */
function spansOf(day: Compiled, firm: number): Span[] {
  const spans: Span[] = [];
  let from = 0;
  for (const { machines } of day.stages) {
    const to = from + machines.length;
    const open = Math.max(from, firm);
    if (to - open > 1) spans.push({ from: open, to });
    from = to;
  }
  return spans;
}

function swap(order: Int32Array, a: number, b: number): void {
  const kept = order[a] as number;
  order[a] = order[b] as number;
  order[b] = kept;
}

/** Takes the turn at `from` out and puts it in at `to`. */
function shift(order: Int32Array, from: number, to: number): void {
  const kept = order[from] as number;
  if (from < to) order.copyWithin(from, from + 1, to + 1);
  else order.copyWithin(to + 1, to, from);
  order[to] = kept;
}

/** The keys of an order's turns, as `announced` has them. */
export const keysOf = (day: Compiled, order: Int32Array): number[] => {
  let turn = 0;
  return day.stages.flatMap(({ machines, stage }) =>
    Array.from(machines, () => keyOf(order[turn++] as number, stage)),
  );
};
