/** The firing order against every order there is, and against days that can be worked out by hand. */
import { describe, expect, test } from "vitest";
import { type Day, type Plan, plan, rota, timed } from "@/lib/firing-order";
import { Judge } from "@/lib/firing-order/cost";
import { compile } from "@/lib/firing-order/day";
import { lineDay, RULES } from "./firing-days";

const MINUTE = 60;

/** Every order of a list. */
function orders<T>(list: readonly T[]): T[][] {
  if (list.length < 2) return [[...list]];
  return list.flatMap((each, index) =>
    orders([...list.slice(0, index), ...list.slice(index + 1)]).map((rest) => [each, ...rest]),
  );
}

/** The least cost of all orders of all rounds. */
function leastCost(day: Day): number {
  const compiled = compile(day);
  const rounds = compiled.stages.map(({ machines }) => orders([...machines]));
  const judge = new Judge(
    compiled,
    compiled.stages.reduce((sum, each) => sum + each.machines.length, 0),
    [],
  );
  let least = Number.POSITIVE_INFINITY;
  const go = (round: number, so: readonly number[]) => {
    const next = rounds[round];
    if (!next) least = Math.min(least, judge.cost(Int32Array.from(so)));
    else for (const order of next) go(round + 1, [...so, ...order]);
  };
  go(0, []);
  return least;
}

function costOf(day: Day, turns: Plan["turns"]): number {
  const compiled = compile(day);
  const order = Int32Array.from(turns, ({ machine }) => compiled.ids.indexOf(machine));
  return new Judge(compiled, order.length, []).cost(order);
}

/** Days of a few machines, each with other times, zones, latecomers and pauses. */
function smallDay(number: number): Day {
  const machines = 3 + (number % 2);
  const base = lineDay(machines, machines === 3 ? 4 : 3, number % machines);
  const list = base.machines.map((machine, index) => ({
    ...machine,
    rearm: ((number * 7 + index * 11) % 31) * MINUTE,
    ...((number + index) % 5 === 0 && { from: 20 * MINUTE }),
  }));
  const pauses = number % 3 === 0 ? [{ from: 50 * MINUTE, to: 80 * MINUTE }] : [];
  return { ...base, machines: list, rules: { ...RULES, pauses } };
}

test("small days: as good as the best of all orders, and never before the bound", () => {
  for (let number = 0; number < 12; number++) {
    const day = smallDay(number);
    const least = leastCost(day);
    const { turns, end, bound } = plan(day);
    expect(costOf(day, turns), `day ${number}`).toBeLessThanOrEqual(least + 1e-6);
    expect(end, `day ${number}`).toBeGreaterThanOrEqual(bound - 1e-6);
  }
});

describe("times by hand", () => {
  const two: Day = {
    machines: [
      { id: "a", rearm: 600, live: 200 },
      { id: "b", rearm: 100, live: 300 },
    ],
    rules: { ...RULES, call: 50, clearing: 40, measure: 120, stepBack: 10 },
    covers: new Map([["b", ["a"]]]),
    clears: new Set(["b"]),
    stages: [
      { stage: 1, machines: ["a", "b"] },
      { stage: 2, machines: ["a", "b"] },
    ],
    thrown: [],
    now: 1000,
  };
  test("a crew inside a live zone stops and loses the time, its way there and back too", () => {
    const { turns, end } = timed(two);
    // a: 1000 to 1250. b: after 120 s of measuring, 1370 to 1760, while a stands back for 390 + 10 s.
    expect(turns.map(({ start, end: safe }) => [start, safe])).toEqual([
      [1000, 1250],
      [1370, 1760],
      [2250, 2500],
      [2620, 3010],
    ]);
    expect(turns.map(({ ready }) => ready)).toEqual([null, null, 1250 + 600 + 400, 1860]);
    expect(turns.map(({ stops }) => stops)).toEqual([[], ["a"], [], []]);
    expect(end).toBe(3010);
  });
  test("nobody throws or re-arms in a pause", () => {
    const pauses = [{ from: 1500, to: 2100 }];
    const { turns } = timed({ ...two, rules: { ...two.rules, pauses } });
    // b would run into the pause. a's work, 250 s of it done, goes on after the pause until b makes it stop.
    expect(turns.map(({ start }) => start)).toEqual([1000, 2100, 2850, 3220]);
    expect(turns[2]?.ready).toBe(1250 + 600 + 600 + 400);
  });
});

