/** Accident replay over the API: the engine's own answer, without account or key, with errors that name the field. */
import { afterAll, beforeAll, expect, test } from "vitest";
import { closeHazardQueue, HazardQueue } from "@/lib/contest/hazard-queue";
import { hazardSheet, replay, replayRequestSchema } from "@/lib/throw";
import { declaration, expecting, openFairDatabase, send } from "./fair";

beforeAll(async () => {
  await openFairDatabase();
});
afterAll(closeHazardQueue);

const request = { ...declaration(20), horizon: 2 };
const ask = (status: number, body: unknown) => expecting(status, "POST", "/replay", { body, key: null });

test("answers, without account or key, what the engine says with the sheet's worst throws", async () => {
  const body = { request, landing: { distance: 20, direction: 176, uncertainty: 0.5 }, found: "projectile" };
  const answer = await ask(200, body);
  const asked = replayRequestSchema.parse(body);
  const engine = replay(asked, hazardSheet(asked.request).worst);
  expect(answer).toEqual(JSON.parse(JSON.stringify(engine)));
  expect(answer.explanations.length).toBeGreaterThan(0);
  const sheet = await expecting(200, "POST", "/hazard", { body: request, key: null });
  expect(answer.worst).toEqual({
    forward: sheet.worst.forward.distance,
    backward: sheet.worst.backward.distance,
  });
});

test("what lies beyond the worst throw is not explained, and the range holds", async () => {
  const answer = await ask(200, { request, landing: { downrange: 900, aside: 0 }, found: "projectile" });
  expect(answer).toMatchObject({ verdict: "unexplained", hold: true });
});

test.each([
  ["landing.distance", { request, landing: { direction: 3 } }],
  ["landing.aside", { request, landing: { downrange: 3 } }],
  ["landing.uncertainty", { request, landing: { distance: 3, direction: 1, uncertainty: -1 } }],
  ["found", { request, landing: { distance: 3, direction: 1 }, found: "cat" }],
  [
    "request.projectile.mass",
    {
      request: { ...request, projectile: { mass: -1, diameter: 0.1 } },
      landing: { distance: 3, direction: 1 },
    },
  ],
])("refuses what cannot be, naming %s", async (field, body) => {
  const problem = await ask(422, body);
  expect(problem.errors.map((error: { field: string }) => error.field)).toContain(field);
});

test("is refused when too many wait", async () => {
  await closeHazardQueue();
  const queue = new HazardQueue({ workers: 1, waiting: { official: 1, open: 0 } });
  (globalThis as { fairthrowHazardQueue?: HazardQueue }).fairthrowHazardQueue = queue;
  const refused = await send("POST", "/replay", {
    body: { request, landing: { distance: 3, direction: 1 } },
    key: null,
  });
  expect(refused.status).toBe(503);
  expect(Number(refused.headers.get("retry-after"))).toBeGreaterThan(0);
  await closeHazardQueue();
});
