/** Hazard sheets and zones: stored with what they rest on, stale the moment that changes, drawn where they belong. */
import { createHash } from "node:crypto";
import { beforeAll, expect, test } from "vitest";
import { allSheets, contestZones } from "@/lib/contest";
import { inverse } from "@/lib/earth";
import { noteWithStop, practiceStopIn } from "@/lib/inspection";
import { hazardRequestSchema, hazardSheet } from "@/lib/throw";
import { type Answer, at, declaration, expecting, type Fair, MIDDLE, newFair } from "./fair";

let fair: Fair;
beforeAll(async () => {
  fair = await newFair(2);
  await allSheets(fair.db, fair.contestId);
});

const sheetOf = (machine = 0) =>
  expecting(200, "GET", `${fair.base}/machines/${fair.machineIds[machine]}/sheet`, { as: fair.tokens.judge });
const zones = async () => (await expecting(200, "GET", `${fair.base}/zones`)) as Answer;

test("a sheet is what the engine says of the declaration, the policy, the air and the site, and can be held to it", async () => {
  const answer = await sheetOf();
  expect(answer).toMatchObject({ state: "current", revision: 1, reason: null });
  const stored = await fair.db.hazardSheet.findUniqueOrThrow({ where: { id: answer.sheetId } });
  const inputs = JSON.parse(stored.inputs);
  expect(inputs).toMatchObject({
    machine: { kind: "measured", releaseSpeed: 25 },
    policy: { margin: 1.2 },
    site: { latitude: MIDDLE.latitude, height: 50 },
  });
  expect(createHash("sha256").update(stored.inputs).digest("hex")).toBe(answer.inputHash);
  const again = hazardSheet(hazardRequestSchema.parse(inputs));
  expect(answer.sheet).toEqual(JSON.parse(JSON.stringify(again)));
  const { entries } = await expecting(200, "GET", `${fair.base}/scorebook?limit=200`);
  const entry = entries.find((each: Answer) => each.subjectId === answer.sheetId);
  expect(entry).toMatchObject({ act: "sheet-computed", by: "Fairthrow" });
  expect(JSON.parse(entry.body)).toMatchObject({
    inputHash: answer.inputHash,
    resultHash: createHash("sha256").update(stored.result).digest("hex"),
    codeVersion: answer.codeVersion,
  });
});

test("policy, air and revision each make a new sheet, and the old ones stay", async () => {
  const hashes = [(await sheetOf()).inputHash];
  const officer = fair.as("safety-officer");
  await officer(200, "PUT", "/policy", { policy: { margin: 1.5 }, reason: "Crowd is close" });
  hashes.push((await sheetOf()).inputHash);
  await officer(200, "PUT", "/air", { air: { wind: { speed: 6, gust: 9 } }, reason: "Forecast" });
  hashes.push((await sheetOf()).inputHash);
  await fair.as("team")(201, "POST", `/machines/${fair.machineIds[0]}/revisions`, {
    declaration: declaration(27),
  });
  const newest = await sheetOf();
  hashes.push(newest.inputHash);
  expect(newest).toMatchObject({ state: "current", revision: 2 });
  expect(new Set(hashes).size).toBe(4);

  const page = await expecting(200, "GET", `${fair.base}/machines/${fair.machineIds[0]}`, {
    as: fair.tokens.team,
  });
  expect(page.revisions.map((revision: Answer) => revision.number)).toEqual([2, 1]);
  expect(page.revisions[1].sheets).toHaveLength(3);
  expect(page.revisions[0].sheets).toMatchObject([{ id: newest.sheetId, current: true }]);
  expect(page.revisions[1].sheets.every((sheet: Answer) => !sheet.current)).toBe(true);
  expect(page.revisions[0].declaration.machine.releaseSpeed).toBe(27);
});

test("the same policy set again finds the sheet that is there", async () => {
  await allSheets(fair.db, fair.contestId);
  const before = await fair.db.hazardSheet.count();
  const policy = { policy: { margin: 1.5 }, reason: "Said again" };
  await fair.as("safety-officer")(200, "PUT", "/policy", policy);
  await allSheets(fair.db, fair.contestId);
  expect(await fair.db.hazardSheet.count()).toBe(before);
});

