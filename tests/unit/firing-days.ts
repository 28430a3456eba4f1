/** Days to plan: the demo's eight machines as its zones lie, and big fairs on one long line. All invented. */
import type { Day, Machine, Rules } from "../../lib/firing-order";

const MINUTE = 60;

export const RULES: Rules = {
  call: MINUTE,
  clearing: MINUTE,
  measure: 3 * MINUTE,
  stepBack: 30,
  longestWait: null,
  rotate: true,
  pauses: [],
};

/** A line of machines, of which each one's zone covers the places up to `reach` away; a third re-arm slowly. */
export function lineDay(machines: number, rounds: number, reach: number, more: Partial<Day> = {}): Day {
  const list: Machine[] = Array.from({ length: machines }, (_, index) => ({
    id: `m${index + 1}`,
    rearm: (index % 3 === 0 ? 30 : index % 3 === 1 ? 18 : 9) * MINUTE,
    live: (index % 3 === 0 ? 6 : 3) * MINUTE,
  }));
  const near = list.map(({ id }, index): [string, string[]] => [
    id,
    list.filter((_, other) => other !== index && Math.abs(other - index) <= reach).map((each) => each.id),
  ]);
  return {
    machines: list,
    rules: RULES,
    covers: new Map(near),
    clears: new Set(near.filter(([, others]) => others.length > 0).map(([id]) => id)),
    stages: Array.from({ length: rounds }, (_, index) => ({
      stage: index + 1,
      machines: list.map(({ id }) => id),
    })),
    thrown: [],
    now: 0,
    ...more,
  };
}
