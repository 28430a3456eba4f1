/** What changes once a range is laid out: protections that the safety officer allows, days, points and machines that leave. */
import { beforeAll, expect, test } from "vitest";
import { direct } from "@/lib/earth";
import { type Answer, at, expecting, type Fair, newFair, rowCounts } from "./fair";

let fair: Fair;
beforeAll(async () => {
  fair = await newFair(2);
});

const machineZone = async () => (await expecting(200, "GET", `${fair.base}/zones`)).features[0].properties;
const organiser = (status: number, method: string, path: string, body?: unknown): Promise<Answer> =>
  fair.as("organiser")(status, method, path, body);
const officer = (status: number, method: string, path: string, body?: unknown): Promise<Answer> =>
  fair.as("safety-officer")(status, method, path, body);
const newestAct = async () => {
  const { entries } = await expecting(200, "GET", `${fair.base}/scorebook?limit=1`);
  return JSON.parse(entries[0].body);
};

test("a shorter stand-off holds only while the safety officer allows it", async () => {
  // 4 m off the zone right behind: against the 10 m of its kind, and not against the 2 m that are asked for.
  const { exclusion } = await machineZone();
  const { firingPoints } = await expecting(200, "GET", fair.base);
  const { longitude, latitude } = direct(firingPoints[0], 270, exclusion.backward + 4);
  const place = [longitude, latitude];
  const asked = {
    kind: "spectators",
    name: "Bank",
    geometry: { type: "Point", coordinates: place },
    standOff: 2,
  };
  const bank = await organiser(201, "POST", "/features", asked);
  const conflict = async () =>
    (await machineZone()).conflicts.find(({ featureId }: Answer) => featureId === bank.id);
  expect(bank.allowance).toBeNull();
  expect(await conflict()).toMatchObject({ standOff: 10, inConflict: true });
  const gaps = async () =>
    (await officer(200, "GET", "/safety-files")).missing.filter(({ text }: Answer) =>
      text.includes("Bank is"),
    );
  expect(await gaps()).toHaveLength(1);

  const path = `/features/${bank.id}/allowance`;
  const { geometry, standOff, rule } = bank;
  const reason = "A wall of bales stands before it";
  const read = { allowed: true, rule, standOff, geometry, reason };
  expect((await officer(409, "PUT", path, { ...read, standOff: 1 })).code).toBe("changed-meanwhile");
  expect((await officer(422, "PUT", path, { ...read, reason: "" })).errors[0].field).toBe("reason");
  expect((await officer(409, "PUT", path, { allowed: false, reason })).code).toBe("not-allowed-yet");
  expect((await officer(200, "PUT", path, read)).allowance).toBe(reason);
  expect(await conflict()).toMatchObject({ standOff: 2, inConflict: false });
  expect(await gaps()).toHaveLength(0);
  expect(await newestAct()).toMatchObject({ act: "protection-allowed", standOff: 2, reason });

  // Another name keeps it; another place, rule or stand-off does not.
  expect((await organiser(200, "PATCH", `/features/${bank.id}`, { name: "The bank" })).allowance).toBe(
    reason,
  );
  expect((await organiser(200, "PATCH", `/features/${bank.id}`, { standOff: 1 })).allowance).toBeNull();
  expect(await conflict()).toMatchObject({ standOff: 10, inConflict: true });
  await officer(200, "PUT", path, { ...read, standOff: 1 });
  await officer(200, "PUT", path, { allowed: false, reason: "The bales were carried away" });
  expect(await conflict()).toMatchObject({ standOff: 10, inConflict: true });
  expect(await newestAct()).toMatchObject({ act: "allowance-withdrawn" });
});

test("what is protected as much as its kind needs no allowance", async () => {
  const geometry = { type: "Point", coordinates: at(250, 300) };
  const { id } = await organiser(201, "POST", "/features", {
    kind: "building",
    name: "Shed",
    geometry,
    standOff: 30,
  });
  const read = { allowed: true, rule: null, standOff: 30, geometry, reason: "Just so" };
  expect((await officer(409, "PUT", `/features/${id}/allowance`, read)).code).toBe("nothing-to-allow");
});

test.each([
  ["lastDate", { lastDate: "2031-10-03" }],
  ["date", { date: "4 October" }],
  ["rounds", { rounds: 0 }],
  ["slug", { slug: "elsewhere" }],
])("a contest's wrong %s is named and leaves no trace", async (field, body) => {
  const before = await rowCounts(fair.db);
  const problem = await organiser(422, "PATCH", "", body);
  expect(problem.errors.map((error: Answer) => error.field)).toContain(field);
  expect(await rowCounts(fair.db)).toEqual(before);
});

test("a contest of two days asks of every consent that it holds on both", async () => {
  const [kind, party] = ["insurer", "Field Mutual"];
  const consent = { kind, party, givenOn: "2031-09-01", expiresOn: "2031-10-04" };
  const { id } = await organiser(201, "POST", "/consents", consent);
  const state = async () =>
    (await officer(200, "GET", "/consents")).consents.find((each: Answer) => each.id === id).state;
  expect(await state()).toBe("holds");
  const changed = await organiser(200, "PATCH", "", { name: "Harvest throw", lastDate: "2031-10-05" });
  expect(changed).toMatchObject({ name: "Harvest throw", date: "2031-10-04", lastDate: "2031-10-05" });
  expect(await state()).toBe("too-short");
  expect((await newestAct()).from).toMatchObject({ name: "Fair test-fair", lastDate: null });
  expect(await organiser(200, "PATCH", "", { lastDate: null })).toMatchObject({ lastDate: null });
});

