/** What the planner is given of a contest's day: its pace, and who makes up for a round later. */
import { expect, test } from "vitest";
import { orderRulesSchema } from "@/lib/api/contracts";
import { type DayTurn, dayOf, paceOf, withLatecomersLater } from "@/lib/contest/order-day";

const START = Date.parse("2031-10-04T08:00:00Z");
const MINUTE = 60_000;
const at = (minutes: number) => new Date(START + minutes * MINUTE);
// A turn takes 1 + 3 min, and 4 min are measured: 8 min from throw to throw.
const rules = orderRulesSchema.parse({
  startAt: at(0).toISOString(),
  live: 180,
  measure: 240,
  pauses: [{ from: at(240).toISOString(), to: at(300).toISOString() }],
});
const crews = ["a", "b", "c"].map((id) => ({ id, rearm: null, live: null, notBefore: null as Date | null }));
const geometry = {};
const turn = (machineId: string, round: number, thrown: number | null): DayTurn => ({
  machineId,
  round,
  stage: round,
  state: thrown === null ? "to-throw" : "thrown",
  thrownAt: thrown === null ? null : at(thrown),
});
const threw = (...minutes: number[]) =>
  minutes.map((each, index) => turn("abc"[index % 3] as string, Math.floor(index / 3) + 1, each));

test("the pace is the median of the last throws, without breaks, pauses and what was typed in later", () => {
  const pace = (...minutes: number[]) => paceOf({ turns: threw(...minutes), crews, rules, geometry });
  expect(pace(4, 14, 24)).toBeNull();
  expect(pace(4, 14, 24, 34)).toBeCloseTo(10 / 8, 9);
  expect(pace(4, 12, 20, 36)).toBeCloseTo(1, 9);
  // An hour's break, and two entries in one minute.
  expect(pace(4, 14, 24, 34, 94, 94.5, 104.5)).toBeCloseTo(10 / 8, 9);
  // From before the pause to after it.
  expect(pace(214, 224, 234, 310, 320)).toBeCloseTo(10 / 8, 9);
  // Only the last eight count.
  expect(pace(0, 16, 32, 48, 64, 80, 88, 96, 104, 112, 120, 128, 136, 144)).toBeCloseTo(1, 9);
});

test("what is to come begins after the last measuring, and no earlier than the start", () => {
  const facts = { turns: [turn("a", 1, null)], crews, rules, geometry };
  expect(dayOf({ ...facts, now: at(-90) }).now).toBe(START / 1000);
  const turns = [...threw(30), turn("b", 1, null)];
  expect(dayOf({ ...facts, turns, now: at(31) }).now).toBe(at(34).getTime() / 1000);
  expect(dayOf({ ...facts, turns, now: at(50) }).now).toBe(at(50).getTime() / 1000);
});

test("who comes when its round is over makes up for it in the next; in the last the others wait", () => {
  const turns = [1, 2].flatMap((round) => ["a", "b", "c"].map((id) => turn(id, round, null)));
  const stages = (notBefore: Date) =>
    withLatecomersLater({
      turns,
      crews: crews.map((crew) => (crew.id === "b" ? { ...crew, notBefore } : crew)),
      rules,
      geometry,
      now: at(0),
    }).map(({ machineId, round, stage }) => `${machineId}${round}${stage}`);
  expect(stages(at(10))).toEqual(["a11", "b11", "c11", "a22", "b22", "c22"]);
  expect(stages(at(30))).toEqual(["a11", "b12", "c11", "a22", "b22", "c22"]);
  expect(stages(at(120))).toEqual(["a11", "b12", "c11", "a22", "b22", "c22"]);
});
