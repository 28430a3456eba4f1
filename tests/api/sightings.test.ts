/** Spotters' sightings: who may, what counts, and the rough point where two posts' bearings cross. */
import { randomUUID } from "node:crypto";
import { beforeAll, describe, expect, test } from "vitest";
import { inverse } from "@/lib/earth";
import { type Answer, at, bearingFix, expecting, type Fair, MIDDLE, newFair, rowCounts, send } from "./fair";

let fair: Fair;
let shots: Answer[];
/** Posts 80 m north of the firing point, and 80 m east of that. */
let oak: string;
let elm: string;

beforeAll(async () => {
  fair = await newFair(4);
  shots = (await fair.lay("POST", "/rounds", {})).shots;
  const post = async (name: string, [longitude, latitude]: [number, number]) =>
    (await fair.lay("POST", "/control-points", { name, latitude, longitude, accuracy: 0 })).id;
  oak = await post("Oak", at(0, 80));
  elm = await post("Elm", at(45, 80 * Math.SQRT2));
});

const ago = (minutes: number) => new Date(Date.now() - minutes * 60_000).toISOString();
const sight = (shot: number, body: object, status = 201, as = fair.tokens.judge) =>
  expecting(status, "POST", `${fair.base}/shots/${shots[shot].id}/sightings`, {
    as,
    body: { way: "dial", ...body },
  });
const shotNow = async (shot: number): Promise<Answer> =>
  (await expecting(200, "GET", `${fair.base}/shots/${shots[shot].id}`)).shot;
const splashes = async () => (await expecting(200, "GET", `${fair.base}/sightings`)).shots as Answer[];

describe("a sighting", () => {
  test.each([
    ["from", {}],
    ["from", { from: "no-such-peg" }],
    ["bearing", { from: "oak", bearing: 361 }],
    ["bearing", { from: "oak", bearing: undefined }],
    ["north", { from: "oak", north: "grid" }],
    ["uncertainty", { from: "oak", uncertainty: 0 }],
    ["way", { from: "oak", way: "guess" }],
    ["observedAt", { from: "oak", observedAt: ago(-20) }],
    ["distance", { from: "oak", distance: 40 }],
  ])("is refused by its field %s and leaves no trace", async (field, body) => {
    const before = await rowCounts(fair.db);
    const named = "from" in body && body.from === "oak" ? { ...body, from: oak } : body;
    const problem = await sight(0, { bearing: 135, ...named }, 422);
    expect(problem.errors.map((error: Answer) => error.field)).toEqual([field]);
    expect(problem.errors[0].message.length).toBeGreaterThan(10);
    expect(await rowCounts(fair.db)).toEqual(before);
  });

  test("is a judge's, of a shot that there is", async () => {
    const body = { from: oak, bearing: 135 };
    for (const who of ["organiser", "safety-officer", "team"] as const)
      await sight(0, body, 403, fair.tokens[who]);
    await expecting(401, "POST", `${fair.base}/shots/${shots[0].id}/sightings`, {
      body: { way: "map", ...body },
    });
    await fair.as("judge")(404, "POST", "/shots/none/sightings", { way: "map", ...body });
    expect(await fair.db.sighting.count()).toBe(0);
  });

  test("sent twice under one key is one, stands in the scorebook, and makes no point alone", async () => {
    const key = randomUUID();
    const once = async () => {
      const response = await send("POST", `${fair.base}/shots/${shots[0].id}/sightings`, {
        as: fair.tokens.judge,
        key,
        body: { from: oak, bearing: 135, way: "dial" },
      });
      return { answer: await response.json(), replayed: response.headers.get("idempotency-replayed") };
    };
    const [first, again] = [await once(), await once()];
    expect(again).toEqual({ answer: first.answer, replayed: "true" });
    // The uncertainty of a phone turned by eye, since none was said.
    expect(first.answer).toMatchObject({ postName: "Oak", trueBearing: 135, uncertainty: 2, by: "Judge 1" });
    const { entries } = await expecting(200, "GET", `${fair.base}/scorebook`);
    const told = entries.filter(({ act }: Answer) => act === "sighting-made");
    expect(told.map(({ subjectId }: Answer) => subjectId)).toEqual([first.answer.id]);
    expect(JSON.parse(told[0].body)).toMatchObject({ shot: shots[0].id, post: oak, bearing: 135 });
    expect(await shotNow(0)).toMatchObject({ sightings: [first.answer], rough: null, fix: null });
  });
});

