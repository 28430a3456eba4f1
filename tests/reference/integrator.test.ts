/**
 * The integrator against `odex` from npm (E. Hairer and G. Wanner's extrapolation code ODEX, ported by C. Smith): the
 * same states to 1e-8 on the same equations, those of the swing among them.
 */
import { createRequire } from "node:module";
import { describe, expect, it } from "vitest";
import { machineKind } from "@/lib/throw";
import {
  DENSE_LENGTH,
  Dop853,
  evaluateDense,
  MAX_SIZE,
  type RightHandSide,
} from "@/lib/throw/numeric/dop853";
import { type SwungMachine, setupOf } from "@/lib/throw/setup";
import { LOOSE, Motion, type Phase, SWING, stateSize, TROUGH } from "@/lib/throw/swing/motion";
import { startState } from "@/lib/throw/swing/swing";

type Derivative = (t: number, y: number[]) => number[];
interface Solver {
  absoluteTolerance: number;
  relativeTolerance: number;
  maxSteps: number;
  solve(f: Derivative, from: number, y: number[], to: number): { y: number[]; outcome: number };
}
// Its package holds no type declarations, only sources that a strict compiler refuses.
const odex = createRequire(import.meta.url)("odex") as { Solver: new (size: number) => Solver };

function byOdex(f: RightHandSide, start: number[], until: number): number[] {
  const solver = new odex.Solver(start.length);
  solver.absoluteTolerance = 1e-12;
  solver.relativeTolerance = 1e-12;
  solver.maxSteps = 200_000;
  const derivative: Derivative = (_t, y) => {
    const dy = new Float64Array(MAX_SIZE);
    f(Float64Array.from(y), dy);
    return Array.from(dy.subarray(0, y.length));
  };
  const { y, outcome } = solver.solve(derivative, 0, start, until);
  expect(outcome).toBe(0);
  return y;
}

/** States at these instants, each read from the dense output of the step it lies in. */
function byDop853(f: RightHandSide, start: number[], instants: number[], tolerance = 1e-12): number[][] {
  const solver = new Dop853(tolerance, tolerance);
  const dense = new Float64Array(DENSE_LENGTH);
  const state = new Float64Array(MAX_SIZE);
  solver.y.set(start);
  solver.begin(f, start.length, 1);
  const states: number[][] = [];
  for (let time = 0; states.length < instants.length; time += solver.stepTaken) {
    if (states.length > 0 || time > 0) solver.accept();
    solver.attempt(1);
    solver.dense(dense, 0);
    while (states.length < instants.length && instants[states.length] <= time + solver.stepTaken) {
      const x = (instants[states.length] - time) / solver.stepTaken;
      evaluateDense(dense, 0, x, start.length, state);
      states.push(Array.from(state.subarray(0, start.length)));
    }
  }
  return states;
}

function expectSame(own: number[], other: number[], tolerance: number) {
  own.forEach((value, i) => {
    expect(Math.abs(value - other[i])).toBeLessThan(tolerance * Math.max(1, Math.abs(other[i])));
  });
}

