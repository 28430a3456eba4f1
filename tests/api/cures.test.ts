/** Cures, fit, clear bearings and placing: what is found is proven, nothing is changed by asking, plans go in whole. */
import { beforeAll, expect, test } from "vitest";
import { allSheets } from "@/lib/contest";
import { type Answer, at, type Fair, newFair, rowCounts, send } from "./fair";

let fair: Fair;
let crowdId: string;
let spareId: string;
const at30 = (bearing: number, distance: number) => {
  const [longitude, latitude] = at(bearing, distance);
  return { latitude, longitude };
};

/** A machine throws east from the middle, and a crowd stands just inside the side of its zone. */
beforeAll(async () => {
  fair = await newFair(2);
  const crowd = {
    kind: "spectators",
    name: "North bank",
    standOff: 10,
    geometry: {
      type: "Polygon",
      coordinates: [[at(80, 90), at(62, 160), at(58, 165), at(70, 95), at(80, 90)]],
    },
  };
  crowdId = (await fair.lay("POST", "/features", crowd)).id;
  spareId = (await fair.lay("POST", "/firing-points", at30(180, 90))).id;
});

const zoneOf = async (machine: number): Promise<Answer> => {
  await allSheets(fair.db, fair.contestId);
  const { features } = await fair.as("organiser")(200, "GET", "/zones");
  return features.find((each: Answer) => each.id === fair.machineIds[machine]);
};
const conflictsOf = async (machine: number): Promise<string[]> =>
  (await zoneOf(machine)).properties.conflicts
    .filter((each: Answer) => each.inConflict)
    .map((each: Answer) => each.featureId);
const placement = (machine: number, body: object) =>
  fair.lay("PATCH", `/machines/${fair.machineIds[machine]}/placement`, body);

test("every cure holds when it is carried out, and asking changes nothing", async () => {
  expect(await conflictsOf(0)).toEqual([crowdId]);
  const before = await rowCounts(fair.db);
  const answer = await fair.as("safety-officer")(200, "GET", `/cures?machine=${fair.machineIds[0]}`);
  expect(await rowCounts(fair.db)).toEqual(before);
  expect(answer.conflicts.map((each: Answer) => each.featureId)).toEqual([crowdId]);
  const costs = answer.cures.map((cure: Answer) => cure.cost);
  expect(costs).toEqual([...costs].sort((a: number, b: number) => a - b));
  const kinds = new Set([...answer.cures, ...answer.without].map((each: Answer) => each.kind));
  expect(kinds).toEqual(new Set(["turn", "point", "shift", "crowd", "strength", "barrier"]));

  const cure = (kind: string) => answer.cures.find((each: Answer) => each.kind === kind);
  const { firingPointId } = fair;
  await placement(0, { firingPointId, bearing: cure("turn").bearing });
  expect(await conflictsOf(0)).toEqual([]);
  const { firingPointId: elsewhere, bearing } = cure("point");
  expect(elsewhere).toBe(spareId);
  await placement(0, { firingPointId: elsewhere, bearing });
  expect(await conflictsOf(0)).toEqual([]);
  const { place } = cure("shift");
  const { id: shifted } = await fair.lay("POST", "/firing-points", place);
  await placement(0, { firingPointId: shifted, bearing: 90 });
  expect(await conflictsOf(0)).toEqual([]);

  await placement(0, { firingPointId, bearing: 90 });
  const [{ geometry, featureId }] = cure("crowd").moves;
  const { geometry: old } = (await fair.as("organiser")(200, "GET", "")).features.find(
    (each: Answer) => each.id === featureId,
  );
  await fair.lay("PATCH", `/features/${featureId}`, { geometry });
  // Nor is any other machine's zone in its way there.
  expect([...(await conflictsOf(0)), ...(await conflictsOf(1))]).toEqual([]);
  await fair.lay("PATCH", `/features/${featureId}`, { geometry: old });

  const { strength, value, nominalBefore, nominalAfter } = cure("strength");
  expect(strength).toMatchObject({ parameter: "releaseSpeed", declared: 25, dimension: "speed" });
  expect(nominalAfter).toBeLessThan(nominalBefore);
  const { revisions } = await fair.as("organiser")(200, "GET", `/machines/${fair.machineIds[0]}`);
  const declaration = revisions[0].declaration;
  declaration.machine.releaseSpeed = value;
  await fair.lay("POST", `/machines/${fair.machineIds[0]}/revisions`, { declaration, note: "Slower" });
  expect(await conflictsOf(0)).toEqual([]);
  declaration.machine.releaseSpeed = 25;
  await fair.lay("POST", `/machines/${fair.machineIds[0]}/revisions`, { declaration, note: "As it was" });
});

