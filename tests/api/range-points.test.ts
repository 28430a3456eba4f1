/** Control points and heights of the ground: added, changed, retired, and what is refused. */
import { beforeAll, expect, test } from "vitest";
import { type Answer, at, expecting, type Fair, MIDDLE, newFair, rowCounts } from "./fair";

let fair: Fair;
beforeAll(async () => {
  fair = await newFair(2);
});

const placeAt = (bearing: number, distance: number) => {
  const [longitude, latitude] = at(bearing, distance);
  return { latitude, longitude };
};

/** What the scorebook says of a subject, oldest first. */
async function entriesOf(id: string): Promise<Answer[]> {
  const { entries } = await expecting(200, "GET", `${fair.base}/scorebook`);
  return entries
    .filter((entry: Answer) => entry.subjectId === id)
    .map((entry: Answer) => JSON.parse(entry.body))
    .reverse();
}

test("a control point takes the contest's height and a handheld receiver's accuracy where none is given", async () => {
  const peg = await fair.lay("POST", "/control-points", { name: "Gate peg", ...placeAt(10, 60) });
  expect(peg).toMatchObject({ name: "Gate peg", accuracy: 5, note: "", retired: false });
  const overview = await expecting(200, "GET", fair.base);
  expect(peg.height).toBe(overview.height);
  expect(overview.controlPoints).toEqual([peg]);
});

test("what a control point was before stays in the scorebook, and its note does not enter it", async () => {
  const peg = await fair.lay("POST", "/control-points", {
    name: "Oak",
    ...placeAt(20, 60),
    note: "Ask the warden",
  });
  const moved = await fair.lay("PATCH", `/control-points/${peg.id}`, {
    ...placeAt(21, 60),
    accuracy: 0.02,
    note: "Ask at the gate",
  });
  expect(moved).toMatchObject({ name: "Oak", ...placeAt(21, 60), accuracy: 0.02, height: peg.height });
  await fair.lay("PATCH", `/control-points/${peg.id}`, { retired: true });
  const said = await entriesOf(peg.id);
  expect(said.map(({ act }) => act)).toEqual([
    "control-point-added",
    "control-point-changed",
    "control-point-changed",
  ]);
  expect(said[1].from).toMatchObject({ ...placeAt(20, 60), accuracy: 5, retired: false });
  expect(said[2].to).toMatchObject({ retired: true });
  expect(JSON.stringify(said)).not.toContain("Ask");
});

test("two control points never share a name, a retired one keeps its own", async () => {
  const organiser = fair.as("organiser");
  const first = await fair.lay("POST", "/control-points", { name: "North peg", ...placeAt(0, 50) });
  const second = await fair.lay("POST", "/control-points", { name: "South peg", ...placeAt(180, 50) });
  await fair.lay("PATCH", `/control-points/${first.id}`, { retired: true });
  const before = await rowCounts(fair.db);
  const again = { name: "North peg", ...placeAt(5, 50) };
  const refused = await organiser(409, "POST", "/control-points", again);
  expect(refused.errors[0]).toMatchObject({ field: "name", message: expect.stringContaining("retired") });
  const renamed = await organiser(409, "PATCH", `/control-points/${second.id}`, { name: "North peg" });
  expect(renamed.errors[0].field).toBe("name");
  expect(await rowCounts(fair.db)).toEqual(before);
  // Its own name again is no change of name.
  await fair.lay("PATCH", `/control-points/${second.id}`, { name: "South peg", accuracy: 1 });
});

test("a height of the ground is added, changed and retired", async () => {
  const spot = await fair.lay("POST", "/spot-heights", { ...placeAt(100, 80), height: 41.5 });
  await fair.lay("PATCH", `/spot-heights/${spot.id}`, { height: 40.9 });
  const retired = await fair.lay("PATCH", `/spot-heights/${spot.id}`, { retired: true });
  expect(retired).toEqual({ id: spot.id, ...placeAt(100, 80), height: 40.9, retired: true });
  const { spotHeights } = await expecting(200, "GET", fair.base);
  expect(spotHeights).toEqual([retired]);
  const said = await entriesOf(spot.id);
  expect(said.map(({ act }) => act)).toEqual([
    "spot-height-added",
    "spot-height-changed",
    "spot-height-changed",
  ]);
  expect([said[1].from.height, said[1].to.height]).toEqual([41.5, 40.9]);
});

test.each([
  ["name", "/control-points", { name: " ", ...MIDDLE }],
  ["latitude", "/control-points", { name: "Far", latitude: -MIDDLE.latitude, longitude: MIDDLE.longitude }],
  ["accuracy", "/control-points", { name: "Vague", ...MIDDLE, accuracy: 51 }],
  ["height", "/spot-heights", MIDDLE],
  ["height", "/spot-heights", { ...MIDDLE, height: 6001 }],
  ["latitude", "/spot-heights", { latitude: MIDDLE.longitude, longitude: MIDDLE.latitude, height: 4 }],
])("bad input names %s in %s and leaves no trace", async (field, path, body) => {
  const before = await rowCounts(fair.db);
  const problem = await fair.as("organiser")(422, "POST", path, body);
  expect(problem.errors.map((error: Answer) => error.field)).toContain(field);
  expect(await rowCounts(fair.db)).toEqual(before);
});

test("a change to another continent is refused, and so is one of nothing or of another contest's", async () => {
  const organiser = fair.as("organiser");
  const peg = await fair.lay("POST", "/control-points", { name: "Stile", ...placeAt(200, 40) });
  const far = await organiser(422, "PATCH", `/control-points/${peg.id}`, { longitude: -peg.longitude });
  expect(far.errors[0].field).toBe("latitude");
  await organiser(422, "PATCH", `/control-points/${peg.id}`, {});
  await organiser(404, "PATCH", "/control-points/nothing", { retired: true });
  await organiser(404, "PATCH", "/spot-heights/nothing", { retired: true });
});
