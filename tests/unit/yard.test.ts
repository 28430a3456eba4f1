/** The practice yard's store: kept and read again, changed, taken out and brought in; and what it asks of the engine. */
import { describe, expect, it } from "vitest";
import { aimed, broughtIn, laidOut, takenAway } from "@/app/workbench/yard/changes";
import { answerTo, isLooser, questionOf, yardPolicy } from "@/app/workbench/yard/question";
import { previewOfFile } from "@/app/workbench/yard/read-file";
import { contentsOf, siteOf } from "@/app/workbench/yard/site";
import { newYard, standOf, type Yard, yardFromText, yardToText } from "@/app/workbench/yard/yard";
import { bearingsOf, curesOf, zoneOf } from "@/app/workbench/yard/zone";
import { importItemOf } from "@/lib/api/contracts";
import { isRefusal } from "@/lib/contest/errors";
import { alreadyThere, previewOf } from "@/lib/contest/import-preview";
import { touchedBy } from "@/lib/contest/touched";
import { direct } from "@/lib/earth";
import { readSiteFile, writeSiteFile } from "@/lib/exchange";
import { defaultPolicy, hazardRequestSchema, policySchema } from "@/lib/throw";
import { layOut, layZone, reachPolygon } from "@/lib/zones";

const MIDDLE = { latitude: 44.2, longitude: -31.6 };

function at(bearing: number, distance: number): [number, number] {
  const { latitude, longitude } = direct(MIDDLE, bearing, distance);
  return [longitude, latitude];
}

let count = 0;
const newId = () => `id-${++count}`;
const lay = (yard: Yard, item: string, body: Record<string, unknown>) =>
  laidOut(yard, { item, id: null, body }, newId).yard;
const point = (bearing: number, distance: number) => {
  const [longitude, latitude] = at(bearing, distance);
  return { longitude, latitude };
};
const lineAt = (distance: number) => ({
  type: "LineString",
  coordinates: [at(70, distance), at(110, distance)],
});

function wholeYard(): Yard {
  let yard: Yard = { ...newYard(MIDDLE), name: "Upper meadow", decides: "range warden", height: 41.5 };
  const boundary = [at(0, 300), at(270, 300), at(180, 300), at(90, 300), at(0, 300)];
  yard = lay(yard, "boundary", { name: "Ditch", geometry: { type: "Polygon", coordinates: [boundary] } });
  yard = lay(yard, "overhead-line", { name: "Farm line", geometry: lineAt(140) });
  yard = lay(yard, "road", { name: "Stile lane", geometry: lineAt(200), standOff: 12, rule: "protected" });
  yard = lay(yard, "firing-point", { ...point(0, 0), name: "Slab", accuracy: 0.5, bearing: 90, height: 42 });
  yard = lay(yard, "firing-point", { ...point(270, 60), accuracy: 3, bearing: 84.5 });
  yard = lay(yard, "control-point", { ...point(10, 20), name: "Oak", note: "under the roots" });
  return lay(yard, "spot-height", { ...point(90, 120), height: 40 });
}

const measured = (speed: number) =>
  hazardRequestSchema.parse({
    machine: { kind: "measured", releaseSpeed: speed, launchAngle: 42, launchHeight: 2 },
    projectile: { mass: 3, diameter: 0.2 },
    tolerances: { releaseSpeed: 0, launchAngle: 0, launchHeight: 0, mass: 0, diameter: 0 },
  });

const refusalOf = (work: () => unknown) => {
  try {
    work();
  } catch (error) {
    if (isRefusal(error)) return error.errors.map(({ field }) => field);
    throw error;
  }
  return null;
};

