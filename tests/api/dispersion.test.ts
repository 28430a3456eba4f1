/** Where ordinary throws land, over the API: the same numbers whatever the number of threads; and progress as events. */
import { afterAll, beforeAll, expect, test } from "vitest";
import { closeHazardQueue, HazardQueue } from "@/lib/contest/hazard-queue";
import { dispersionChunk, dispersionRequestSchema, MACHINE_KINDS, summarise } from "@/lib/throw";
import { declaration, expecting, openFairDatabase, send } from "./fair";

beforeAll(async () => {
  await openFairDatabase();
});
afterAll(closeHazardQueue);

const [{ example, exampleProjectile }] = MACHINE_KINDS;
const request = {
  machine: example,
  projectile: exampleProjectile,
  air: { wind: { speed: 3, gust: 7, direction: 60 } },
};
const dispersion = (status: number, body: unknown) =>
  expecting(status, "POST", "/dispersion", { body, key: null });

test("answers, without account or key, what the engine says", async () => {
  const body = {
    request,
    draws: 600,
    seed: 12,
    aim: 2,
    points: 3,
    crossings: [
      { name: "spectators", beyond: -20 },
      {
        name: "hedge",
        line: [
          [0, 8],
          [200, 8],
        ],
      },
      {
        name: "target",
        polygon: [
          [180, -5],
          [190, -5],
          [190, 5],
          [180, 5],
        ],
      },
    ],
  };
  const answer = await dispersion(200, body);
  const asked = dispersionRequestSchema.parse(body);
  const engine = summarise(dispersionChunk(asked.request, asked, 0, asked.draws), asked);
  expect(answer).toEqual(JSON.parse(JSON.stringify(engine)));
  expect(answer.landed).toBeGreaterThan(590);
  const [spectators, hedge] = answer.crossings;
  expect(spectators.chance).toBe(0);
  expect(spectators.interval[1]).toBeGreaterThan(0);
  expect(hedge.standardError).toBeGreaterThan(0);
});

test("the landing points are the same to the bit on one, two and four threads", async () => {
  const { request: parsed } = dispersionRequestSchema.parse({ request });
  const spread = { seed: 99, aim: 1, windTurn: 15 };
  const alone = dispersionChunk(parsed, spread, 0, 1001);
  for (const workers of [1, 2, 4]) {
    const queue = new HazardQueue({ workers });
    expect(await queue.disperse(parsed, spread, 1001, "official")).toEqual(alone);
    await queue.close();
  }
});

test.each([
  ["draws", { request, draws: 20_001 }],
  ["seed", { request, seed: -1 }],
  ["crossings.0.polygon", { request, crossings: [{ polygon: [[0, 0]] }] }],
  ["request.machine.longArm", { request: { ...request, machine: { ...example, longArm: -1 } } }],
  ["request", { draws: 100 }],
])("refuses what cannot be, naming %s", async (field, body) => {
  const problem = await dispersion(422, body);
  const named = problem.errors.map((error: { field: string }) => error.field);
  expect(named.some((each: string) => field === each || field.startsWith(`${each}.`))).toBe(true);
});

test("is refused when too many wait", async () => {
  await closeHazardQueue();
  const queue = new HazardQueue({ workers: 1, waiting: { official: 1, open: 0 } });
  (globalThis as { fairthrowHazardQueue?: HazardQueue }).fairthrowHazardQueue = queue;
  const refused = await send("POST", "/dispersion", { body: { request }, key: null });
  expect(refused.status).toBe(503);
  expect(Number(refused.headers.get("retry-after"))).toBeGreaterThan(0);
  await closeHazardQueue();
});

const EVENTS = { accept: "text/event-stream" };
const eventsOf = async (response: Response) =>
  (await response.text())
    .split("\n\n")
    .filter(Boolean)
    .map((event) => {
      const [, name, data] = /^event: (\w+)\ndata: (.*)$/s.exec(event) as RegExpExecArray;
      return { name, data: JSON.parse(data as string) };
    });

test("a hazard sheet tells how far it has come to who accepts events, and is the same sheet", async () => {
  // A box with few sides: quick even where other tests keep both cores busy.
  const body = { ...declaration(26), tolerances: { releaseSpeed: 1 } };
  const response = await send("POST", "/hazard", { body, key: null, headers: EVENTS });
  expect(response.status).toBe(200);
  expect(response.headers.get("content-type")).toMatch(/^text\/event-stream/);
  const events = await eventsOf(response);
  const progress = events.filter(({ name }) => name === "progress").map(({ data }) => data.done);
  expect(progress.length).toBeGreaterThan(1);
  expect(progress).toEqual([...progress].sort((a, b) => a - b));
  expect(progress.at(-1)).toBeLessThanOrEqual(1);
  const last = events.at(-1);
  expect(last?.name).toBe("answer");
  expect(last?.data).toEqual(await expecting(200, "POST", "/hazard", { body, key: null }));
  // Known by now: nothing is left to be told.
  const again = await eventsOf(await send("POST", "/hazard", { body, key: null, headers: EVENTS }));
  expect(again.map(({ name }) => name)).toEqual(["answer"]);
});

test("what is refused before it begins is an ordinary problem for them too", async () => {
  const body = { ...declaration(20), horizon: -1 };
  const response = await send("POST", "/hazard", { body, key: null, headers: EVENTS });
  expect(response.status).toBe(422);
  expect(response.headers.get("content-type")).toBe("application/problem+json");
});
