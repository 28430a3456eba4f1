/** A day's firing order: planned, or merely timed as somebody put it. */
import { lowerBound } from "./bound";
import { type Figures, Judge, keyOf } from "./cost";
import { type Compiled, compile, type Day, type Turn } from "./day";
import { search } from "./search";

export interface PlannedTurn extends Turn {
  /** From when others are out of its zone; made safe again. */
  start: number;
  end: number;
  /** When its machine was ready again; null before its first throw. */
  ready: number | null;
  /** Who has to stop re-arming for it. */
  stops: string[];
}

export interface Plan extends Figures {
  turns: PlannedTurn[];
  /** No order ends before this, whatever rule it breaks. */
  bound: number;
  /** The longest wait that counts as fair, s. */
  fairWait: number;
}

/** The best order found. It yields now and then, so that whoever runs it can let others in. */
export function* planning(day: Day): Generator<void, Plan> {
  const compiled = compile(day);
  const told = announcedOf(day, compiled);
  const order = yield* search(compiled, firstOrders(compiled, told), told.keys, told.firm);
  return planOf(compiled, order, told.keys);
}

export function plan(day: Day): Plan {
  const work = planning(day);
  for (;;) {
    const { done, value } = work.next();
    if (done) return value;
  }
}

/** The times of an order as it is given: each round's machines in the order of `day.stages`. */
export function timed(day: Day): Plan {
  const compiled = compile(day);
  return planOf(compiled, asGiven(compiled), announcedOf(day, compiled).keys);
}

/** The plain rota: every round in the order given, each beginning one machine later than the one before. */
export function rota(day: Day): Plan {
  const compiled = compile(day);
  return planOf(
    compiled,
    rotated(compiled, (index) => index),
    announcedOf(day, compiled).keys,
  );
}

interface Announced {
  /** Of the turns that are still to come, in the order announced. */
  keys: readonly number[];
  firm: number;
}

function announcedOf(day: Day, compiled: Compiled): Announced {
  const left = new Map<number, number>();
  for (const { machines, stage } of compiled.stages)
    for (const machine of machines) {
      const key = keyOf(machine, stage);
      left.set(key, (left.get(key) ?? 0) + 1);
    }
  const keys: number[] = [];
  for (const { machine, stage } of day.announced ?? []) {
    const key = keyOf(compiled.ids.indexOf(machine), stage);
    const count = left.get(key) ?? 0;
    if (count === 0) continue;
    left.set(key, count - 1);
    keys.push(key);
  }
  return { keys, firm: Math.min(day.firm ?? 0, keys.length) };
}

/** Each round as announced, then what is new in it; the rota, from the first and from the middle; long re-armers first. */
function firstOrders(day: Compiled, { keys, firm }: Announced): Int32Array[] {
  const total = day.stages.reduce((sum, { machines }) => sum + machines.length, 0);
  const rank = new Map(keys.map((key, index) => [key, index]));
  const toRank = (order: Int32Array, places: number): Int32Array => {
    // Whoever is among the first ones announced stays there; the others follow in the order at hand.
    let from = 0;
    const out = new Int32Array(total);
    for (const { machines, stage } of day.stages) {
      const turns = [...order.subarray(from, from + machines.length)];
      const placeOf = (machine: number) => {
        const at = rank.get(keyOf(machine, stage));
        return at !== undefined && at < places ? at : places;
      };
      out.set(
        turns
          .map((machine, index) => ({ machine, index }))
          .sort((a, b) => placeOf(a.machine) - placeOf(b.machine) || a.index - b.index)
          .map(({ machine }) => machine),
        from,
      );
      from += machines.length;
    }
    return out;
  };
  const given = asGiven(day);
  if (keys.length > 0) return [toRank(given, keys.length)];
  const half = rotated(day, (index, size) => Math.floor((index * size) / 2) + Math.floor(index / 2));
  const slow = new Int32Array(total);
  let from = 0;
  for (const { machines } of day.stages) {
    slow.set(
      [...machines].sort((a, b) => (day.rearm[b] as number) - (day.rearm[a] as number)),
      from,
    );
    from += machines.length;
  }
  return [rotated(day, (index) => index), half, slow].map((order) => toRank(order, firm));
}

function asGiven(day: Compiled): Int32Array {
  return Int32Array.from(day.stages.flatMap(({ machines }) => [...machines]));
}

/** Each round rotated by `by` of its index and size. */
function rotated(day: Compiled, by: (index: number, size: number) => number): Int32Array {
  return Int32Array.from(
    day.stages.flatMap(({ machines }, index) => {
      const turns = [...machines];
      const start = turns.length > 0 ? by(index, turns.length) % turns.length : 0;
      return [...turns.slice(start), ...turns.slice(0, start)];
    }),
  );
}

function planOf(day: Compiled, order: Int32Array, keys: readonly number[]): Plan {
  const judge = new Judge(day, order.length, keys);
  judge.cost(order);
  const { start, end, ready } = judge.times;
  const n = day.ids.length;
  const stages = day.stages.flatMap(({ machines, stage }) => Array.from(machines, () => stage));
  // Until when each one re-arms for its next turn, what stops it meanwhile counted in.
  const readyFor = (a: number, since: number) => {
    const next = order.indexOf(a, since);
    return next < 0 ? Number.NEGATIVE_INFINITY : (ready[next] as number);
  };
  const rearming = day.ids.map((_, a) => readyFor(a, 0));
  const turns = Array.from(order, (a, turn): PlannedTurn => {
    const at = start[turn] as number;
    const stops = day.ids.filter(
      (_, b) => b !== a && day.covered[a * n + b] === 1 && (rearming[b] as number) > at,
    );
    rearming[a] = readyFor(a, turn + 1);
    const was = ready[turn] as number;
    return {
      machine: day.ids[a] as string,
      stage: stages[turn] as number,
      start: at,
      end: end[turn] as number,
      ready: was === Number.NEGATIVE_INFINITY ? null : was,
      stops,
    };
  });
  return { turns, ...judge.figures, bound: lowerBound(day), fairWait: day.longestWait };
}
