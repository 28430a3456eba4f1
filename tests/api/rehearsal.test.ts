/** A day that is played at speed in the demo contest: things go wrong, people call hold, and what came of it is told. */
import { beforeAll, expect, test } from "vitest";
import type { RangeView, Rehearsal } from "@/lib/api/contracts";
import { verifyScorebook } from "@/lib/contest";
import { type Answer, expecting, type Fair, newFair, rowCounts } from "./fair";
import { readyRange } from "./ready-range";

let fair: Fair;
let posts: string[];

beforeAll(async () => {
  fair = await newFair(2);
  posts = await readyRange(fair);
});

const rehearsal = (status: number, body: object, path = ""): Promise<Answer> =>
  fair.as("safety-officer")(status, "POST", `/rehearsal${path}`, body);
const read = (): Promise<Rehearsal> => fair.as("organiser")(200, "GET", "/rehearsal");
const view = (): Promise<RangeView> => expecting(200, "GET", `${fair.base}/range`);
const cued = () =>
  expect.poll(async () => (await view()).rehearsal?.cue, { timeout: 8000, interval: 50 }).toBe(true);
const over = () =>
  expect.poll(async () => (await read()).playing, { timeout: 20_000, interval: 100 }).toBe(false);

test("not in a contest that is no demo, nor while somebody is out; what is asked wrongly is named", async () => {
  const before = await rowCounts(fair.db);
  expect((await rehearsal(409, {})).detail).toContain("demo contest alone");
  expect(await rowCounts(fair.db)).toEqual(before);
  await fair.db.contest.update({ where: { id: fair.contestId }, data: { demo: true } });
  await fair.as("judge")(201, "POST", "/range/tags", { number: "7" });
  expect((await rehearsal(409, {})).because).toEqual(["Somebody is tagged out: tag everybody in."]);
  const { out } = await fair.as("judge")(200, "GET", "/range/tags");
  await fair.as("judge")(200, "POST", `/range/tags/${out[0].id}/in`);
  const fields = async (body: object) =>
    (await rehearsal(422, body)).errors.map(({ field }: { field: string }) => field);
  expect(await fields({ turns: 2 })).toEqual(["turns"]);
  expect(await fields({ surprises: [] })).toEqual(["surprises"]);
  await expecting(403, "POST", `${fair.base}/rehearsal`, { as: fair.tokens.judge, body: {} });
});

test("somebody is hurt, a judge calls hold, the range stands still; then the day goes on and nothing is left behind", async () => {
  const times = (await view()).times;
  const people = { safetyOfficer: false, posts: [] };
  await rehearsal(201, { turns: 2, pace: 0.2, surprises: ["injury"], people });
  await rehearsal(409, { turns: 1, surprises: ["injury"] });
  await cued();
  expect(await view()).toMatchObject({
    mode: "hot",
    rehearsal: { words: expect.stringContaining("does not get up") },
  });
  await fair.as("judge")(201, "POST", "/range/hold", { pressedAgo: 0 });
  expect((await view()).mode).toBe("hold");
  // Whoever may lifts it; a safety officer of flesh is quicker than the played one.
  await expect.poll(async () => (await view()).machines.every(({ state }) => state === "safe")).toBe(true);
  await fair.as("safety-officer")(200, "POST", "/range/lift", {
    holds: (await view()).holds.map(({ id }) => id),
  });
  await over();
  const { mode, out, machines, times: after } = await view();
  expect({ mode, out, after }).toEqual({ mode: "cold", out: 0, after: times });
  expect(machines.every(({ state }) => state === "safe")).toBe(true);
  const [run] = (await read()).runs;
  expect(run).toMatchObject({
    turns: 2,
    unprompted: 0,
    cues: [{ surprise: "injury", by: "Judge 1", others: [] }],
  });
  expect(run?.endedAt).not.toBeNull();
  expect(run?.cues[0]?.after).toBeLessThan(5);
  expect(await verifyScorebook(fair.db, fair.slug)).toMatchObject({ holds: true });
  const shots = await fair.db.fix.count();
  expect(shots).toBe(0);
});

test("a post that people play is waited for; ending it leaves a range that is cold and empty", async () => {
  const [north] = posts as [string];
  await rehearsal(201, {
    turns: 1,
    pace: 0.2,
    surprises: ["dead-phone"],
    people: { safetyOfficer: false, posts: [north] },
  });
  const state = async (id: string) => (await view()).posts.find((post) => post.id === id)?.state;
  await expect.poll(() => state(posts[1] as string), { timeout: 8000 }).toBe("clear");
  expect(await state(north)).toBe("not-clear");
  expect((await view()).hot).toBeNull();
  await rehearsal(200, {}, "/end");
  expect((await read()).playing).toBe(false);
  await expect.poll(async () => (await view()).mode, { timeout: 8000 }).toBe("cold");
  expect((await view()).rehearsal).toBeNull();
  await rehearsal(409, {}, "/end");
});
