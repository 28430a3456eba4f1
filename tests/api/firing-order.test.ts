/** The firing order of a day through the API: planned, moved, planned anew, and what judges' phones make of it. */
import { beforeAll, expect, test } from "vitest";
import type { FiringOrder, OrderProposal, TurnInfo } from "@/lib/api/contracts";
import { type Actor, actorOfToken, allSheets, judgeView } from "@/lib/contest";
import { at, bearingFix, type Fair, newFair } from "./fair";

const START = "2031-10-04T08:00:00.000Z";
const RULES = { startAt: START, measure: 180, rearm: 1200 };
let fair: Fair;

beforeAll(async () => {
  fair = await newFair(4);
  // 25 m/s reaches some 70 m: one machine stands apart from the others.
  const [longitude, latitude] = at(270, 300);
  const { id } = await fair.lay("POST", "/firing-points", { latitude, longitude });
  await fair.lay("PATCH", `/machines/${fair.machineIds[3]}/placement`, { firingPointId: id, bearing: 270 });
  await allSheets(fair.db, fair.contestId);
});

const order = (): Promise<FiringOrder> => fair.as("team")(200, "GET", "/firing-order");
const keys = (turns: readonly TurnInfo[]) =>
  turns.map(({ round, entrantNumber }) => `${round}-${entrantNumber}`);
const left = ({ turns }: FiringOrder) => turns.filter(({ state }) => state === "to-throw");
const judge = async () =>
  judgeView(fair.db, (await actorOfToken(fair.db, fair.tokens.judge)) as Actor, fair.slug);

test("without an order there are no turns; the first one needs its rules", async () => {
  expect(await order()).toMatchObject({ rules: null, turns: [], upId: null, missing: [] });
  const problem = await fair.as("organiser")(422, "POST", "/firing-order", {});
  expect(problem.errors).toEqual([{ field: "rules", message: expect.stringContaining("first order") }]);
  const pauses = [{ from: "2031-10-04T12:00:00Z", to: "2031-10-04T11:00:00Z" }];
  const back = await fair.as("organiser")(422, "POST", "/firing-order", { rules: { ...RULES, pauses } });
  expect(back.errors[0].field).toBe("rules.pauses.0.to");
});

test("what it would come to is told and nothing is kept", async () => {
  const body = { rules: RULES };
  const told: OrderProposal = await fair.as("organiser")(200, "POST", "/firing-order-preview", body);
  expect(told.turns).toHaveLength(12);
  expect(told.unchanged).toBeNull();
  expect(told.assumed).toEqual([]);
  expect(Date.parse(told.proposed.end)).toBeGreaterThanOrEqual(Date.parse(told.bound));
  expect(Date.parse(told.proposed.end)).toBeLessThanOrEqual(Date.parse(told.rota.end));
  await fair.as("judge")(403, "POST", "/firing-order-preview", body);
  expect((await order()).turns).toEqual([]);
});

test("every machine has a turn in every round; crews stop for whom they stand in the zone of", async () => {
  const made: FiringOrder = await fair.as("organiser")(201, "POST", "/firing-order", { rules: RULES });
  expect(made.turns).toHaveLength(12);
  expect(made.turns.map(({ stage }) => stage)).toEqual([1, 1, 1, 1, 2, 2, 2, 2, 3, 3, 3, 3]);
  expect(made.turns[0]?.expectedAt).toBe(START);
  expect(made.turns.map(({ toldAt }) => toldAt)).toEqual(made.turns.map(({ expectedAt }) => expectedAt));
  const stops = new Set(
    made.turns.flatMap((turn) => turn.stops.map((name) => `${turn.machineName} ${name}`)),
  );
  expect([...stops].some((pair) => pair.includes("Machine 4"))).toBe(false);
  expect(stops.size).toBeGreaterThan(0);
  const view = await judge();
  expect(view.upId).toBe(made.upId);
  expect(view.shots.map(({ id }) => id)).toEqual(made.turns.slice(0, 4).map(({ shotId }) => shotId));
});

test("a turn that is passed over comes last in its round, or in the next one; what was thrown stays", async () => {
  const before = await order();
  const [first, second, third, fourth, fifth] = before.turns;
  if (!first || !second || !third || !fourth || !fifth) throw new Error("Too few turns.");
  const fix = { fix: bearingFix(60), observedAt: new Date(Date.now() - 60_000).toISOString() };
  await fair.as("judge")(201, "POST", `/shots/${first.shotId}/fixes`, fix);
  const move = (id: string, after: string | null, status = 200) =>
    fair.as("safety-officer")(status, "PUT", `/turns/${id}/place`, { after, reason: "Cable off its drum" });
  expect((await move(first.shotId, null, 409)).code).toBe("thrown");
  expect((await move(fifth.shotId, second.shotId, 422)).errors[0].field).toBe("after");
  expect((await move(second.shotId, "nothing", 422)).errors[0].field).toBe("after");
  const passed: FiringOrder = await move(second.shotId, null);
  expect(keys(passed.turns.slice(0, 4))).toEqual(keys([first, third, fourth, second]));
  expect(passed.turns[3]?.passedOver).toBe("Cable off its drum");
  expect(passed.turns[3]?.toldAt).toBe(passed.turns[3]?.expectedAt);
  expect((await judge()).upId).toBe(third.shotId);

  const later: FiringOrder = await move(second.shotId, fifth.shotId);
  expect(keys(later.turns.slice(2, 6))).toEqual(keys([fourth, fifth, second, before.turns[5] as TurnInfo]));
  expect(later.turns[4]).toMatchObject({ round: 1, stage: 2, place: 2 });
  for (const turn of [third, fourth]) await fair.as("judge")(201, "POST", `/shots/${turn.shotId}/fixes`, fix);
  const view = await judge();
  expect(view.round).toBe(2);
  expect(view.shots.map(({ id }) => id).slice(0, 2)).toEqual([fifth.shotId, second.shotId]);
});