test("a zone lies around its firing point as far as the sheet's reach, on the machine's bearing", async () => {
  await fair.lay("PATCH", `/machines/${fair.machineIds[1]}/placement`, {
    firingPointId: fair.firingPointId,
    bearing: 45,
  });
  const { features } = await zones();
  const zone = features.find((each: Answer) => each.id === fair.machineIds[1]);
  const { sheet } = await sheetOf(1);
  expect(zone.properties).toMatchObject({
    state: "current",
    bearing: 45,
    exclusion: { forward: sheet.exclusion.forward, backward: sheet.exclusion.backward },
  });
  for (const [longitude, latitude] of zone.geometry.coordinates[0]) {
    const { distance, bearing } = inverse(MIDDLE, { latitude, longitude });
    const azimuth = (bearing - 45 + 720) % 360;
    // The degrees on either side; one more, since a corner may round to either side of a whole one.
    const near = [-1, 0, 1, 2].map((step) => sheet.exclusion.reach[(Math.floor(azimuth) + step + 360) % 360]);
    // Never inside what the sheet says; the outline is drawn at most a centimetre outside, plus the ground's height.
    expect(distance).toBeGreaterThan(Math.min(...near) - 0.02);
    expect(distance).toBeLessThan(Math.max(...near) + 0.03);
  }
});

test("what a zone touches comes first, what it stays from has its distance", async () => {
  const { exclusion } = (await sheetOf(1)).sheet;
  const place = (kind: string, name: string, distance: number) =>
    fair.lay("POST", "/features", { kind, name, geometry: { type: "Point", coordinates: at(45, distance) } });
  const touched = await place("building", "Tea tent", exclusion.forward - 10);
  const close = await place("building", "Ticket hut", exclusion.forward + 3);
  const far = await place("building", "Chapel", exclusion.forward + 60);
  const answer = await zones();
  const { conflicts } = answer.features.find((each: Answer) => each.id === fair.machineIds[1]).properties;
  const of = (id: string) => conflicts.find((each: Answer) => each.featureId === id);
  expect(of(touched.id)).toMatchObject({ touches: true, inConflict: true, distance: 0 });
  expect(of(close.id)).toMatchObject({ touches: false, inConflict: true });
  expect(of(far.id)).toMatchObject({ touches: false, inConflict: false });
  expect(of(far.id).distance).toBeCloseTo(60, 0);
  const order = conflicts.map((each: Answer) => each.inConflict);
  expect(order).toEqual([...order].sort((a, b) => Number(b) - Number(a)));
  expect(answer.caution).toContain("safety officer");
  expect(answer.featureIds).toContain(touched.id);

  await fair.lay("PATCH", `/features/${touched.id}`, { retired: true });
  const after = (await zones()).features[1].properties.conflicts;
  expect(after.some((each: Answer) => each.featureId === touched.id)).toBe(false);
});

test("a zone whose sheet is not there yet says so instead of drawing an old one", async () => {
  await fair.as("team")(201, "POST", `/machines/${fair.machineIds[0]}/revisions`, {
    declaration: declaration(29),
  });
  const { features, without } = await contestZones(fair.db, fair.slug, { wait: 0 });
  expect(without).toEqual([
    {
      machineId: fair.machineIds[0],
      machineName: "Machine 1",
      state: "computing",
      reason: "Its hazard sheet is still being computed.",
    },
  ]);
  const zone = features.find((each) => each.id === fair.machineIds[0]);
  expect(zone).toMatchObject({
    geometry: null,
    properties: { state: "computing", exclusion: null, conflicts: [] },
  });
  await allSheets(fair.db, fair.contestId);
  const later = await contestZones(fair.db, fair.slug, { wait: 0 });
  expect(later.features.find((each) => each.id === fair.machineIds[0])?.geometry?.type).toBe("Polygon");
  expect(later.without).toEqual([]);
});

test("a machine without a declaration has no sheet, and says why", async () => {
  const { id } = await fair.lay("POST", "/machines", { entrantId: fair.entrantIds[0], name: "Drawing only" });
  const answer = await expecting(200, "GET", `${fair.base}/machines/${id}/sheet`, {
    as: fair.tokens.organiser,
  });
  expect(answer).toMatchObject({ state: "none", sheet: null, revision: null });
  expect(answer.reason).toMatch(/declared/);
  const stand = { firingPointId: fair.firingPointId, bearing: 10 };
  await fair.lay("PATCH", `/machines/${id}/placement`, stand);
  const { without } = await zones();
  expect(without).toEqual([
    { machineId: id, machineName: "Drawing only", state: "none", reason: answer.reason },
  ]);
  await fair.lay("PATCH", `/machines/${id}/placement`, { firingPointId: null, bearing: null });
});

test("what is said of a machine that is entered stands with its first revision, for whoever inspects it", async () => {
  const entered = { entrantId: fair.entrantIds[0], declaration: declaration() };
  const note = noteWithStop(["throw 5: 610 m ahead"], "As built", 300);
  const noteOf = async (more: object) => {
    const { id } = await fair.lay("POST", "/machines", { ...entered, ...more });
    const { revisions } = await fair.as("safety-officer")(200, "GET", `/machines/${id}`);
    return practiceStopIn(revisions as { note: string }[])?.note ?? revisions[0].note;
  };
  expect(await noteOf({ name: "Overthrown", note })).toBe(note);
  expect(await noteOf({ name: "Quiet" })).toBe("As entered");
});
