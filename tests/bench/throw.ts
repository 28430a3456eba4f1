/**
 * The preview and the sheet of each kind, and the swing alone against the same equations through odex (npm), from
 * lift-off to the end of the first pass, at the same error of the final state. Ratios to what the same run measures.
 */
import { createRequire } from "node:module";
import { performance } from "node:perf_hooks";
import { hazardRequestSchema, hazardSheet, MACHINE_KINDS, preview } from "../../lib/throw";
import { Dop853 } from "../../lib/throw/numeric/dop853";
import { setupOf } from "../../lib/throw/setup";
import { Motion, SWING, stateSize } from "../../lib/throw/swing/motion";
import { swing } from "../../lib/throw/swing/swing";

interface OdexSolver {
  absoluteTolerance: number;
  relativeTolerance: number;
  solve(f: (t: number, y: number[]) => number[], from: number, y: number[], to: number): { y: number[] };
}
// The package's own types describe a later version.
const odex = createRequire(import.meta.url)("odex") as { Solver: new (size: number) => OdexSolver };

/** Median of `count` runs after a warm-up, ms. */
function median(work: () => unknown, count = 15): number {
  for (let i = 0; i < 5; i++) work();
  const times = Array.from({ length: count }, () => {
    const start = performance.now();
    work();
    return performance.now() - start;
  });
  return times.sort((a, b) => a - b)[count >> 1];
}

const ms = (time: number) => `${time.toFixed(time < 10 ? 2 : 0)} ms`;

for (const { kind, example, exampleProjectile } of MACHINE_KINDS) {
  for (const wind of [undefined, { speed: 5, gust: 10 }]) {
    const request = hazardRequestSchema.parse({
      machine: example,
      projectile: exampleProjectile,
      air: { wind },
    });
    const quick = median(() => preview(request));
    const whole = median(() => hazardSheet(request), 3);
    const name = `${kind}${wind ? ", gusty" : ""}`;
    console.log(`${name.padEnd(30)} preview ${ms(quick).padStart(8)}   sheet ${ms(whole).padStart(8)}`);
  }
}

const request = hazardRequestSchema.parse({
  machine: MACHINE_KINDS[0].example,
  projectile: MACHINE_KINDS[0].exampleProjectile,
});
const setup = setupOf(request);
const motion = new Motion(setup);
const trace = swing(setup);
let first = 0;
while (trace.phase(first) !== SWING) first++;
const start = trace.stateAt(first, 0).slice();
const size = stateSize(SWING);
const DURATION = 0.75; // s: the throw, short of the first slack

function ours(accuracy: number): Float64Array {
  const solver = new Dop853(accuracy, accuracy);
  solver.y.set(start);
  solver.begin(motion.swing, size, DURATION);
  let time = 0;
  while (time < DURATION - 1e-15) {
    solver.attempt(DURATION - time);
    time += solver.stepTaken;
    solver.accept();
  }
  return solver.y;
}

const from = new Float64Array(8);
const slope = new Float64Array(8);
function theirs(accuracy: number): ArrayLike<number> {
  const system = (_time: number, y: number[]) => {
    from.set(y);
    motion.swing(from, slope);
    return Array.from(slope.subarray(0, size));
  };
  const solver = new odex.Solver(size);
  solver.absoluteTolerance = accuracy;
  solver.relativeTolerance = accuracy;
  return solver.solve(system, 0, Array.from(start.subarray(0, size)), DURATION).y;
}

const exact = ours(1e-13).slice();
const errorOf = (y: ArrayLike<number>) => Math.abs(y[4] - exact[4]) + Math.abs(y[5] - exact[5]);
const [ourError, theirError] = [errorOf(ours(1e-9)), errorOf(theirs(1e-9))];
const [ourTime, theirTime] = [median(() => ours(1e-9), 200), median(() => theirs(1e-9), 200)];
console.log(
  `swing for ${DURATION} s: ${(theirTime / ourTime).toFixed(1)} times faster than odex ` +
    `(${(1000 * ourTime).toFixed(0)} µs, error ${ourError.toExponential(0)}; odex ${(1000 * theirTime).toFixed(0)} µs, error ${theirError.toExponential(0)})`,
);
