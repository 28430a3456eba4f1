/**
 * The times of an order, each turn as early as it can be. No later start helps anybody: what a machine still has to
 * re-arm between two of its turns is stopped by the same throws, whenever they come, so for a given order the earliest
 * times make the shortest day.
 */
import { afterThrow, type Compiled, type Pause } from "./day";

export interface Times {
  /** From when others are out of the machine's zone. */
  start: Float64Array;
  /** Made safe again. */
  end: Float64Array;
  /** When it was ready again; −∞ for a first throw. */
  ready: Float64Array;
}

export const newTimes = (turns: number): Times => ({
  start: new Float64Array(turns),
  end: new Float64Array(turns),
  ready: new Float64Array(turns),
});

/** Scratch space of `time`, so that trying an order allocates nothing. */
export const newScratch = (day: Compiled): Float64Array => new Float64Array(day.ready.length);

/** Fills in the times of `order`, machines in the order in which they throw; answers when the last is made safe. */
export function time(day: Compiled, order: Int32Array, times: Times, scratch: Float64Array): number {
  const { measure, pauses } = day.rules;
  scratch.set(day.ready);
  let free = day.now;
  let end = day.now;
  for (let turn = 0; turn < order.length; turn++) {
    const a = order[turn] as number;
    const ready = scratch[a] as number;
    const busy = day.busy[a] as number;
    const start = besidePauses(pauses, Math.max(free, ready, day.from[a] as number), busy);
    end = start + busy;
    times.start[turn] = start;
    times.end[turn] = end;
    times.ready[turn] = ready;
    afterThrow(day, scratch, a, end);
    free = end + measure;
  }
  return end;
}

/** The first start, no earlier than `start`, at which a turn does not run into a pause. */
export function besidePauses(pauses: readonly Pause[], start: number, busy: number): number {
  let at = start;
  for (const { from, to } of pauses) if (at < to && at + busy > from) at = to;
  return at;
}