describe("planned anew", () => {
  const day = lineDay(8, 3, 3);
  const first = plan(day);
  const threw = first.turns.slice(0, 10);
  const thrown = threw.map(({ machine, stage, end }) => ({ machine, stage, end }));
  const told = first.turns.slice(10);
  const left = (without = "") =>
    [2, 3].map((stage) => ({
      stage,
      machines: told
        .filter((turn) => turn.stage === stage && turn.machine !== without)
        .map(({ machine }) => machine),
    }));
  const now = (threw.at(-1)?.end ?? 0) + RULES.measure;
  const later = { ...day, thrown, now, announced: told, firm: 2 };
  const keys = (turns: readonly { machine: string; stage: number }[]) =>
    turns.map(({ machine, stage }) => `${stage} ${machine}`);

  test("with nothing changed nothing moves, and times stay as announced", () => {
    const again = plan({ ...later, stages: left() });
    expect(keys(again.turns)).toEqual(keys(told));
    expect(again.moved).toBe(0);
    expect(again.end).toBeCloseTo(first.end, 6);
  });
  test("a machine drops out: the others close ranks", () => {
    const out = told.at(4)?.machine ?? "";
    const again = plan({ ...later, stages: left(out) });
    expect(again.turns).toHaveLength(told.length - told.filter(({ machine }) => machine === out).length);
    expect(again.moved).toBeLessThanOrEqual(4);
    expect(keys(again.turns).slice(0, 2)).toEqual(keys(told).slice(0, 2));
  });
  test("a machine is late: only it and few others move", () => {
    const late = told[3]?.machine ?? "";
    const from = now + 40 * MINUTE;
    const machines = day.machines.map((each) => (each.id === late ? { ...each, from } : each));
    const again = plan({ ...later, machines, stages: left() });
    expect(again.turns.find(({ machine }) => machine === late)?.start).toBeGreaterThanOrEqual(from);
    expect(keys(again.turns).slice(0, 2)).toEqual(keys(told).slice(0, 2));
    // Waiting for it would have cost this much.
    const waiting = timed({ ...later, machines, stages: left() });
    expect(again.end).toBeLessThanOrEqual(waiting.end);
    expect(again.moved).toBeLessThan(16);
  });
  test("a machine is added: it takes its turns without moving the first ones", () => {
    const machines = [...day.machines, { id: "new", rearm: 9 * MINUTE, live: 3 * MINUTE, from: now }];
    const stages = left().map((stage) => ({ ...stage, machines: [...stage.machines, "new"] }));
    const again = plan({ ...later, machines, stages });
    expect(again.turns.filter(({ machine }) => machine === "new").map(({ stage }) => stage)).toEqual([2, 3]);
    expect(keys(again.turns).slice(0, 2)).toEqual(keys(told).slice(0, 2));
  });
});

test("eight machines that all stop one another: shorter than the rota, fair where it is not", () => {
  const day = lineDay(8, 3, 7);
  const best = plan(day);
  const plain = rota(day);
  expect(best.end).toBeLessThan(plain.end - 10 * MINUTE);
  expect(best.end).toBeLessThan(best.bound * 1.05);
  expect([best.unfair, best.unrotated]).toEqual([0, 0]);
  expect(plain.unfair).toBeGreaterThan(0);
  expect(plain.unrotated).toBeGreaterThan(0);
  expect(best.longestWait).toBeLessThan(plain.longestWait * 0.6);
  expect(plan(day)).toEqual(best);
});
