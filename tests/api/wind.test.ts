/** The wind of the day and the ground: what a reading is, what it does to sheets and zones, and what heights do. */
import { beforeAll, describe, expect, test } from "vitest";
import { allSheets, windOfDay } from "@/lib/contest";
import { type Answer, at, expecting, type Fair, newFair, rowCounts } from "./fair";

let fair: Fair;
beforeAll(async () => {
  fair = await newFair(2);
  await fair.as("safety-officer")(200, "PUT", "/air", {
    air: { wind: { speed: 5, gust: 8, height: 10 } },
    reason: "As always here",
  });
  await allSheets(fair.db, fair.contestId);
});

const MINUTE = 60_000;
const ago = (minutes: number) => new Date(Date.now() - minutes * MINUTE).toISOString();
const reading = { speed: 3, gust: 5, direction: 250, observer: "Line post" };
const read = (body: object, status = 201) =>
  fair.as("judge")(status, "POST", "/wind-readings", { ...reading, ...body });
const windNow = async () => (await expecting(200, "GET", `${fair.base}/wind-readings`)).now as Answer;
const sheet = (machine = 0) =>
  expecting(200, "GET", `${fair.base}/machines/${fair.machineIds[machine]}/sheet`, { as: fair.tokens.judge });
const settled = () => allSheets(fair.db, fair.contestId);

describe("a reading of the wind", () => {
  test("nothing is measured before somebody reads it", async () => {
    expect(await windNow()).toMatchObject({
      state: "not-measured",
      inForce: [],
      expired: null,
      machines: [],
    });
  });

  test.each([
    ["gust", { gust: 2 }],
    ["direction", { direction: 360 }],
    ["observer", { observer: " " }],
    ["height", { height: 0 }],
    ["observedAt", { observedAt: ago(-10) }],
    ["expiresAt", { observedAt: ago(10), expiresAt: ago(20) }],
    ["expiresAt", { observedAt: ago(10), expiresAt: ago(-600) }],
  ])("is refused with %s and leaves no trace", async (field, body) => {
    const before = await rowCounts(fair.db);
    const problem = await read(body, 422);
    expect(problem.errors.map((error: Answer) => error.field)).toEqual([field]);
    expect(await rowCounts(fair.db)).toEqual(before);
    expect(await fair.db.windReading.count()).toBe(0);
  });

  test("is made by those who stand there, not by teams, and nobody is named in the scorebook", async () => {
    await fair.as("team")(403, "POST", "/wind-readings", reading);
    const made = await read({ observedAt: ago(5) });
    expect(made).toMatchObject({ direction: 250, height: 2, by: "Judge 1" });
    expect(Date.parse(made.expiresAt) - Date.parse(made.observedAt)).toBe(30 * MINUTE);
    const { entries } = await expecting(200, "GET", `${fair.base}/scorebook`);
    const entry = entries.find((each: Answer) => each.subjectId === made.id);
    expect(JSON.parse(entry.body)).toMatchObject({ act: "wind-read", gust: 5, expiresAt: made.expiresAt });
    expect(entry.body).not.toContain("Line post");
    expect(await windNow()).toMatchObject({ state: "within", inForce: [{ id: made.id }], machines: [] });
  });

  test("a compass bearing gets the site's declination", async () => {
    await fair.db.contest.update({ where: { id: fair.contestId }, data: { declination: 12.5 } });
    expect(await read({ direction: 355, magnetic: true })).toMatchObject({ direction: 7.5 });
  });

  test("one that came late and has expired changes nothing now", async () => {
    await read({ gust: 30, observer: "Far post", observedAt: ago(60) });
    expect((await windNow()).inForce.map((each: Answer) => each.observer)).toEqual(["Line post"]);
  });
});

describe("a wind beyond the limit", () => {
  let before: Answer;
  beforeAll(async () => {
    before = await sheet();
  });

  test("is compared at one height, and within the limit every sheet holds", async () => {
    // 6 m/s at 2 m is 7.55 m/s at 10 m: within 8.
    await read({ gust: 6 });
    await settled();
    expect((await windNow()).atLimitHeight.gust).toBeCloseTo(6 * 5 ** (1 / 7), 9);
    expect((await sheet()).inputHash).toBe(before.inputHash);
  });

  test("makes zones grow, and names every machine with its old and new distances", async () => {
    await read({ speed: 9, gust: 14, observer: "Far post" });
    await settled();
    const wind = await windNow();
    expect(wind.state).toBe("beyond");
    expect(wind.machines.map((each: Answer) => each.machineId)).toEqual(fair.machineIds);
    const [machine] = wind.machines;
    expect(machine.atLimit.forward).toBe(before.sheet.exclusion.forward);
    expect(machine.now.forward).toBeGreaterThan(machine.atLimit.forward);
    const now = await sheet();
    expect(now.air.wind).toMatchObject({ gust: 14, height: 2 });
    expect(now.given[0]).toMatch(/14\.0 m\/s at 2 m: stronger than the limit/);
    const { features } = await expecting(200, "GET", `${fair.base}/zones`);
    expect(features[0].properties.exclusion.forward).toBe(machine.now.forward);
    expect(features[0].properties.assumptions[0]).toBe(now.given[0]);
  });

  test("holds until it expires though another post is calmer; its own post takes it back", async () => {
    await read({ gust: 4, observer: "Line post" });
    const strong = await windNow();
    expect(strong.state).toBe("beyond");
    const later = await windOfDay(fair.db, fair.slug, new Date(Date.now() + 31 * MINUTE));
    expect(later).toMatchObject({ state: "not-measured", machines: [], inForce: [] });
    expect(later.expired?.observer).toBe("Line post");
    // Another who calls their post the same takes nothing back.
    await fair.lay("POST", "/wind-readings", { ...reading, gust: 3, observer: "far post" });
    expect((await windNow()).state).toBe("beyond");
    await read({ gust: 6, observer: "far POST" });
    expect((await windNow()).state).toBe("within");
    expect((await sheet()).inputHash).toBe(before.inputHash);
  });
});

