/** The site in and out of files: a preview changes nothing, an import is all or nothing, a round trip is the same site. */
import { beforeAll, expect, test } from "vitest";
import type { ContestOverview, PreviewItem } from "@/lib/api/contracts";
import { importItemOf } from "@/lib/api/contracts";
import { verifyScorebook } from "@/lib/contest";
import {
  type Answer,
  at,
  contestBody,
  expecting,
  type Fair,
  newFair,
  rowCounts,
  send,
  signIn,
  square,
} from "./fair";

let fair: Fair;
beforeAll(async () => {
  fair = await newFair(2);
  const [longitude, latitude] = at(90, 30);
  await fair.lay("POST", "/control-points", {
    name: "Peg A",
    latitude,
    longitude,
    height: 51.25,
    accuracy: 0.02,
    note: "Brass nail",
  });
  await fair.lay("POST", "/spot-heights", { latitude, longitude, height: 52.125 });
  const shed = { kind: "building", name: "Shed", geometry: square(8), standOff: 12.5, rule: "hot" };
  await fair.lay("POST", "/features", shed);
});

const preview = (file: string, status = 200, query = "", base = fair.base, as = fair.tokens.organiser) =>
  expecting(status, "POST", `${base}/import-preview${query}`, {
    as,
    key: null,
    headers: { "content-type": "application/octet-stream" },
    text: file,
  });

const download = async (format: string) => {
  const response = await send("GET", `${fair.base}/export?format=${format}`);
  expect(response.status).toBe(200);
  expect(response.headers.get("content-disposition")).toContain("attachment");
  return new Uint8Array(await response.arrayBuffer());
};

const place = (coordinates: [number, number], properties: object) => ({
  type: "Feature",
  geometry: { type: "Point", coordinates },
  properties,
});
const collection = (...features: object[]) => JSON.stringify({ type: "FeatureCollection", features });

test("a preview says what would happen and changes nothing", async () => {
  const before = await rowCounts(fair.db);
  const [longitude, latitude] = at(0, 0);
  const { format, items } = await preview(
    collection(
      place(at(200, 50), { kind: "post", name: "North gate" }),
      place(at(200, 60), { kind: "marquee", name: "Tent" }),
      place([10, 50], { kind: "post", name: "Elsewhere" }),
      {
        type: "Feature",
        geometry: square(8),
        properties: { kind: "building", name: "Shed", standOff: 12.5, rule: "hot" },
      },
      { type: "Feature", geometry: square(9), properties: { kind: "building", name: "Shed" } },
      place(at(10, 10), { what: "firing-point", number: 1 }),
      place([longitude, latitude], { what: "firing-point", number: 1, name: "" }),
      place(at(10, 10), { kind: "post", name: "Far off", standOff: 99_999 }),
    ),
  );
  expect(format).toBe("geojson");
  expect(items.map((item: PreviewItem) => [item.name, item.kind, item.fate, item.problem !== null])).toEqual([
    ["North gate", "post", "new", false],
    ["Tent", null, "new", false],
    ["Elsewhere", "post", "new", true],
    ["Shed", "building", "identical", false],
    ["Shed", "building", "same-name", false],
    ["", null, "new", false],
    ["", null, "identical", false],
    ["Far off", "post", "new", true],
  ]);
  expect(items[5]).toMatchObject({
    number: null,
    warnings: [expect.stringContaining("Number 1 is taken"), expect.stringContaining("no accuracy")],
  });
  expect(items[7].problem).toMatch(/^standOff: .*2000/);
  expect(await rowCounts(fair.db)).toEqual(before);
});

test("a point whose height or accuracy was corrected in the file is not taken for the one that is there", async () => {
  const { firingPoints } = await expecting(200, "GET", fair.base);
  const [{ number, name, longitude, latitude, height, accuracy }] = firingPoints;
  const point = (said: object) =>
    place([longitude, latitude], { what: "firing-point", number, name, height, accuracy, ...said });
  const peg = (said: object) =>
    place(at(90, 30), { what: "control-point", name: "Peg A", height: 51.25, accuracy: 0.02, ...said });
  const { items } = await preview(
    collection(
      point({}),
      peg({}),
      point({ height: height + 3 }),
      point({ accuracy: accuracy + 2 }),
      peg({ height: 60 }),
      peg({ accuracy: 1 }),
    ),
  );
  expect(items.map(({ fate }: PreviewItem) => fate === "identical")).toEqual([
    true,
    true,
    false,
    false,
    false,
    false,
  ]);
});

