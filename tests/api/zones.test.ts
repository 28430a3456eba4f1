/** What the zones answer says beside each zone: agreements, who stands clear, all zones as one, the highest throw. */
import { beforeAll, expect, test } from "vitest";
import { allSheets } from "@/lib/contest";
import { type Answer, at, expecting, type Fair, newFair } from "./fair";

let fair: Fair;
beforeAll(async () => {
  fair = await newFair(2);
  await allSheets(fair.db, fair.contestId);
});

const zones = async () => (await expecting(200, "GET", `${fair.base}/zones`)) as Answer;
const first = async () => (await zones()).features[0].properties as Answer;
const line = (name: string, kind: string, distance: number) =>
  fair.lay("POST", "/features", {
    kind,
    name,
    geometry: { type: "LineString", coordinates: [at(80, distance), at(100, distance)] },
  });

test("an overhead line in a zone is a conflict until the owner's agreement is on file for the day", async () => {
  const { id } = await line("Mill line", "overhead-line", 15);
  const found = async () => (await first()).conflicts.find((each: Answer) => each.featureId === id);
  expect(await found()).toMatchObject({ touches: true, inConflict: true, agreed: null });
  const consent = { kind: "utility", party: "Ada Example", featureId: id, givenOn: "2031-01-01" };
  const tooShort = await fair.lay("POST", "/consents", { ...consent, expiresOn: "2031-10-03" });
  await fair.lay("POST", "/consents", { ...consent, kind: "road" });
  expect(await found()).toMatchObject({ inConflict: true, agreed: null });
  await fair.lay("PATCH", `/consents/${tooShort.id}`, { expiresOn: "2031-10-04" });
  const answer = JSON.stringify(await zones());
  expect(await found()).toMatchObject({
    touches: true,
    inConflict: false,
    agreed: { expiresOn: "2031-10-04" },
  });
  expect(answer).not.toContain("Ada Example");
  // Agreed was where it lay: a line that is drawn elsewhere is to be asked for again.
  const moved = { type: "LineString", coordinates: [at(80, 12), at(100, 12)] };
  await fair.lay("PATCH", `/features/${id}`, { geometry: moved });
  expect(await found()).toMatchObject({ inConflict: true, agreed: null });
  const loose = await expecting(422, "PATCH", `${fair.base}/features/${id}`, {
    as: fair.tokens.organiser,
    body: { rule: "crossable" },
  });
  expect(loose.errors[0]).toMatchObject({ field: "rule" });
});

test("the stand-clear list has what is cleared while hot, the other machine on the point, and how deep", async () => {
  const path = await line("Brook path", "path", 12);
  const post = await fair.lay("POST", "/features", {
    kind: "post",
    name: "East post",
    geometry: { type: "Point", coordinates: at(90, 10) },
  });
  const { standClear, conflicts } = await first();
  const of = (id: string) => standClear.find((each: Answer) => each.id === id);
  expect(of(path.id)).toMatchObject({ what: "feature", kind: "path", name: "Brook path" });
  expect(of(path.id).length).toBeGreaterThan(3);
  expect(of(post.id).depth).toBeGreaterThan(1);
  expect(of(fair.firingPointId)).toMatchObject({
    what: "firing-point",
    machines: [{ machineId: fair.machineIds[1], machineName: "Machine 2" }],
  });
  // Neither is a conflict: they are cleared. With a rule of its own the path is one.
  const against = (found: Answer) => found.find((each: Answer) => each.featureId === path.id).inConflict;
  expect(against(conflicts)).toBe(false);
  await fair.lay("PATCH", `/features/${path.id}`, { rule: "protected" });
  const after = await first();
  expect(against(after.conflicts)).toBe(true);
  expect(after.standClear.some((each: Answer) => each.id === path.id)).toBe(false);
});

test("all zones are one ground with an area, and the highest throw has its height above the ellipsoid", async () => {
  const before = await zones();
  const [one, two] = before.features.map((each: Answer) => each.properties);
  expect(before.union.area).toBeGreaterThan(Math.PI * 15 ** 2);
  expect(before.day).toBe("2031-10-04");
  const highest = [one, two].sort((a: Answer, b: Answer) => b.top - a.top)[0];
  expect(before.highest).toMatchObject({ apex: highest.apex, top: highest.top });
  // A point that is known less well makes every zone on it wider.
  const [longitude, latitude] = at(0, 0);
  await fair.lay("PATCH", `/firing-points/${fair.firingPointId}`, { latitude, longitude, accuracy: 5 });
  const wider = await zones();
  expect(wider.features[0].properties.accuracy).toBe(5);
  expect(wider.union.area).toBeGreaterThan(before.union.area + 300);
});

test("landing contours are for officials and the machine's team, lie ahead, and never stand without their label", async () => {
  const path = `/machines/${fair.machineIds[0]}/landing-contours`;
  const answer = await fair.as("team")(200, "GET", path);
  await fair.as("rival")(403, "GET", path);
  expect(answer.label).toBe("Normal throws only; never shrinks a zone.");
  const shares = answer.features.map((each: Answer) => each.properties.share);
  expect(shares).toEqual([0.5, 0.9, 0.99]);
  const { nominal } = await first();
  const [longitude] = at(90, nominal);
  const east = answer.features[0].geometry.coordinates[0].map(([each]: [number, number]) => each);
  expect(Math.min(...east)).toBeLessThan(longitude + 0.0002);
  expect(Math.max(...east)).toBeGreaterThan(longitude - 0.0002);
});