describe("the equations of the swing", () => {
  const kinds = ["hinged-counterweight", "fixed-counterweight", "floating-arm"] as const;
  it.each(kinds)("of a %s give the same states, from the trough to the whirl", (kind) => {
    const { example, exampleProjectile } = machineKind(kind);
    const machine = example as SwungMachine;
    const motion = new Motion(setupOf({ machine, projectile: exampleProjectile }));
    const y = new Float64Array(MAX_SIZE);
    expect(startState(motion, y)).toBe(TROUGH);
    const follow = (phase: Phase, start: number[], instants: number[]) => {
      const f = motion.rightHandSide(phase);
      const states = byDop853(f, start, instants);
      instants.forEach((instant, i) => {
        expectSame(states[i], byOdex(f, start, instant), 1e-8);
      });
      return states[states.length - 1];
    };
    const scale = Math.sqrt(motion.setup.carrier.tipY / 9.80665);
    const sliding = Array.from(y.subarray(0, stateSize(TROUGH)));
    const onTrough = follow(TROUGH, sliding, [0.1 * scale, 0.3 * scale]);

    // From where the trough has brought it, swinging about the tip.
    const tip = new Float64Array(4);
    y.set(onTrough);
    motion.tipOnFrame(y, tip);
    const { troughHeight, slingLength } = motion.setup;
    const [ux, uy] = [(y[4] - tip[0]) / slingLength, (troughHeight - tip[1]) / slingLength];
    const turning = (-ux * tip[3] - uy * (y[5] - tip[2])) / slingLength;
    const swinging = [...onTrough.slice(0, 4), Math.atan2(uy, ux), turning];
    const swung = follow(SWING, swinging, [0.2 * scale, 0.7 * scale, 1.2 * scale]);

    // And flying while the sling is slack.
    const p = new Float64Array(4);
    y.set(swung);
    motion.projectile(SWING, y, p);
    follow(LOOSE, [...swung.slice(0, 4), p[0], p[2], p[1], p[3]], [0.5 * scale]);
  });

  it("keep the energy of a frictionless swing to 1e-9", () => {
    for (const kind of kinds) {
      const { example, exampleProjectile } = machineKind(kind);
      const motion = new Motion(setupOf({ machine: example as SwungMachine, projectile: exampleProjectile }));
      const start = [-2.4, 0, -Math.PI / 2, 0, -0.3, 0];
      const y = new Float64Array(MAX_SIZE);
      y.set(start);
      const before = motion.energy(SWING, y);
      // The tolerance of the engine itself; twice the time to the release.
      y.set(byDop853(motion.rightHandSide(SWING), start, [2], 1e-10)[0]);
      expect(Math.abs(motion.energy(SWING, y) / before - 1)).toBeLessThan(1e-9);
    }
  });
});

/** Hairer, Nørsett, Wanner, Solving Ordinary Differential Equations I (1993), II.0: the Arenstorf orbit. */
describe("the Arenstorf orbit", () => {
  const mu = 0.012277471;
  const f: RightHandSide = (y, dy) => {
    const d1 = ((y[0] + mu) ** 2 + y[2] ** 2) ** 1.5;
    const d2 = ((y[0] - 1 + mu) ** 2 + y[2] ** 2) ** 1.5;
    dy[0] = y[1];
    dy[1] = y[0] + 2 * y[3] - ((1 - mu) * (y[0] + mu)) / d1 - (mu * (y[0] - 1 + mu)) / d2;
    dy[2] = y[3];
    dy[3] = y[2] - 2 * y[1] - ((1 - mu) * y[2]) / d1 - (mu * y[2]) / d2;
  };
  const start = [0.994, 0, 0, -2.00158510637908252240537862224];

  it("closes after its period", () => {
    const [end] = byDop853(f, start, [17.0652165601579625588917206249], 1e-13);
    // Past the close approach errors grow by five orders of magnitude: position to 1e-7 is the last digit.
    expect(Math.abs(end[0] - start[0])).toBeLessThan(1e-7);
    expect(Math.abs(end[2])).toBeLessThan(1e-7);
  });

  it("is the orbit of odex half-way round, read from the dense output", () => {
    const instants = [1, 2.5, 5, 8.5];
    const states = byDop853(f, start, instants, 1e-13);
    instants.forEach((instant, i) => {
      expectSame(states[i], byOdex(f, start, instant), 1e-7);
    });
  });
});

/** The order of the method, 8, and of its dense output, 7, on y″ = −y: halving a fixed step must show it. */
describe("fixed steps on a harmonic motion", () => {
  const f: RightHandSide = (y, dy) => {
    dy[0] = y[1];
    dy[1] = -y[0];
  };
  const errors = (h: number) => {
    const solver = new Dop853(1, 1);
    const dense = new Float64Array(DENSE_LENGTH);
    const state = new Float64Array(MAX_SIZE);
    solver.y.set([1, 0]);
    solver.begin(f, 2, 1);
    let inside = 0;
    const steps = Math.round(6 / h);
    for (let n = 0; n < steps; n++) {
      solver.attemptExactly(h);
      solver.dense(dense, 0);
      for (const x of [0.15, 0.4, 0.65, 0.9]) {
        evaluateDense(dense, 0, x, 2, state);
        inside = Math.max(inside, Math.abs(state[0] - Math.cos((n + x) * h)));
      }
      solver.accept();
    }
    return { end: Math.hypot(solver.y[0] - Math.cos(6), solver.y[1] + Math.sin(6)), inside };
  };
  it("shows the order", () => {
    const [coarse, fine] = [errors(1), errors(0.5)];
    expect(Math.log2(coarse.end / fine.end)).toBeGreaterThan(7.5);
    expect(Math.log2(coarse.inside / fine.inside)).toBeGreaterThan(6.8);
  });
});