describe("kept as text", () => {
  it("comes back as it was", () => {
    const yard = wholeYard();
    expect(yardFromText(yardToText(yard))).toEqual({ ok: true, yard });
    expect(yardFromText(null)).toEqual({ ok: false, none: true });
  });

  it("is refused as a whole, with the reason, when anything in it is broken", () => {
    const text = yardToText(wholeYard());
    const changed = (change: (kept: { version: number; yard: Yard }) => void) => {
      const kept = JSON.parse(text);
      change(kept);
      return JSON.stringify(kept);
    };
    const cases: [text: string, words: RegExp][] = [
      [text.slice(0, 300), /cut off/],
      ["[]", /no yard of ours/],
      [changed((kept) => Object.assign(kept, { version: 2 })), /version 2/],
      [changed(({ yard }) => Object.assign(yard, { latitude: 91 })), /^latitude/],
      [changed(({ yard }) => Object.assign(yard.firingPoints[0] ?? {}, { bearing: 360 })), /bearing/],
      [changed(({ yard }) => Object.assign(yard.features[1] ?? {}, { geometry: null })), /^features\.1/],
      [
        changed(({ yard }) => Object.assign(yard.features[0] ?? {}, { kind: "road", rule: "contains" })),
        /rule/,
      ],
      [changed(({ yard }) => Object.assign(yard, { allowed: true })), /allowed/],
    ];
    for (const [broken, words] of cases) {
      const read = yardFromText(broken);
      expect(read.ok).toBe(false);
      expect(!read.ok && !read.none && read.message).toMatch(words);
    }
  });
});

describe("changed", () => {
  it("refuses what a contest refuses, with the field, and leaves the yard as it was", () => {
    const yard = wholeYard();
    const before = yardToText(yard);
    const bow = [at(0, 10), at(180, 10), at(90, 10), at(270, 10), at(0, 10)];
    expect(refusalOf(() => lay(yard, "building", { name: "", geometry: lineAt(20) }))).toContain("name");
    expect(
      refusalOf(() =>
        lay(yard, "boundary", { name: "Bow", geometry: { type: "Polygon", coordinates: [bow] } }),
      )?.[0],
    ).toMatch(/^geometry/);
    expect(
      refusalOf(() => lay(yard, "overhead-line", { name: "Low", geometry: lineAt(20), rule: "crossable" })),
    ).toEqual(["rule"]);
    expect(refusalOf(() => lay(yard, "firing-point", { latitude: 12, longitude: 0, bearing: 0 }))).toEqual([
      "latitude",
    ]);
    expect(refusalOf(() => lay(yard, "firing-point", { ...point(0, 5), number: 1, bearing: 0 }))).toEqual([
      "number",
    ]);
    expect(refusalOf(() => lay(yard, "control-point", { ...point(0, 5), name: "Oak" }))).toEqual(["name"]);
    expect(refusalOf(() => aimed(yard, yard.firingPoints[0]?.id ?? "", 400))).toEqual(["bearing"]);
    expect(yardToText(yard)).toBe(before);
  });

  it("stands on the point laid out last, or on the first when that is taken away", () => {
    const yard = wholeYard();
    expect(standOf(yard)).toMatchObject({ number: 2, bearing: 84.5, height: 41.5, heightGiven: false });
    const left = takenAway(yard, "firing-point", yard.chosen ?? "");
    expect(standOf(left)).toMatchObject({ number: 1, bearing: 90, height: 42, heightGiven: true });
    expect(standOf(aimed(left, left.firingPoints[0]?.id ?? "", 12))?.bearing).toBe(12);
    const changedPoint = {
      item: "firing-point",
      id: left.firingPoints[0]?.id ?? "",
      body: { ...point(5, 5), bearing: 33 },
    };
    expect(standOf(laidOut(left, changedPoint, newId).yard)).toMatchObject({
      number: 1,
      bearing: 33,
      height: 41.5,
    });
  });
});

