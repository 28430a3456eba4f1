/** Every planned day keeps the rules, held by a reckoning of its own that looks at one machine after the other. */
import fc from "fast-check";
import { expect, test } from "vitest";
import { type Day, type PlannedTurn, plan } from "@/lib/firing-order";
import { RULES } from "../unit/firing-days";

const minutes = (most: number) => fc.integer({ min: 0, max: most }).map((count) => count * 60);

const days: fc.Arbitrary<Day> = fc.integer({ min: 1, max: 7 }).chain((count) => {
  const ids = Array.from({ length: count }, (_, index) => `m${index}`);
  const some = fc.subarray(ids);
  return fc
    .record({
      machines: fc.tuple(
        ...ids.map((id) =>
          fc.record({ id: fc.constant(id), rearm: minutes(40), live: minutes(8), from: minutes(60) }),
        ),
      ),
      covers: fc.tuple(...ids.map((id) => some.map((others): [string, string[]] => [id, others]))),
      clears: some,
      stages: fc.array(fc.subarray(ids, { minLength: 1 }), { minLength: 1, maxLength: 3 }),
      pause: fc.option(fc.record({ from: minutes(120), long: fc.integer({ min: 60, max: 4000 }) })),
      firm: fc.integer({ min: 0, max: 3 }),
      thrown: fc.boolean(),
    })
    .map(({ machines, covers, clears, stages, pause, firm, thrown }) => {
      const numbered = stages.map((list, index) => ({ stage: index + 2, machines: list }));
      return {
        machines,
        covers: new Map(covers.map(([id, others]) => [id, others.filter((other) => other !== id)])),
        clears: new Set(clears),
        rules: { ...RULES, pauses: pause ? [{ from: pause.from, to: pause.from + pause.long }] : [] },
        stages: numbered,
        announced: numbered.flatMap(({ stage, machines: list }) =>
          list.map((machine) => ({ machine, stage })),
        ),
        firm,
        thrown: thrown
          ? ids.map((machine, index) => ({ machine, stage: 1, end: -60 * (count - index) * 20 }))
          : [],
        now: 0,
      };
    });
});

/** How long a machine was worked at between two moments, by cutting time where anything begins or ends. */
function worked(day: Day, turns: readonly PlannedTurn[], id: string, since: number, until: number): number {
  const away = turns
    .filter(({ machine, start }) => day.covers.get(machine)?.includes(id) && start >= since && start < until)
    .map(({ start, end }) => [start, end + day.rules.stepBack] as const);
  const none = [...away, ...day.rules.pauses.map(({ from, to }) => [from, to] as const)];
  const cuts = [since, until, ...none.flat()]
    .filter((at) => at >= since && at <= until)
    .sort((a, b) => a - b);
  let sum = 0;
  for (let index = 1; index < cuts.length; index++) {
    const [from, to] = [cuts[index - 1] as number, cuts[index] as number];
    const middle = (from + to) / 2;
    if (!none.some(([begin, end]) => middle > begin && middle < end)) sum += to - from;
  }
  return sum;
}

test("nobody re-arms inside a live zone, turns keep apart, pauses are kept, firm turns stay", () => {
  fc.assert(
    fc.property(days, (day) => {
      const { turns, end, bound } = plan(day);
      const { measure, call, clearing, pauses } = day.rules;
      expect(turns.map(({ stage, machine }) => `${stage} ${machine}`).sort()).toEqual(
        day.stages.flatMap(({ stage, machines }) => machines.map((id) => `${stage} ${id}`)).sort(),
      );
      for (const [index, turn] of turns.entries()) {
        const before = turns[index - 1];
        if (before) {
          expect(turn.start).toBeGreaterThanOrEqual(before.end + measure - 1e-6);
          expect(turn.stage).toBeGreaterThanOrEqual(before.stage);
        }
        const machine = day.machines.find(({ id }) => id === turn.machine);
        expect(turn.start).toBeGreaterThanOrEqual(machine?.from ?? 0);
        const takes = call + (machine?.live ?? 0) + (day.clears.has(turn.machine) ? clearing : 0);
        expect(turn.end - turn.start).toBeCloseTo(takes, 6);
        for (const { from, to } of pauses)
          expect(turn.end <= from + 1e-6 || turn.start >= to - 1e-6).toBe(true);
        const last = turns.slice(0, index).findLast((other) => other.machine === turn.machine);
        if (last)
          expect(worked(day, turns, turn.machine, last.end, turn.start)).toBeGreaterThanOrEqual(
            (machine?.rearm ?? 0) - 1e-6,
          );
      }
      const firm = Math.min(day.firm ?? 0, day.announced?.length ?? 0);
      expect(turns.slice(0, firm).map(({ machine }) => machine)).toEqual(
        day.announced?.slice(0, firm).map(({ machine }) => machine),
      );
      expect(bound).toBeLessThanOrEqual(end + 1e-6);
    }),
    { numRuns: 25, seed: 7 },
  );
});