describe("heights of the ground", () => {
  const spot = (bearing: number, distance: number, height: number) => {
    const [longitude, latitude] = at(bearing, distance);
    return fair.lay("POST", "/spot-heights", { latitude, longitude, height });
  };
  const place = (machine: number, bearing: number) =>
    fair.lay("PATCH", `/machines/${fair.machineIds[machine]}/placement`, {
      firingPointId: fair.firingPointId,
      bearing,
    });

  test("level ground without them; a fall downrange lets a throw fly farther, and another bearing has another ground", async () => {
    const level = await sheet();
    expect(level).toMatchObject({ terrain: null, given: [] });
    // A plane that falls 10 % to the east, measured all round and far enough.
    for (const bearing of [0, 45, 90, 135, 180, 225, 270, 315]) {
      const east = 600 * Math.sin((bearing * Math.PI) / 180);
      await spot(bearing, 600, 50 - 0.1 * east);
    }
    await settled();
    const downhill = await sheet();
    expect(downhill.state).toBe("current");
    expect(downhill.terrain.slope).toBeCloseTo(5.71, 1);
    expect(downhill.terrain.below).toBeLessThan(0.5);
    expect(downhill.sheet.exclusion.forward).toBeGreaterThan(level.sheet.exclusion.forward + 5);
    expect(downhill.given.join(" ")).toMatch(
      /Ground from 8 measured heights.*falling 5\.7\d° along the bearing/,
    );
    expect(downhill.given.join(" ")).not.toMatch(/beyond the measured heights/);

    await place(0, 270);
    await settled();
    const uphill = await sheet();
    expect(uphill.terrain.slope).toBeCloseTo(-5.71, 1);
    expect(uphill.sheet.exclusion.forward).toBeLessThan(level.sheet.exclusion.forward);
    const { current } = await expecting(200, "GET", `${fair.base}/machines/${fair.machineIds[0]}`, {
      as: fair.tokens.judge,
    });
    expect(current).toMatchObject({ terrain: uphill.terrain, given: uphill.given });
  });

  test("a hollow makes the ground under a zone lower, and a retired height describes none", async () => {
    const before = await sheet(1);
    const hollow = await spot(90, 60, 30);
    await settled();
    const { terrain } = await sheet(1);
    const fall = (plane: Answer) => plane.below + 60 * Math.tan((plane.slope * Math.PI) / 180);
    expect(fall(terrain)).toBeGreaterThanOrEqual(19.99);
    await fair.lay("PATCH", `/spot-heights/${hollow.id}`, { retired: true });
    await settled();
    expect((await sheet(1)).inputHash).toBe(before.inputHash);
  });

  test("where a zone leaves the heights the lowest counts, and the sheet says so", async () => {
    const spots = await fair.db.spotHeight.findMany({ where: { retired: false } });
    for (const { id } of spots) await fair.lay("PATCH", `/spot-heights/${id}`, { retired: true });
    await spot(90, 30, 44);
    await settled();
    const answer = await sheet(1);
    expect(answer.terrain).toEqual({ below: 6, slope: 0, crossSlope: 0 });
    expect(answer.given[1]).toMatch(/as low as the lowest of them, 6\.0 m below the firing point/);
    // Nobody gave the firing point a height of its own.
    expect(answer.given[2]).toMatch(/Nobody gave the firing point a height.* 50\.0 m.*measure it/);
    expect(answer.given[0]).toMatch(/^Ground from 1 measured height:/);
  });

  test("pegs without a height of their own describe no ground, and a firing point without one stands high", async () => {
    const before = await sheet(1);
    for (const bearing of [0, 90, 180, 270]) {
      const [longitude, latitude] = at(bearing, 600);
      await fair.lay("POST", "/control-points", { name: `Peg ${bearing}`, latitude, longitude });
    }
    await settled();
    expect((await sheet(1)).inputHash).toBe(before.inputHash);
    // Higher ground beside it, nothing on the other sides: the machine may stand up there.
    const hill = await spot(0, 40, 80);
    await settled();
    expect((await sheet(1)).terrain).toEqual({ below: 36, slope: 0, crossSlope: 0 });
    await fair.lay("PATCH", `/firing-points/${fair.firingPointId}`, { height: 50 });
    await settled();
    expect((await sheet(1)).terrain.below).toBe(6);
    await fair.lay("PATCH", `/spot-heights/${hill.id}`, { retired: true });
  });

  test("the contest's height, put right, moves the points that have it", async () => {
    const [longitude, latitude] = at(10, 20);
    const { id } = await fair.lay("POST", "/firing-points", { latitude, longitude });
    await fair.lay("PATCH", "", { height: 350 });
    const { firingPoints } = await expecting(200, "GET", fair.base);
    const height = (point: string) => firingPoints.find((each: Answer) => each.id === point).height;
    expect([height(id), height(fair.firingPointId)]).toEqual([350, 50]);
    await fair.lay("PATCH", "", { height: 50 });
  });

  test("a height that cannot be is told on the sheet, and no zone is drawn", async () => {
    const wrong = await spot(90, 40, -480);
    await settled();
    const answer = await sheet(1);
    expect(answer).toMatchObject({ state: "failed", sheet: null });
    expect(answer.reason).toMatch(/530 m below the firing point/);
    await fair.lay("PATCH", `/spot-heights/${wrong.id}`, { retired: true });
  });
});