it("goes out as GeoJSON and comes into an empty yard the same, bearings included", () => {
  const yard = wholeYard();
  const text = writeSiteFile(contentsOf(yard, []), "geojson") as string;
  const empty: Yard = { ...newYard(MIDDLE), height: yard.height };
  const read = readSiteFile(new TextEncoder().encode(text), { fileName: "yard.geojson", site: empty });
  const there = alreadyThere(siteOf(empty));
  const items = read.items.map((item, index) => previewOf(item, index, there));
  expect(items.map(({ problem, warnings }) => [problem, warnings])).toEqual(items.map(() => [null, []]));
  const { yard: back, answer } = broughtIn(
    empty,
    items.map(importItemOf),
    items.map(({ bearing }) => bearing),
    newId,
  );
  expect(answer).toEqual({ features: 3, firingPoints: 2, controlPoints: 1, spotHeights: 1 });
  const plain = (all: readonly { id: string }[]) => all.map(({ id: _, ...rest }) => rest);
  for (const list of ["features", "firingPoints", "controlPoints", "spotHeights"] as const)
    expect(plain(back[list])).toEqual(plain(yard[list]));
  // Brought in again every place is there already.
  const again = alreadyThere(siteOf(back));
  expect(read.items.map((item, index) => previewOf(item, index, again).fate)).toEqual(
    items.map(() => "identical"),
  );
});

it("begins around a file's first place that is one, never at 0°, 0°", async () => {
  const file = (...places: [number, number][]) =>
    new File(
      [`name,latitude,longitude\n${places.map((place, index) => `P${index},${place}`).join("\n")}\n`],
      "a.csv",
    );
  const { latitude, longitude } = MIDDLE;
  expect(await previewOfFile(file([0, 0], [latitude, longitude]), null, false)).toMatchObject({
    ok: true,
    into: MIDDLE,
  });
  expect(await previewOfFile(file([0, 0]), null, false)).toMatchObject({
    ok: false,
    message: expect.stringMatching(/^Its places lie at 0°, 0°/),
  });
});

it("a bearing that is none is left out of a file, with a warning, and its point has no zone", () => {
  const [longitude, latitude] = at(0, 5);
  const place = (bearing: unknown) => ({
    type: "Feature",
    geometry: { type: "Point", coordinates: [longitude, latitude] },
    properties: { what: "firing-point", number: 3, accuracy: 1, bearing },
  });
  const text = JSON.stringify({ type: "FeatureCollection", features: [place(360), place("east")] });
  const { items } = readSiteFile(new TextEncoder().encode(text), { fileName: "a.geojson", site: MIDDLE });
  expect(items.map(({ bearing }) => bearing)).toEqual([null, null]);
  expect(items.map(({ warnings }) => warnings.join())).toEqual([
    expect.stringContaining("bearing is not 0 to 360"),
    expect.stringContaining("bearing, “east”, is no number"),
  ]);
  const { yard } = broughtIn(
    newYard(MIDDLE),
    [importItemOf(items[0] as (typeof items)[number])],
    [null],
    newId,
  );
  expect(yard.firingPoints).toMatchObject([{ number: 3, bearing: null }]);
  expect(questionOf(measured(20), yard)).toBeNull();
});

