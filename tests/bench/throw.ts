/**
 * The preview and the sheet of each kind, and one counterweight swing with its flight against the same equations
 * through odex (npm), each at the loosest accuracy that lands within a millimetre. Ratios to what the same run
 * measures.
 */
import { createRequire } from "node:module";
import { hazardRequestSchema, hazardSheet, MACHINE_KINDS, preview } from "../../lib/throw";
import { nominalAir } from "../../lib/throw/case";
import { dragCoefficientOf, Flight } from "../../lib/throw/flight/flight";
import type { Instant } from "../../lib/throw/release";
import { setupOf } from "../../lib/throw/setup";
import { QuickRelease, type Release } from "../../lib/throw/spread/quick-release";
import { Motion, SWING, TROUGH } from "../../lib/throw/swing/motion";
import { SwingReleases } from "../../lib/throw/swing/releases";
import { startState, swing } from "../../lib/throw/swing/swing";
import { median } from "./timing/median";

interface OdexSolver {
  absoluteTolerance: number;
  relativeTolerance: number;
  solve(f: (t: number, y: number[]) => number[], from: number, y: number[], to: number): { y: number[] };
}
// The package's own types describe a later version.
const odex = createRequire(import.meta.url)("odex") as { Solver: new (size: number) => OdexSolver };

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

// ---------------------------------------------------------------- a swing with its flight, against odex

const TARGET = 1e-3; // m of the landing, the error that physics allows
const ACCURACIES = [1e-4, 1e-5, 1e-6, 1e-7, 1e-8, 1e-9, 1e-10, 1e-11, 1e-12];

const request = hazardRequestSchema.parse({
  machine: MACHINE_KINDS[0].example,
  projectile: MACHINE_KINDS[0].exampleProjectile,
});
const air = nominalAir(request);

/** From the trigger over lift-off and the slipping loop to the ground, all of them found: metres downrange. */
function ours(accuracy: number): () => number {
  const quick = new QuickRelease(request, accuracy);
  const flight = new Flight(accuracy);
  return () => {
    const { x, y, vx, vy } = quick.of(request) as Release;
    return flight.fly(air, x, y, vx, vy).x;
  };
}

const exact = (() => {
  const trace = swing(setupOf(request), 1e-12);
  const nominal = new SwingReleases(trace).nominal as Instant;
  const { x, time } = new Flight(1e-12).fly(air, nominal.x, nominal.y, nominal.vx, nominal.vy);
  return { liftOff: trace.liftOff, release: nominal.time, flight: time, landing: x };
})();

/** The same equations, told beforehand when to lift off, to let go and to land: no event has to be found. */
function theirs(accuracy: number): () => number {
  const motion = new Motion(setupOf(request));
  const state = new Float64Array(8);
  const slope = new Float64Array(8);
  const ball = new Float64Array(4);
  const tip = new Float64Array(4);
  const solve = (
    f: (y: Float64Array, dy: Float64Array) => void,
    size: number,
    y: number[],
    duration: number,
  ): number[] => {
    const solver = new odex.Solver(size);
    solver.absoluteTolerance = accuracy;
    solver.relativeTolerance = accuracy;
    const system = (_time: number, at: number[]) => {
      for (let i = 0; i < size; i++) state[i] = at[i];
      f(state, slope);
      return Array.from(slope.subarray(0, size));
    };
    return solver.solve(system, 0, y, duration).y;
  };
  const factor = (0.5 * air.density * air.area) / air.mass;
  const fly = (y: Float64Array, dy: Float64Array) => {
    const speed = Math.sqrt(y[2] * y[2] + y[3] * y[3]);
    const drag = -factor * dragCoefficientOf(air, speed) * speed;
    dy[0] = y[2];
    dy[1] = y[3];
    dy[2] = drag * y[2];
    dy[3] = drag * y[3] - air.gravity;
  };
  const start = new Float64Array(8);
  return () => {
    startState(motion, start);
    const lifted = solve(motion.rightHandSide(TROUGH), 6, Array.from(start.subarray(0, 6)), exact.liftOff);
    state.set(lifted);
    motion.projectileOnFrame(TROUGH, state, ball);
    motion.tipOnFrame(state, tip);
    const [across, up] = [ball[0] - tip[0], ball[1] - tip[1]];
    lifted[4] = Math.atan2(up, across);
    lifted[5] = (across * (ball[3] - tip[3]) - up * (ball[2] - tip[2])) / (across ** 2 + up ** 2);
    state.set(solve(motion.rightHandSide(SWING), 6, lifted, exact.release - exact.liftOff));
    motion.projectile(SWING, state, ball);
    return solve(fly, 4, Array.from(ball), exact.flight)[0];
  };
}

/** The loosest accuracy whose landing is right to the target, with it. */
function rightEnough(make: (accuracy: number) => () => number) {
  for (const accuracy of ACCURACIES) {
    const run = make(accuracy);
    const error = Math.abs(run() - exact.landing);
    if (error <= TARGET) return { run, error, accuracy };
  }
  throw new Error("No accuracy reaches the target.");
}

const [a, b] = [rightEnough(ours), rightEnough(theirs)];
const times: [number, number][] = [];
for (let i = 0; i < 600; i++)
  times.push([median(a.run, 1, i < 100 ? 5 : 0), median(b.run, 1, i < 100 ? 5 : 0)]);
const middle = (which: 0 | 1) =>
  times
    .slice(100)
    .map((pair) => pair[which])
    .sort((x, y) => x - y)[250];
const told = (name: string, time: number, { error, accuracy }: { error: number; accuracy: number }) =>
  `${name} ${(1000 * time).toFixed(0)} µs at ${accuracy.toExponential(0)}, ${(1000 * error).toFixed(2)} mm off`;
console.log(
  `swing and flight: ${(middle(1) / middle(0)).toFixed(1)} times faster than odex ` +
    `(${told("here", middle(0), a)}; ${told("odex", middle(1), b)})`,
);