describe("two posts", () => {
  test("cross where a hand computes it, with its ellipse", async () => {
    await sight(0, { from: elm, bearing: 180, way: "map" });
    const { rough } = await shotNow(0);
    const { located, warnings } = rough;
    expect(inverse(MIDDLE, located)).toMatchObject({
      distance: expect.closeTo(80, 1),
      bearing: expect.closeTo(90, 1),
    });
    expect(located.distance).toBeCloseTo(80, 2);
    // 2° move what Elm sees, 80 m off, 2.793 m to east or west; what Oak sees, 80·√2 m off, 3.949 m across 135°: so
    // east + north is known to √2·3.949 m = 5.585 m, and north is that less east.
    const [ee, en, nn] = located.covariance;
    expect(ee).toBeCloseTo(7.8, 1);
    expect(en).toBeCloseTo(-7.8, 1);
    expect(nn).toBeCloseTo(31.19 + 7.8, 1);
    // Eigenvalues 40.85 and 5.94: their roots times √(−2·ln 0.05) = 2.448.
    expect(located.ellipse.major).toBeCloseTo(15.65, 1);
    expect(located.ellipse.minor).toBeCloseTo(5.97, 1);
    expect(located.ellipse.bearing).toBeCloseTo(166.7, 0);
    expect(warnings.map(({ code }: Answer) => code)).toEqual(["coarse"]);
  });

  test("correct themselves: the newest of a post counts, and a null takes it back", async () => {
    await sight(0, { from: elm, bearing: 190 });
    const corrected = await shotNow(0);
    expect(corrected.sightings.map(({ bearing }: Answer) => bearing)).toEqual([190, 135]);
    // 80 m north of the aim line and 10° past south: 80·tan 10° nearer, on the line that Oak sees.
    expect(corrected.rough.located.distance).toBeLessThan(75);
    await sight(0, { from: elm, bearing: null });
    expect(await shotNow(0)).toMatchObject({ rough: null, sightings: [{ bearing: null }, { bearing: 135 }] });
    expect(await fair.db.sighting.count()).toBe(4);
  });

  test("a late one counts, but takes back none that was seen after it", async () => {
    await sight(0, { from: elm, bearing: 180 });
    await sight(0, { from: elm, bearing: 100, observedAt: ago(30) });
    expect((await shotNow(0)).sightings[0].bearing).toBe(180);
    await sight(1, { from: oak, bearing: 135, observedAt: ago(40) });
    await sight(1, { from: elm, bearing: 180, observedAt: ago(41) });
    expect((await shotNow(1)).rough.located.distance).toBeCloseTo(80, 2);
    // By when they were seen, not by when they came.
    expect((await splashes()).map(({ id }) => id)).toEqual([shots[0].id, shots[1].id]);
  });

  test("whose bearings run apart, or nearly the same way, make no point and say so", async () => {
    await sight(2, { from: oak, bearing: 225 });
    await sight(2, { from: elm, bearing: 135 });
    const apart = (await shotNow(2)).rough;
    expect(apart.located).toBeNull();
    expect(apart.warnings[0].text).toMatch(/run apart and would cross only behind Elm and Oak/);
    await sight(2, { from: oak, bearing: 181 });
    await sight(2, { from: elm, bearing: 183 });
    expect((await shotNow(2)).rough).toMatchObject({ located: null });
    expect((await shotNow(2)).rough.warnings[0].text).toMatch(/parallel within their uncertainty/);
    await sight(2, { from: oak, bearing: 165 });
    const flat = (await shotNow(2)).rough;
    expect(flat.located.ellipse.major).toBeGreaterThan(5 * flat.located.ellipse.minor);
    expect(flat.warnings.map(({ code }: Answer) => code)).toContain("bearings-hardly-cross");
  });

  test("by compass take the site's declination, also one that is entered later", async () => {
    await sight(3, { from: oak, bearing: 130, north: "magnetic", way: "compass", uncertainty: 4 });
    await sight(3, { from: elm, bearing: 175, north: "magnetic", way: "compass" });
    await fair.db.contest.update({ where: { id: fair.contestId }, data: { declination: 5 } });
    const { sightings, rough } = await shotNow(3);
    expect(sightings.map(({ trueBearing }: Answer) => trueBearing)).toEqual([180, 135]);
    expect(rough.located.distance).toBeCloseTo(80, 2);
  });
});

test("a re-throw ends what was seen before it, however late that comes", async () => {
  await fair.as("judge")(201, "POST", `/shots/${shots[1].id}/fixes`, { fix: bearingFix(81) });
  await fair.as("organiser")(201, "POST", "/rulings", {
    shotId: shots[1].id,
    decision: "re-throw",
    reason: "Struck a bird",
  });
  await sight(1, { from: oak, bearing: 140, observedAt: ago(5) });
  expect(await shotNow(1)).toMatchObject({ sightings: [], rough: null });
  expect((await splashes()).map(({ id }) => id)).not.toContain(shots[1].id);
  await sight(1, { from: oak, bearing: 120 });
  expect((await shotNow(1)).sightings.map(({ bearing }: Answer) => bearing)).toEqual([120]);
});

test("the judge's view and the list of the round carry the sightings; nothing of it is a mark", async () => {
  const { shots: listed } = await expecting(200, "GET", `${fair.base}/shots`);
  expect(listed[0].rough.located.distance).toBeCloseTo(80, 2);
  expect(listed[0].result).toMatchObject({ how: "none", mark: null });
});

test("rows are only ever added", async () => {
  const { id } = (await fair.db.sighting.findFirst()) as { id: string };
  await expect(fair.db.sighting.update({ where: { id }, data: { bearing: 1 } })).rejects.toThrow();
  await expect(fair.db.sighting.delete({ where: { id } })).rejects.toThrow();
});