test.each([
  [422, "", /empty/],
  [422, "\u0000\u0001\u0002", /no text/],
  [422, '<!DOCTYPE kml [<!ENTITY a "b">]><kml>&a;</kml>', /DOCTYPE/],
  [413, " ".repeat(5 * 1024 * 1024 + 1), /at most 5120 KiB/],
])("%i for a file that cannot be read", async (status, file, words) => {
  expect((await preview(file, status)).detail).toMatch(words);
});

test("a preview is the organiser's, and takes a file, no JSON", async () => {
  const file = collection(place(at(0, 9), { kind: "post" }));
  for (const role of ["safety-officer", "judge", "team"] as const)
    expect((await preview(file, 403, "", fair.base, fair.tokens[role])).code).toBe("not-allowed");
  const sent = { as: fair.tokens.organiser, key: null, text: file };
  expect((await expecting(415, "POST", `${fair.base}/import-preview`, sent)).detail).toContain(
    "octet-stream",
  );
});

const post = (name: string, distance: number) => ({
  what: "feature",
  kind: "post",
  name,
  geometry: { type: "Point", coordinates: at(45, distance) },
});
const peg = (name: string) => {
  const [longitude, latitude] = at(45, 90);
  return { what: "control-point", name, latitude, longitude };
};
const firingPoint = (number?: number) => {
  const [longitude, latitude] = at(135, 40);
  return { what: "firing-point", latitude, longitude, ...(number && { number }) };
};

test.each([
  [422, "items", []],
  [
    422,
    "items.1.geometry.coordinates.0",
    [
      post("Good", 10),
      {
        ...post("Bow tie", 0),
        kind: "building",
        geometry: {
          type: "Polygon",
          coordinates: [[at(0, 50), at(180, 50), at(90, 50), at(270, 50), at(0, 50)]],
        },
      },
    ],
  ],
  [422, "items.1.geometry.coordinates", [post("Good", 10), post("Far", 30_000)]],
  [
    422,
    "items.1.rule",
    [
      post("Good", 10),
      { what: "feature", kind: "boundary", name: "Hedge", geometry: square(300), rule: "hot" },
    ],
  ],
  [422, "items.0.height", [{ ...peg("High"), height: 9000 }]],
  [409, "items.1.name", [post("Good", 10), peg("Peg A")]],
  [409, "items.2.name", [post("Good", 10), peg("Twin"), peg("Twin")]],
  [409, "items.1.number", [post("Good", 10), firingPoint(1)]],
])("%i at %s, and nothing of it is brought in", async (status, field, items) => {
  const before = await rowCounts(fair.db);
  const problem = await fair.as("organiser")(status, "POST", "/import", { items });
  expect(problem.errors.map((error: Answer) => error.field)).toContain(field);
  expect(problem.detail).toMatch(/\.$/);
  expect(await rowCounts(fair.db)).toEqual(before);
});

test("an import is one write: every item has its entry, and the same key changes nothing again", async () => {
  const items = [
    post("East gate", 30),
    firingPoint(),
    firingPoint(7),
    peg("Peg B"),
    { what: "spot-height", latitude: at(0, 5)[1], longitude: at(0, 5)[0], height: 49 },
  ];
  const before = await rowCounts(fair.db);
  const sent = { as: fair.tokens.organiser, key: "import-once-and-only-once", body: { items } };
  const answer = await expecting(201, "POST", `${fair.base}/import`, sent);
  expect(answer).toEqual({ features: 1, firingPoints: 2, controlPoints: 1, spotHeights: 1 });
  expect(await expecting(201, "POST", `${fair.base}/import`, sent)).toEqual(answer);
  const after = await rowCounts(fair.db);
  expect([after.official, after.siteFeature, after.firingPoint]).toEqual([
    (before.official ?? 0) + 5,
    (before.siteFeature ?? 0) + 1,
    (before.firingPoint ?? 0) + 2,
  ]);
  const { firingPoints } = (await expecting(200, "GET", fair.base)) as ContestOverview;
  expect(firingPoints.map(({ number }) => number)).toEqual([1, 7, 8]);
  expect(await verifyScorebook(fair.db, fair.slug)).toMatchObject({ holds: true });
});