test("an agreement about a line that was redrawn is not brought back, and one that has ended allows nothing", async () => {
  const geometry = { type: "LineString", coordinates: [at(80, 60), at(100, 60)] };
  const wire = await organiser(201, "POST", "/features", { kind: "overhead-line", name: "Wire", geometry });
  const inConflict = async () =>
    (await machineZone()).conflicts.find(({ featureId }: Answer) => featureId === wire.id).inConflict;
  const consent = { kind: "utility", party: "Grid", featureId: wire.id, givenOn: "2031-01-01" };
  expect(await inConflict()).toBe(true);
  const { id } = await organiser(201, "POST", "/consents", consent);
  expect(await inConflict()).toBe(false);
  const moved = { ...geometry, coordinates: [at(80, 55), at(100, 55)] };
  await organiser(200, "PATCH", `/features/${wire.id}`, { geometry: moved });
  expect((await organiser(409, "PATCH", `/consents/${id}`, { retired: false })).code).toBe("lapsed");
  expect(await inConflict()).toBe(true);

  // A fair that was put off without its day: what ended before today allows nothing.
  await organiser(200, "PATCH", "", { date: "2020-06-01" });
  await organiser(201, "POST", "/consents", { ...consent, givenOn: "2020-01-01", expiresOn: "2020-12-31" });
  expect(await inConflict()).toBe(true);
  await organiser(200, "PATCH", "", { date: "2031-10-04" });
  await organiser(200, "PATCH", `/features/${wire.id}`, { retired: true });
});

test("a day is cut short by its last rounds, but not by one with entries", async () => {
  await organiser(201, "POST", "/rounds", {});
  const { shots } = await organiser(201, "POST", "/rounds", {});
  await organiser(201, "POST", "/rounds", {});
  await fair.as("judge")(201, "POST", `/shots/${shots[0].id}/fixes`, { fix: { outcome: "foul" } });
  expect((await organiser(409, "PATCH", "", { rounds: 1 })).code).toBe("rounds-made");
  expect((await organiser(200, "PATCH", "", { rounds: 2 })).rounds).toBe(2);
  const { roundsMade } = await expecting(200, "GET", fair.base);
  expect(roundsMade.map(({ round }: { round: number }) => round)).toEqual([1, 2]);
});

test("a firing point is named anew where it was measured from, and retired once nothing stands there", async () => {
  const path = `/firing-points/${fair.firingPointId}`;
  const { firingPoints } = await expecting(200, "GET", fair.base);
  const { latitude, longitude } = firingPoints[0];
  const { shots } = await expecting(200, "GET", `${fair.base}/shots?round=1`);
  await fair.as("judge")(201, "POST", `/shots/${shots[0].id}/fixes`, { fix: { outcome: "foul" } });
  const named = await organiser(200, "PATCH", path, {
    name: "By the oak",
    latitude: latitude + 4e-9,
    longitude,
  });
  expect(named).toMatchObject({ name: "By the oak", latitude, longitude });
  expect((await organiser(409, "PATCH", path, { latitude: latitude + 1e-4 })).code).toBe("already-measured");
  // A height put right may make a zone larger.
  expect(await organiser(200, "PATCH", path, { height: 70 })).toMatchObject({
    height: 70,
    heightGiven: true,
  });
  expect((await organiser(409, "PATCH", path, { retired: true })).detail).toContain("Machine 1, Machine 2");

  const spare = await organiser(201, "POST", "/firing-points", { latitude, longitude: longitude + 1e-4 });
  expect((await organiser(200, "PATCH", `/firing-points/${spare.id}`, { retired: true })).retired).toBe(true);
  const stays = { firingPointId: spare.id, bearing: 90 };
  const refused = await organiser(422, "PATCH", `/machines/${fair.machineIds[0]}/placement`, stays);
  expect(refused.errors[0].field).toBe("firingPointId");
});

test("a machine leaves with its zone once it has no turn, and can come back", async () => {
  const [, machineId] = fair.machineIds as [string, string];
  const path = `/machines/${machineId}`;
  const { features } = await expecting(200, "GET", `${fair.base}/zones`);
  expect(features).toHaveLength(2);
  expect((await organiser(409, "PATCH", path, { name: "Machine 1" })).errors[0].field).toBe("name");
  expect((await organiser(409, "PATCH", path, { retired: true })).code).toBe("turn-to-throw");
  await fair.as("judge")(201, "POST", "/rulings", {
    entrantId: fair.entrantIds[1],
    decision: "dnf",
    reason: "The arm broke",
  });
  const gone = await organiser(200, "PATCH", path, { name: "Old Thunder", retired: true });
  expect(gone).toMatchObject({ name: "Old Thunder", retired: true, firingPointId: null, bearing: null });
  expect((await expecting(200, "GET", `${fair.base}/zones`)).features).toHaveLength(1);
  expect((await expecting(200, "GET", `${fair.base}/range-plan`)).unplaced).toEqual([]);
  const there = { firingPointId: fair.firingPointId, bearing: 90 };
  expect((await organiser(409, "PATCH", `${path}/placement`, there)).code).toBe("retired");
  await organiser(200, "PATCH", path, { retired: false });
  await organiser(200, "PATCH", `${path}/placement`, there);
  expect((await expecting(200, "GET", `${fair.base}/zones`)).features).toHaveLength(2);
});
