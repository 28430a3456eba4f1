/** 10 000 dispersed throws of each kind on one thread, and of one kind on one worker thread against two. */
import { deepStrictEqual } from "node:assert/strict";
import { performance } from "node:perf_hooks";
import { HazardQueue } from "../../lib/contest/hazard-queue";
import { dispersionChunk, hazardRequestSchema, MACHINE_KINDS } from "../../lib/throw";

const DRAWS = 10_000;
const SPREAD = { seed: 1, aim: 2, windTurn: 10 };
const air = { wind: { speed: 3, gust: 8, direction: 30 } };

const requests = MACHINE_KINDS.map(({ example, exampleProjectile }) =>
  hazardRequestSchema.parse({ machine: example, projectile: exampleProjectile, air }),
);

for (const request of requests) {
  dispersionChunk(request, SPREAD, 0, DRAWS / 10);
  const times = Array.from({ length: 3 }, () => {
    const start = performance.now();
    dispersionChunk(request, SPREAD, 0, DRAWS);
    return performance.now() - start;
  });
  console.log(
    `${DRAWS} throws, ${request.machine.kind.padEnd(22)} ${Math.min(...times)
      .toFixed(0)
      .padStart(6)} ms`,
  );
}

const [request] = requests;
const queues = [1, 2].map((workers) => new HazardQueue({ workers }));
/** By queue, ms; in turn, so that what else the machine does strikes both. */
const times: number[][] = [[], []];
const alone = dispersionChunk(request, SPREAD, 0, DRAWS);
for (let round = 0; round < 6; round++) {
  for (const [i, queue] of queues.entries()) {
    const start = performance.now();
    const landings = await queue.disperse(request, SPREAD, DRAWS, "official");
    // The first rounds start the threads and warm them up.
    if (round > 1) times[i].push(performance.now() - start);
    deepStrictEqual(landings, alone);
  }
}
for (const queue of queues) await queue.close();
const [one, two] = times.map((each) => Math.min(...each));
console.log(
  `${DRAWS} throws on two threads: ${(one / two).toFixed(2)} times faster than on one (${two.toFixed(0)} ms against ${one.toFixed(0)} ms), every point the same`,
);
