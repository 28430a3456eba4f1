/** Laying out the range, machines and rounds: what is refused, and what stays in the record. */
import { beforeAll, expect, test } from "vitest";
import {
  type Answer,
  at,
  bearingFix,
  declaration,
  expecting,
  type Fair,
  newFair,
  rowCounts,
  send,
} from "./fair";

let fair: Fair;
beforeAll(async () => {
  fair = await newFair(3);
});

const [longitude, latitude] = at(90, 30);
const shed = { type: "Point", coordinates: at(300, 200) };

test.each([
  ["name", "/divisions", { name: "" }],
  ["name", "/divisions", {}],
  ["divisionId", "/entrants", { divisionId: "nowhere", name: "Lost" }],
  ["number", "/entrants", { divisionId: "", name: "Half", number: 1.5 }],
  ["latitude", "/firing-points", { latitude: 95, longitude }],
  ["latitude", "/firing-points", { latitude: longitude, longitude: latitude }],
  ["latitude", "/firing-points", { latitude: 85.2, longitude }],
  ["latitude", "/control-points", { name: "Peg", latitude: -84.95, longitude }],
  [
    "geometry.coordinates.1",
    "/features",
    { kind: "building", name: "Shed", geometry: { type: "Point", coordinates: [longitude, 85.2] } },
  ],
  ["longitude", "/firing-points", { latitude }],
  ["kind", "/features", { kind: "swamp", name: "Swamp", geometry: shed }],
  ["geometry.type", "/features", { kind: "boundary", name: "Hedge", geometry: shed }],
  [
    "geometry.coordinates",
    "/features",
    { kind: "building", name: "Shed", geometry: { type: "Point", coordinates: [latitude, longitude] } },
  ],
  [
    "geometry.coordinates.0",
    "/features",
    {
      kind: "building",
      name: "Shed",
      geometry: { type: "Polygon", coordinates: [[at(0, 5), at(90, 5), at(180, 5), at(270, 5)]] },
    },
  ],
  [
    "geometry.coordinates.0",
    "/features",
    {
      kind: "spectators",
      name: "Crossed bank",
      geometry: {
        type: "Polygon",
        coordinates: [[at(0, 50), at(180, 50), at(90, 50), at(270, 50), at(0, 50)]],
      },
    },
  ],
  ["standOff", "/features", { kind: "building", name: "Shed", geometry: shed, standOff: -1 }],
  ["entrantId", "/machines", { entrantId: "nobody", name: "Orphan" }],
  [
    "declaration.machine.releaseSpeed",
    "/machines",
    { entrantId: "x", name: "Fast", declaration: declaration(-3) },
  ],
  ["round", "/rounds", { round: 4 }],
  ["round", "/rounds", { round: 2 }],
  ["machineIds.0", "/rounds", { machineIds: ["nothing"] }],
  ["decision", "/rulings", { shotId: "x", decision: "dns", reason: "No show" }],
  ["entrantId", "/rulings", { decision: "dns", reason: "No show" }],
  ["reason", "/rulings", { entrantId: "x", decision: "dns", reason: "" }],
  ["entrantId", "/badges", { role: "team", label: "Team" }],
])("bad input names %s in %s and leaves no trace", async (field, path, body) => {
  const before = await rowCounts(fair.db);
  const problem = await fair.as("organiser")(422, "POST", path, body);
  expect(problem.errors.map((error: Answer) => error.field)).toContain(field);
  for (const error of problem.errors) expect(error.message).toMatch(/[.]$/);
  expect(await rowCounts(fair.db)).toEqual(before);
});

test.each([
  ["policy.margin", "/policy", { policy: { margin: 0.5 }, reason: "Bold" }],
  ["policy.hangUpReason", "/policy", { policy: { hangUp: false }, reason: "Bold" }],
  ["reason", "/policy", { policy: {} }],
  ["air.wind.gust", "/air", { air: { wind: { speed: 5, gust: 2 } }, reason: "Odd" }],
])("the safety officer, too, is told about %s", async (field, path, body) => {
  const before = await rowCounts(fair.db);
  const problem = await fair.as("safety-officer")(422, "PUT", path, body);
  expect(problem.errors[0].field).toBe(field);
  expect(await rowCounts(fair.db)).toEqual(before);
});

test("a name or number that is taken is refused with the field", async () => {
  const organiser = fair.as("organiser");
  expect((await organiser(409, "POST", "/divisions", { name: "Open" })).errors[0].field).toBe("name");
  const entrant = { divisionId: fair.divisionId, name: "Team 1" };
  expect((await organiser(409, "POST", "/entrants", entrant)).errors[0].field).toBe("name");
  const numbered = { divisionId: fair.divisionId, name: "Team X", number: 1 };
  expect((await organiser(409, "POST", "/entrants", numbered)).errors[0].field).toBe("number");
  const machine = { entrantId: fair.entrantIds[0], name: "Machine 1" };
  expect((await organiser(409, "POST", "/machines", machine)).errors[0].field).toBe("name");
});