describe("what is asked of the engine", () => {
  it("takes the documented policy, or what the bench has stricter, and nothing looser", () => {
    expect(yardPolicy()).toEqual(defaultPolicy);
    const loose = policySchema.parse({
      margin: 1,
      angles: { aim: 0, lean: 0, tornSling: 0, debris: 0 },
      minimum: { forward: 0, backward: 0, side: 0 },
      ground: "soft",
      hangUp: false,
      hangUpReason: "never seen",
    });
    expect(yardPolicy(loose)).toEqual(defaultPolicy);
    const strict = policySchema.parse({ margin: 1.5, minimum: { side: 44 }, ground: "hard" });
    expect(yardPolicy(strict)).toEqual(strict);
    expect([loose, strict, defaultPolicy].map(isLooser)).toEqual([true, false, false]);
  });

  it("hangs on the bearing only where heights describe the ground", () => {
    const level = { ...wholeYard(), spotHeights: [] };
    const turned = aimed(level, level.chosen ?? "", 10);
    expect(questionOf(measured(25), turned)).toEqual(questionOf(measured(25), level));
    const hilly = wholeYard();
    expect(questionOf(measured(25), aimed(hilly, hilly.chosen ?? "", 10))).not.toEqual(
      questionOf(measured(25), hilly),
    );
    expect(questionOf(measured(25), { ...level, firingPoints: [] })).toBeNull();
  });

  it("keeps off as far as on level ground where the bench declares a rise, and farther where it declares a fall", async () => {
    const yard = { ...wholeYard(), spotHeights: [] };
    const reachOn = async (terrain?: object) => {
      const bench = hazardRequestSchema.parse({ ...measured(25), terrain });
      const answer = await answerTo(questionOf(bench, yard) as NonNullable<ReturnType<typeof questionOf>>);
      return { ...answer, ...answer.sheet.exclusion };
    };
    const [level, rises, falls] = [
      await reachOn(),
      await reachOn({ slope: -20 }),
      await reachOn({ slope: 20 }),
    ];
    for (const sloping of [rises, falls])
      for (const [degree, reach] of level.reach.entries())
        expect(sloping.reach[degree]).toBeGreaterThanOrEqual(reach);
    expect(rises.forward).toBe(level.forward);
    expect(falls.forward).toBeGreaterThan(level.forward);
    expect([rises.anyWay, rises.given.length, level.given]).toEqual([null, 1, []]);
  });

  it("an overhead line in reach is a conflict whatever its rule, and the turns that are offered clear it", async () => {
    let yard: Yard = { ...newYard(MIDDLE), height: 0 };
    yard = lay(yard, "firing-point", { ...point(0, 0), accuracy: 0, bearing: 90 });
    yard = lay(yard, "overhead-line", { name: "Farm line", geometry: lineAt(90), standOff: 0 });
    const question = questionOf(measured(25), yard);
    const answer = await answerTo(question as NonNullable<typeof question>);
    const drawn = (each: Yard) =>
      zoneOf(each, answer, { machine: "Loud Uncle", revision: "As built", number: 1 });
    const against = (each: Yard) => drawn(each)?.properties.conflicts.filter(({ inConflict }) => inConflict);
    expect(against(yard)).toMatchObject([{ name: "Farm line", standOff: 15, touches: true }]);
    const clear = bearingsOf(yard, answer);
    const cures = clear ? curesOf(yard, answer, clear) : [];
    const turns = cures.filter((cure) => cure.kind === "turn");
    expect(turns).toHaveLength(2);
    for (const { bearing } of turns) expect(against(aimed(yard, yard.chosen ?? "", bearing))).toEqual([]);
    for (const cure of cures) {
      if (cure.kind !== "shift") continue;
      const way = { left: 0, right: 180, ahead: 90, back: 270 }[cure.direction];
      const moved = {
        item: "firing-point",
        id: yard.chosen,
        body: { ...point(way, cure.distance), accuracy: 0, bearing: 90 },
      };
      expect(against(laidOut(yard, moved, newId).yard)).toEqual([]);
    }
    expect(cures.length).toBeGreaterThan(2);
  });
});

it("who stands clear is told of the very feature that the zone touches, however many it does not", () => {
  const zone = reachPolygon(MIDDLE, 90, Array(360).fill(50), 0, 0);
  const post = (id: string, distance: number) =>
    ({ id, kind: "post", geometry: { type: "Point", coordinates: at(90, distance) } }) as const;
  const features = [post("far", 900), post("near", 20), post("next", 300)];
  const site = layOut(features, MIDDLE);
  const found = touchedBy(
    layZone(site, zone),
    { id: "machine", firingPointId: null },
    {
      site,
      features: new Map(features.map(({ id, kind }) => [id, { name: id, kind }])),
      points: [],
      machines: [],
    },
  );
  expect(found.standClear.map(({ id }) => id)).toEqual(["near"]);
});