test("a file of the most places that there may be comes in whole", async () => {
  const rows = Array.from({ length: 5000 }, (_, index) => {
    const [longitude, latitude] = at((index * 7) % 360, 20 + index / 20);
    return `Post ${index},${latitude},${longitude},post`;
  });
  const { items } = await preview(`name,latitude,longitude,kind\n${rows.join("\n")}`);
  const answer = await fair.as("organiser")(201, "POST", "/import", { items: items.map(importItemOf) });
  expect(answer.features).toBe(5000);
  expect(await verifyScorebook(fair.db, fair.slug)).toMatchObject({ holds: true });
});

/** What a site is, without the ids that every contest gives anew. */
function siteOf({ features, firingPoints, controlPoints, spotHeights }: ContestOverview) {
  const plain = <T extends { id: string }>(rows: T[]) =>
    rows.map(({ id: _, ...row }) => row).sort((a, b) => (JSON.stringify(a) < JSON.stringify(b) ? -1 : 1));
  return [plain(features), plain(firingPoints), plain(controlPoints), plain(spotHeights)];
}

test("exported and imported into an empty contest it is the same site; again, all of it is there already", async () => {
  const small = await newFair(2);
  const [longitude, latitude] = at(90, 30);
  const point = { latitude, longitude, height: 51.25 };
  await small.lay("POST", "/control-points", { ...point, name: "Peg A", accuracy: 0.02, note: "=brass" });
  await small.lay("POST", "/spot-heights", point);
  await small.lay("POST", "/features", {
    kind: "building",
    name: "Shed",
    geometry: square(8),
    standOff: 12.5,
  });
  await small.lay("POST", "/features", {
    kind: "path",
    name: "Old path",
    geometry: { type: "LineString", coordinates: [at(0, 90), at(90, 90)] },
    rule: "protected",
  });
  fair = small;
  const site = siteOf(await expecting(200, "GET", small.base));
  for (const format of ["geojson", "kml", "gpx"]) {
    const slug = `empty-${format}`;
    const { badge } = await expecting(201, "POST", "/contests", {
      as: small.tokens.organiser,
      body: contestBody(slug),
    });
    const organiser = await signIn(badge.code);
    const file = new TextDecoder().decode(await download(format));
    expect(file).toContain("Zone of Machine 1 from firing point 1, bearing 90°");
    const base = `/contests/${slug}`;
    const first = await preview(file, 200, `?name=site.${format}`, base, organiser);
    expect(first.notes.join()).toMatch(/2 zones or corners/);
    const items = first.items.map(importItemOf);
    await expecting(201, "POST", `${base}/import`, { as: organiser, body: { items } });
    expect(siteOf(await expecting(200, "GET", base))).toEqual(site);
    const again = await preview(file, 200, "", base, organiser);
    expect(new Set(again.items.map(({ fate }: PreviewItem) => fate))).toEqual(new Set(["identical"]));
  }
});

test("the list of pegs counts bearings and distances from a chosen point", async () => {
  const text = new TextDecoder().decode(await download("pegs&every=20"));
  const [head, first, second, ...corners] = text.trim().split("\r\n");
  expect(head).toContain("name,what,latitude,longitude,bearing_true_deg,distance_m");
  expect(first).toMatch(/^Peg A,control-point,.*,0,0$/);
  // The peg lies 30 m east of the firing point, so that lies 30 m west of the peg.
  const [bearing, distance] = (second ?? "").split(",").slice(-2).map(Number);
  expect(bearing).toBeCloseTo(270, 2);
  expect(distance).toBeCloseTo(30, 2);
  expect(corners.length).toBeGreaterThan(20);
  const refused = await send("GET", `${fair.base}/export?format=pegs&from=nothing`);
  expect([refused.status, (await refused.json()).errors[0].field]).toEqual([422, "from"]);
});