test("a body that is too large is refused before it is read through", async () => {
  const text = JSON.stringify({ name: "x".repeat(300_000) });
  const response = await send("POST", `${fair.base}/divisions`, { as: fair.tokens.organiser, text });
  expect([response.status, (await response.json()).code]).toEqual([413, "too-large"]);
});

test("a feature that changes or retires stays in the scorebook as it was", async () => {
  const feature = await fair.lay("POST", "/features", { kind: "building", name: "Shed", geometry: shed });
  await fair.lay("PATCH", `/features/${feature.id}`, { name: "Old shed", standOff: 12 });
  await fair.lay("PATCH", `/features/${feature.id}`, { retired: true });
  const { features } = await expecting(200, "GET", fair.base);
  expect(features.find((each: Answer) => each.id === feature.id)).toMatchObject({
    name: "Old shed",
    standOff: 12,
    retired: true,
  });
  const { entries } = await expecting(200, "GET", `${fair.base}/scorebook`);
  const bodies = entries
    .filter((entry: Answer) => entry.subjectId === feature.id)
    .map((entry: Answer) => JSON.parse(entry.body));
  expect(bodies.map((body: Answer) => body.act)).toEqual([
    "feature-changed",
    "feature-changed",
    "feature-added",
  ]);
  expect(bodies[1].from).toMatchObject({ name: "Shed", standOff: null, retired: false });
});

test("a round takes every placed machine, starts one later than the last, and waits for its turn", async () => {
  const first = await fair.lay("POST", "/rounds", {});
  expect(first.shots.map((shot: Answer) => shot.entrantNumber)).toEqual([1, 2, 3]);
  expect((await fair.as("organiser")(409, "POST", "/rounds", { round: 1 })).code).toBe("nothing-to-add");
  await fair.as("judge")(201, "POST", "/rulings", {
    entrantId: fair.entrantIds[2],
    decision: "dns",
    reason: "Not here",
  });
  const second = await fair.lay("POST", "/rounds", {});
  expect(second.shots.map((shot: Answer) => shot.entrantNumber)).toEqual([2, 1]);
  await fair.as("judge")(201, "POST", "/rulings", {
    entrantId: fair.entrantIds[2],
    decision: "competing",
    reason: "Came after all",
  });
  const added = await fair.lay("POST", "/rounds", { round: 2 });
  expect(added.shots).toMatchObject([{ entrantNumber: 3, position: 3 }]);
});

test("a machine that moves or changes takes its unmeasured shots along, and leaves measured ones where they were", async () => {
  const [machineId] = fair.machineIds as [string];
  const shotsOf = async (round: number) =>
    (await expecting(200, "GET", `${fair.base}/shots?round=${round}`)).shots.find(
      (shot: Answer) => shot.machineId === machineId,
    );
  const before = await shotsOf(1);
  await fair.as("judge")(201, "POST", `/shots/${before.id}/fixes`, { fix: bearingFix(61) });
  const point = await fair.lay("POST", "/firing-points", { latitude, longitude });
  await fair.lay("PATCH", `/machines/${machineId}/placement`, { firingPointId: point.id, bearing: 80 });
  await fair.as("team")(201, "POST", `/machines/${machineId}/revisions`, {
    declaration: declaration(24),
    note: "Softer spring",
  });
  expect(await shotsOf(1)).toMatchObject({ firingPointId: fair.firingPointId, bearing: 90, revision: 1 });
  expect(await shotsOf(2)).toMatchObject({ firingPointId: point.id, bearing: 80, revision: 2 });

  const moved = await fair.lay("PATCH", `/firing-points/${point.id}`, {
    latitude: latitude + 0.0001,
    longitude,
  });
  expect(moved.latitude).toBe(latitude + 0.0001);
  const stays = { latitude, longitude };
  const problem = await fair.as("organiser")(409, "PATCH", `/firing-points/${fair.firingPointId}`, stays);
  expect(problem.code).toBe("already-measured");
});

test("what is of another contest is not found here", async () => {
  const organiser = { as: fair.tokens.organiser };
  const body = { slug: "elsewhere", name: "Elsewhere", date: "2031-10-05", latitude: 10, longitude: 10 };
  const polar = { ...organiser, body: { ...body, latitude: 85.2 } };
  const [refused] = (await expecting(422, "POST", "/contests", polar)).errors;
  expect(refused).toMatchObject({ field: "latitude", message: expect.stringContaining("−84.9 and 84.9") });
  const { badge } = await expecting(201, "POST", "/contests", { ...organiser, body });
  const response = await send("POST", "/sign-in", { body: { code: badge.code } });
  const as = response.headers.get("set-cookie")?.match(/=([^;]+)/)?.[1] ?? "";
  const path = `/contests/elsewhere/machines/${fair.machineIds[0]}`;
  await expecting(404, "GET", path, { as });
  await expecting(404, "PATCH", `${path}/placement`, { as, body: { firingPointId: null, bearing: null } });
  await expecting(404, "GET", "/contests/no-such-contest");
});