test("planned anew: with a reason, without a machine that drops out, with one that is added, few moved", async () => {
  const before = await order();
  const [up, next] = left(before);
  if (!up || !next) throw new Error("Nothing left.");
  const dropped = left(before).findLast(
    ({ machineId }) => ![up, next].some((one) => one.machineId === machineId),
  );
  if (!dropped) throw new Error("Only those that are called are left.");
  await fair.as("judge")(201, "POST", "/rulings", {
    entrantId: dropped.entrantId,
    decision: "dnf",
    reason: "Arm cracked",
  });
  expect((await order()).turns.filter(({ state }) => state === "out")).toHaveLength(
    left(before).filter(({ entrantId }) => entrantId === dropped.entrantId).length,
  );
  const { divisionId, firingPointId } = fair;
  const { id: entrantId } = await fair.lay("POST", "/entrants", { divisionId, name: "Late Team" });
  const declaration = {
    machine: { kind: "measured", releaseSpeed: 20, launchAngle: 42, launchHeight: 2 },
    projectile: { mass: 3, diameter: 0.2 },
    tolerances: { releaseSpeed: 0, launchAngle: 0, launchHeight: 0, mass: 0, diameter: 0 },
  };
  const machine = await fair.lay("POST", "/machines", { entrantId, name: "Late One", declaration });
  await fair.lay("PATCH", `/machines/${machine.id}/placement`, { firingPointId, bearing: 90 });
  expect((await order()).missing).toEqual([
    { machineId: machine.id, machineName: "Late One", rounds: [2, 3] },
  ]);

  const refused = await fair.as("organiser")(422, "POST", "/firing-order", {});
  expect(refused.errors[0].field).toBe("reason");
  const told: OrderProposal = await fair.as("organiser")(200, "POST", "/firing-order-preview", {});
  const body = { reason: "One out, one in" };
  const after: FiringOrder = await fair.as("organiser")(201, "POST", "/firing-order", body);
  // Of one machine the earlier round comes first.
  const machines = (turns: readonly TurnInfo[]) => turns.map(({ machineId }) => machineId);
  expect(machines(left(after)).slice(0, 2)).toEqual(machines([up, next]));
  expect(
    left(after)
      .filter(({ machineId }) => machineId === machine.id)
      .map(({ round }) => round),
  ).toEqual([2, 3]);
  expect(left(after).some(({ entrantId: id }) => id === dropped.entrantId)).toBe(false);
  expect(after.turns.slice(0, 3).map(({ shotId }) => shotId)).toEqual(
    before.turns.slice(0, 3).map(({ shotId }) => shotId),
  );
  expect(told.proposed.moved).toBeLessThanOrEqual(4);
  expect(after).toMatchObject({ missing: [], stale: [] });
  const rows = await fair.db.scorebookEntry.findMany({
    where: { act: "order-planned" },
    orderBy: { sequence: "asc" },
  });
  expect(rows).toHaveLength(2);
  expect(JSON.parse(rows[1]?.body ?? "{}")).toMatchObject({ reason: "One out, one in" });
});

test("a machine that is late is expected no earlier, and one that was moved makes the order doubtful", async () => {
  const before = await order();
  const late = left(before)[2] as TurnInfo;
  const notBefore = "2031-10-04T15:00:00.000Z";
  const path = `/machines/${late.machineId}/times`;
  await fair.as("organiser")(200, "PUT", path, { rearm: 600, live: 120, notBefore });
  const waiting = left(await order()).find(({ machineId }) => machineId === late.machineId);
  expect(waiting?.expectedAt).toBe(notBefore);
  const after: FiringOrder = await fair.as("organiser")(201, "POST", "/firing-order", { reason: "Late" });
  const [first] = left(after);
  expect(first?.machineId).not.toBe(late.machineId);
  expect(left(after).filter(({ machineId }) => machineId === late.machineId)[0]?.stage).toBeGreaterThan(
    late.stage - 1,
  );

  await fair.lay("PATCH", `/machines/${first?.machineId}/placement`, {
    firingPointId: fair.firingPointId,
    bearing: 95,
  });
  expect((await order()).stale).toEqual([
    expect.stringContaining(`${first?.machineName} was placed, turned`),
  ]);

  await fair.as("organiser")(201, "POST", "/firing-order", { reason: "Turned" });
  expect((await order()).stale).toEqual([]);
  const wider = { policy: { margin: 1.5 }, reason: "A new field" };
  await fair.as("safety-officer")(200, "PUT", "/policy", wider);
  expect((await order()).stale).toEqual([
    expect.stringContaining("Zones, or what stands in them, were changed"),
  ]);
});
