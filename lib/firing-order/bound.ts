/** No order of a day ends before this. */
import type { Compiled, Pause } from "./day";

/**
 * The largest of three: all turns back to back; each machine by itself, its turns and the re-arming between them; and all turns
 * with the least idling that a machine forces whose re-arming does not fit beside everybody else's turns. What rotation
 * and fair waits cost is not in it.
 */
export function lowerBound(day: Compiled): number {
  const { measure, pauses } = day.rules;
  const n = day.ids.length;
  const turns = day.stages.flatMap(({ machines }) => [...machines]);
  if (turns.length === 0) return day.now;
  const busy = turns.reduce((sum, machine) => sum + (day.busy[machine] as number), 0);
  const first = Math.min(
    ...Array.from(day.stages[0]?.machines ?? [], (a) =>
      Math.max(day.ready[a] as number, day.from[a] as number),
    ),
  );
  const begin = Math.max(day.now, first);
  const together = busy + (turns.length - 1) * measure;
  let idle = 0;
  let end = day.now;
  for (let a = 0; a < n; a++) {
    const own = turns.filter((turn) => turn === a).length;
    if (own === 0) continue;
    const needed = (own - 1) * (day.rearm[a] as number);
    const beside = turns.reduce(
      (sum, b) =>
        b === a ? sum : sum + measure + (day.covered[b * n + a] === 1 ? 0 : (day.busy[b] as number)),
      (own - 1) * measure,
    );
    idle = Math.max(idle, needed - beside);
    const alone = Math.max(day.now, day.ready[a] as number, day.from[a] as number);
    const gap = Math.max(measure, day.rearm[a] as number);
    const takes = own * (day.busy[a] as number) + (own - 1) * gap;
    end = Math.max(end, past(pauses, alone, alone + takes, measure));
  }
  return Math.max(end, past(pauses, begin, begin + together + idle, measure));
}

/** A pause that begins meanwhile puts off all but the measuring of one throw. */
function past(pauses: readonly Pause[], begin: number, end: number, measure: number): number {
  let at = end;
  for (const { from, to } of pauses) if (from >= begin && from < at) at += Math.max(0, to - from - measure);
  return at;
}
