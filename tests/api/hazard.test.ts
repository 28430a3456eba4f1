/** The open calculator and its queue: what is refused, what is bounded, and that nothing can hold it up. */
import { Worker } from "node:worker_threads";
import { afterAll, beforeAll, expect, test } from "vitest";
import { closeHazardQueue, HazardQueue, hazardQueue } from "@/lib/contest/hazard-queue";
import { type HazardRequest, hazardRequestSchema, hazardSheet, MACHINE_KINDS } from "@/lib/throw";
import { declaration, expecting, openFairDatabase, send } from "./fair";

beforeAll(async () => {
  await openFairDatabase();
});
afterAll(closeHazardQueue);

const hazard = (status: number, body: unknown) => expecting(status, "POST", "/hazard", { body, key: null });

test("answers, without account or key, what the engine says", async () => {
  const body = { ...declaration(28), air: { pressure: 0 } };
  const sheet = await hazard(200, body);
  expect(sheet).toEqual(JSON.parse(JSON.stringify(hazardSheet(hazardRequestSchema.parse(body)))));
  expect(sheet.exclusion.reach).toHaveLength(360);
  expect(sheet.notModelled.length).toBeGreaterThan(0);
});

test("identical requests are computed once, however they are written", async () => {
  const asked = { ...declaration(31), air: { temperature: 280, pressure: 0 } };
  const same = { air: { pressure: 0, temperature: 280 }, ...declaration(31), policy: {} };
  const calls: unknown[] = [];
  const queue = hazardQueue();
  const compute = queue.compute.bind(queue);
  queue.compute = (...call) => {
    calls.push(call);
    return compute(...call);
  };
  const [first, second] = await Promise.all([hazard(200, asked), hazard(200, asked)]);
  await hazard(200, asked);
  expect(second).toEqual(first);
  expect(calls).toHaveLength(1);
  // An explicit policy that equals the default is another text, and at most one more computation.
  await hazard(200, same);
  expect(calls.length).toBeLessThanOrEqual(2);
});

const example = (kind: string) => {
  const found = MACHINE_KINDS.find((each) => each.kind === kind) as (typeof MACHINE_KINDS)[number];
  return { machine: found.example as Record<string, unknown>, projectile: found.exampleProjectile };
};
const hinged = (changes: Record<string, unknown>) => {
  const { machine, projectile } = example("hinged-counterweight");
  return { machine: { ...machine, ...changes }, projectile };
};