test("fit answers the largest tested value that fits, with what each tested one does", async () => {
  const path = `/fit?machine=${fair.machineIds[0]}`;
  const { tested, largest, strength } = await fair.as("organiser")(200, "GET", path);
  expect(tested[0]).toMatchObject({ value: strength.declared, share: 1, fits: false });
  expect(tested[0].blockers.map((each: Answer) => each.featureId)).toEqual([crowdId]);
  const fitting = tested.filter((each: Answer) => each.fits);
  expect(largest).toEqual(fitting[0]);
  const above = tested[tested.indexOf(fitting[0]) - 1];
  expect(above.fits).toBe(false);
  // Ten tenths and four halvings: nearer than a hundredth.
  expect((above.value - largest.value) / strength.declared).toBeLessThan(0.0101);
  // Turned to the south it fits as it is, and more would.
  const free = await fair.as("organiser")(200, "GET", `${path}&bearing=180`);
  expect(free.tested.find((each: Answer) => each.share === 1).fits).toBe(true);
  expect(free.largest.value).toBeGreaterThan(strength.declared);
});

test("fit and cures tell their progress to whoever listens, and refuse before they begin", async () => {
  const headers = { accept: "text/event-stream" };
  const as = fair.tokens.organiser;
  const path = `${fair.base}/fit?machine=${fair.machineIds[1]}`;
  const response = await send("GET", path, { as, headers });
  expect(response.headers.get("content-type")).toMatch(/^text\/event-stream/);
  const events = (await response.text()).split("\n\n").filter(Boolean);
  const shares = events
    .filter((event) => event.startsWith("event: progress"))
    .map((event) => JSON.parse(event.split("data: ")[1] as string).done as number);
  expect(shares.length).toBeGreaterThan(2);
  expect(shares).toEqual([...shares].sort((a, b) => a - b));
  expect(events.at(-1)).toMatch(/^event: answer/);
  const refused = await send("GET", `${fair.base}/fit?machine=none`, { as, headers });
  expect(refused.status).toBe(404);
});

test("a bearing inside a clear arc is clear, one that is blocked names what is in its way", async () => {
  const path = `/clear-bearings?machine=${fair.machineIds[0]}`;
  const { clear, blocked } = await fair.as("organiser")(200, "GET", path);
  expect(clear.length).toBeGreaterThan(0);
  for (const { from, to } of clear) {
    for (const bearing of [from, Math.round(2 * (from + to)) / 4, to]) {
      await placement(0, { firingPointId: fair.firingPointId, bearing: bearing % 360 });
      expect(await conflictsOf(0), `${bearing}`).toEqual([]);
    }
  }
  for (const { from, to, by } of blocked) {
    await placement(0, {
      firingPointId: fair.firingPointId,
      bearing: (Math.round(2 * (from + to)) / 4) % 360,
    });
    const found = await conflictsOf(0);
    expect(found.length).toBeGreaterThan(0);
    expect(by.map((each: Answer) => each.featureId)).toEqual(expect.arrayContaining(found));
  }
  await placement(0, { firingPointId: fair.firingPointId, bearing: 90 });
});

