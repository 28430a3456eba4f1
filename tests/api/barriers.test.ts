/** Barriers: who may sign for one, what it takes out of a zone, and that the rest of the zone stays. */
import { beforeAll, expect, test } from "vitest";
import { allSheets } from "@/lib/contest";
import { inverse } from "@/lib/earth";
import { type Answer, at, declaration, expecting, type Fair, MIDDLE, newFair } from "./fair";

let fair: Fair;
let bearing: number;
let point: { latitude: number; longitude: number };
beforeAll(async () => {
  fair = await newFair(2);
  // Flat, so that a wall can stop it.
  const flat = declaration();
  flat.machine.launchAngle = 10;
  await fair.as("team")(201, "POST", `/machines/${fair.machineIds[0]}/revisions`, { declaration: flat });
  const overview = await expecting(200, "GET", fair.base);
  bearing = overview.machines[0].bearing;
  point = overview.firingPoints.find(({ id }: Answer) => id === overview.machines[0].firingPointId);
  await allSheets(fair.db, fair.contestId);
});

const zone = async () => (await expecting(200, "GET", `${fair.base}/zones`)).features[0] as Answer;
/** Of the zone's outline, m from the firing point, near an azimuth off the bearing. */
async function reach(off: number): Promise<number> {
  const { geometry } = await zone();
  const turned = (to: number) => Math.abs(((to - bearing - off + 540) % 360) - 180);
  const corners = geometry.coordinates[0].map(([longitude, latitude]: [number, number]) =>
    inverse(point, { longitude, latitude }),
  );
  const near = corners.filter((corner: Answer) => turned(corner.bearing) < 1.5);
  return Math.max(...near.map(({ distance }: Answer) => distance));
}

/** Right across the bearing, 40 m ahead of the firing point, which the fair has in its middle. */
const wall = () => ({
  name: "Straw wall",
  geometry: { type: "LineString", coordinates: [at(bearing - 70, 117), at(bearing + 70, 117)] },
  height: 12,
  reason: "Bales five high, pushed at with a tractor",
});

test("only the safety officer signs, and must say why it holds", async () => {
  expect(inverse(point, MIDDLE).distance).toBeLessThan(1);
  await fair.as("organiser")(403, "POST", "/barriers", wall());
  await fair.as("judge")(403, "POST", "/barriers", wall());
  const officer = fair.as("safety-officer");
  const { errors } = await officer(422, "POST", "/barriers", { ...wall(), reason: "" });
  expect(errors[0].field).toBe("reason");
  const far = { ...wall(), geometry: { type: "LineString", coordinates: [[2, 2], at(0, 10)] } };
  expect((await officer(422, "POST", "/barriers", far)).errors[0].field).toBe("geometry.coordinates");
  const spot = { ...wall(), geometry: { type: "LineString", coordinates: [at(0, 10), at(0, 10)] } };
  const [none] = (await officer(422, "POST", "/barriers", spot)).errors;
  expect(none.field).toBe("geometry.coordinates");
  expect(none.message).toContain("two ends at different places");
  expect((await zone()).properties.assumptions.join(" ")).not.toContain("Barrier");
});

test("a signed barrier ends the zone behind it, until it is retired", async () => {
  const before = { ahead: await reach(0), behind: await reach(180) };
  const officer = fair.as("safety-officer");
  const signed = await officer(201, "POST", "/barriers", wall());
  await allSheets(fair.db, fair.contestId);
  expect(await reach(0)).toBeGreaterThan(39.9);
  expect(await reach(0)).toBeLessThan(41.5);
  expect(await reach(180)).toBeCloseTo(before.behind, 3);
  expect((await zone()).properties.assumptions.join(" ")).toContain("Straw wall");
  const { barriers } = await expecting(200, "GET", fair.base);
  expect(barriers).toMatchObject([{ id: signed.id, retired: false, height: 12 }]);

  await officer(200, "PATCH", `/barriers/${signed.id}`, { retired: true, reason: "Bales needed elsewhere" });
  await officer(409, "PATCH", `/barriers/${signed.id}`, { retired: true, reason: "Again" });
  await allSheets(fair.db, fair.contestId);
  expect(await reach(0)).toBeCloseTo(before.ahead, 3);
  const { entries } = await expecting(200, "GET", `${fair.base}/scorebook?limit=50`);
  const acts = entries.map(({ act }: Answer) => act);
  expect(acts).toContain("barrier-signed");
  expect(acts).toContain("barrier-retired");
});

test("a machine that may stand elsewhere counts less of it", async () => {
  const officer = fair.as("safety-officer");
  const geometry = { type: "LineString", coordinates: [at(bearing - 6, 40), at(bearing + 6, 40)] };
  const narrow = await officer(201, "POST", "/barriers", { ...wall(), geometry });
  await allSheets(fair.db, fair.contestId);
  expect(await reach(0)).toBeLessThan(41.5);
  // From 5 m off its point a throw on the bearing may pass beside the wall.
  const { latitude, longitude } = point;
  await fair.lay("PATCH", `/firing-points/${fair.firingPointId}`, { latitude, longitude, accuracy: 5 });
  await allSheets(fair.db, fair.contestId);
  expect(await reach(0)).toBeGreaterThan(60);
  await officer(200, "PATCH", `/barriers/${narrow.id}`, { retired: true, reason: "Done" });
});

test("a barrier is offered as a cure where one stops the throws, and cures once it is signed for", async () => {
  const { latitude, longitude } = point;
  await fair.lay("PATCH", `/firing-points/${fair.firingPointId}`, { latitude, longitude, accuracy: 0 });
  const crowd = {
    kind: "spectators",
    name: "East bank",
    geometry: { type: "LineString", coordinates: [at(bearing - 15, 56), at(bearing + 15, 56)] },
  };
  const { id } = await fair.lay("POST", "/features", crowd);
  await allSheets(fair.db, fair.contestId);
  const touched = async () =>
    (await zone()).properties.conflicts
      .filter((each: Answer) => each.inConflict)
      .map((each: Answer) => each.featureId);
  expect(await touched()).toEqual([id]);
  const officer = fair.as("safety-officer");
  const { cures } = await officer(200, "GET", `/cures?machine=${fair.machineIds[0]}`);
  const wall = cures.find(({ kind }: Answer) => kind === "barrier");
  expect(wall).toMatchObject({ height: 2 });
  expect(wall.distance).toBeLessThan(46);
  const { line: geometry, height } = wall;
  await officer(201, "POST", "/barriers", { name: "New wall", geometry, height, reason: "As it was found" });
  await allSheets(fair.db, fair.contestId);
  expect(await touched()).toEqual([]);
});