test.each([
  ["machine", { projectile: { mass: 1, diameter: 0.1 } }],
  ["machine.kind", { ...hinged({}), machine: { kind: "catapult" } }],
  ["machine.longArm", hinged({ longArm: -1 })],
  ["machine.longArm", hinged({ longArm: "4" })],
  ["machine.slingLength", hinged({ slingLength: 0.01 })],
  ["machine.cockedAngle", hinged({ pivotHeight: 0.2 })],
  ["machine.counterweightMass", hinged({ counterweightMass: 1 })],
  ["machine.base", hinged({ base: "hovering" })],
  ["projectile.mass", { ...hinged({}), projectile: { mass: 0, diameter: 0.1 } }],
  ["tolerances.longarm", { ...hinged({}), tolerances: { longarm: 0.1 } }],
  ["air.wind.gust", { ...hinged({}), air: { wind: { speed: 9, gust: 3 } } }],
  ["air.temperature", { ...hinged({}), air: { temperature: 100 } }],
  ["policy.hangUpReason", { ...hinged({}), policy: { hangUp: false } }],
  ["horizon", { ...hinged({}), horizon: 1e6 }],
  ["people", { ...hinged({}), people: 3 }],
])("refuses what cannot be, naming %s", async (field, body) => {
  const problem = await hazard(422, body);
  expect(problem.errors.map((error: { field: string }) => error.field)).toContain(field);
  for (const { message } of problem.errors) expect(message).toMatch(/^\p{Lu}.*[.]$/su);
  expect(problem.detail).not.toMatch(/undefined|NaN|\[object/);
});

test("refuses what is too large, no JSON, or no body at all", async () => {
  const big = await send("POST", "/hazard", { text: JSON.stringify({ note: "x".repeat(40_000) }) });
  expect([big.status, (await big.json()).code]).toEqual([413, "too-large"]);
  expect((await send("POST", "/hazard", { text: "{" })).status).toBe(400);
  expect((await send("POST", "/hazard", { text: "" })).status).toBe(400);
  const form = { "content-type": "text/plain" };
  expect((await send("POST", "/hazard", { text: "{}", headers: form })).status).toBe(415);
});

test("answers 503 with Retry-After when too many wait", async () => {
  await closeHazardQueue();
  const { queue, release } = heldQueue({ waiting: { official: 1, open: 2 } });
  (globalThis as { fairthrowHazardQueue?: HazardQueue }).fairthrowHazardQueue = queue;
  const waiting = [41, 42, 43].map((speed) => send("POST", "/hazard", { body: declaration(speed) }));
  await expect.poll(() => queue.load).toEqual({ waiting: 2, running: 1 });
  const refused = await send("POST", "/hazard", { body: declaration(44) });
  expect(refused.status).toBe(503);
  expect(Number(refused.headers.get("retry-after"))).toBeGreaterThan(0);
  release();
  await queue.close();
  for (const response of await Promise.all(waiting)) expect(response.status).toBe(503);
  await closeHazardQueue();
});

// ---------------------------------------------------------------- the queue by itself

const request = (speed: number): HazardRequest => hazardRequestSchema.parse(declaration(speed));
/** Answers with the speed it was asked about; at speed 1 it never does, at 2 it dies. */
const PUPPET = `
  const { parentPort } = require("node:worker_threads");
  let held = HELD;
  const kept = [];
  parentPort.on("message", (message) => {
    if (message === "release") { held = false; for (const each of kept.splice(0)) answer(each); return; }
    if (held) kept.push(message); else answer(message);
  });
  function answer({ id, request }) {
    const speed = request.machine.releaseSpeed;
    if (speed === 1) for (;;) {}
    if (speed === 2) process.exit(1);
    parentPort.postMessage({ id, result: { speed } });
  }`;

function heldQueue(options: Partial<ConstructorParameters<typeof HazardQueue>[0]>, held = true) {
  const workers: Worker[] = [];
  const queue = new HazardQueue({
    workers: 1,
    waiting: { official: 10, open: 10 },
    deadline: { official: 5000, open: 5000 },
    worker: () => {
      const worker = new Worker(PUPPET.replace("HELD", String(held)), { eval: true });
      workers.push(worker);
      return worker;
    },
    ...options,
  });
  return { queue, workers, release: () => workers[0]?.postMessage("release") };
}

test("official sheets go before what officials try out, and that before open ones", async () => {
  const { queue, release } = heldQueue({});
  const order: number[] = [];
  const jobs = [
    queue.compute(request(11), "open"),
    queue.compute(request(12), "open"),
    queue.compute(request(15), "trial"),
    queue.compute(request(13), "official"),
    queue.compute(request(14), "official"),
  ];
  for (const job of jobs) void job.then((sheet) => order.push((sheet as unknown as { speed: number }).speed));
  release();
  await Promise.all(jobs);
  expect(order).toEqual([11, 13, 14, 15, 12]);
  await queue.close();
});

test("a job that never ends is stopped at its deadline, and the next one is computed by a new thread", async () => {
  const { queue, workers } = heldQueue({ deadline: { official: 2000, open: 20_000 } }, false);
  await queue.compute(request(20), "open");
  const stuck = queue.compute(request(1), "official");
  await expect(stuck).rejects.toMatchObject({ status: 503 });
  expect(await queue.compute(request(21), "official")).toEqual({ speed: 21 });
  expect(workers).toHaveLength(2);
  await queue.close();
});

test("a thread that dies takes its job with it and not the queue", async () => {
  const { queue } = heldQueue({}, false);
  await expect(queue.compute(request(2), "official")).rejects.toThrow();
  expect(await queue.compute(request(22), "official")).toEqual({ speed: 22 });
  await queue.close();
});

test("an open request that waits too long is given up", async () => {
  const { queue } = heldQueue({ deadline: { official: 5000, open: 200 } });
  const running = expect(queue.compute(request(23), "official")).rejects.toMatchObject({ status: 503 });
  await expect(queue.compute(request(24), "open")).rejects.toMatchObject({ status: 503 });
  expect(queue.load).toEqual({ waiting: 0, running: 1 });
  await queue.close();
  await running;
});