test("a plan places all on clear bearings, leaves the pinned, and says who cannot share too few points", async () => {
  await allSheets(fair.db, fair.contestId);
  const organiser = fair.as("organiser");
  const { firingPointId } = fair;
  // The first is in conflict where it is; both stand at one point, and there are three.
  const before = await rowCounts(fair.db);
  const plan = await organiser(200, "GET", "/placing/plan");
  expect(await rowCounts(fair.db)).toEqual(before);
  expect(plan).toMatchObject({ found: true, impossible: null, left: [] });
  const points = plan.placements.map((each: Answer) => each.to.firingPointId);
  expect(new Set(points).size).toBe(2);
  const placements = plan.placements
    .filter((each: Answer) => each.changed)
    .map(({ machineId, from, to }: Answer) => ({ machineId, from, to }));
  await organiser(200, "PUT", "/placing", { placements });
  expect([...(await conflictsOf(0)), ...(await conflictsOf(1))]).toEqual([]);
  // What the plan has placed it would leave where it is.
  const again = await organiser(200, "GET", "/placing/plan");
  expect(again.placements.filter((each: Answer) => each.changed)).toEqual([]);

  // Pinned on a bearing that is not clear, a machine cannot be planned around.
  await placement(0, { firingPointId, bearing: 90, pinned: true });
  await placement(1, { firingPointId, bearing: 90 });
  const pinned = await organiser(200, "GET", "/placing/plan");
  expect(pinned).toMatchObject({ found: false, placements: [] });
  expect(pinned.impossible.machineIds).toEqual([fair.machineIds[0]]);
  const here = pinned.impossible.why.find((each: Answer) => each.firingPointId === firingPointId);
  expect(here.blockers.map((each: Answer) => each.featureId)).toContain(crowdId);

  // Two to a point: the other may stay beside the pinned one.
  await placement(0, { firingPointId, bearing: 180, pinned: true });
  await placement(1, { firingPointId, bearing: 200 });
  const shared = await organiser(200, "GET", "/placing/plan?each=2");
  expect(shared.found).toBe(true);
  expect(shared.placements.filter((each: Answer) => each.changed)).toEqual([]);
  await fair.as("judge")(403, "GET", "/placing/plan");
  await placement(0, { firingPointId, bearing: 90, pinned: false });
  await placement(1, { firingPointId, bearing: 90 });
});

test("a plan is carried out whole, with an entry for each machine, or not at all", async () => {
  const organiser = fair.as("organiser");
  const { firingPointId } = fair;
  const [first, second] = fair.machineIds;
  const from = { firingPointId, bearing: 90 };
  const plan = (bearing: number, secondFrom: object) => ({
    placements: [
      { machineId: first, from, to: { firingPointId: spareId, bearing } },
      { machineId: second, from: secondFrom, to: { firingPointId, bearing: 200 } },
    ],
  });
  const entries = async () =>
    (await organiser(200, "GET", "/scorebook")).entries.filter(
      (entry: Answer) => entry.act === "machine-placed",
    ).length;
  const before = await entries();
  const stale = await organiser(409, "PUT", "/placing", plan(170, { firingPointId, bearing: 91 }));
  expect(stale).toMatchObject({ code: "placed-meanwhile", errors: [{ field: "placements.1.from" }] });
  expect(await entries()).toBe(before);
  await fair.as("judge")(403, "PUT", "/placing", plan(170, from));
  await organiser(200, "PUT", "/placing", plan(170, from));
  expect(await entries()).toBe(before + 2);
  const { machines } = await organiser(200, "GET", "/placing");
  expect(machines.map((each: Answer) => [each.firingPointId, each.bearing, each.pinned])).toEqual([
    [spareId, 170, false],
    [firingPointId, 200, false],
  ]);
  // Pinned, it is left where it is.
  await placement(0, { firingPointId: spareId, bearing: 170, pinned: true });
  const moved = [{ machineId: first, from: { firingPointId: spareId, bearing: 170 }, to: from }];
  expect((await organiser(409, "PUT", "/placing", { placements: moved })).detail).toContain("pinned");
  const twice = { placements: [...moved, ...moved] };
  expect((await organiser(422, "PUT", "/placing", twice)).errors[0].field).toBe("placements.1.machineId");
});
