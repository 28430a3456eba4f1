/** Torsion arms against closed forms of mechanics: energy to the stop, the quarter of a harmonic swing, the fade. */
import { describe, expect, it } from "vitest";
import { hazardRequestSchema, machineKind, preview } from "@/lib/throw";
import { type SwungMachine, setupOf } from "@/lib/throw/setup";
import type { SwingSetup } from "@/lib/throw/swing/carrier";
import { SwingReleases } from "@/lib/throw/swing/releases";
import { swing } from "@/lib/throw/swing/swing";

const kind = machineKind("torsion");
const {
  slingLength: _sling,
  releaseAngle: _pin,
  ...inCup
} = kind.example as SwungMachine & { kind: "torsion" };
const projectile = kind.exampleProjectile;

const refusal = (change: object, of: object = inCup) => {
  const parsed = hazardRequestSchema.safeParse({ machine: { ...of, ...change }, projectile });
  return parsed.success ? [] : parsed.error.issues.map(({ path }) => path.join("."));
};

/** A cup machine without gravity, and what its springs and inertia amount to. */
function weightless(change: Partial<typeof inCup> = {}) {
  const machine = { ...inCup, ...change };
  const setup: SwingSetup = { ...setupOf({ machine, projectile }), gravity: 0, horizon: 3 };
  const travel = ((machine.cockedAngle + machine.stopAngle) * Math.PI) / 180;
  const { preloadTorque, stiffness, armMass, armLength } = machine;
  return {
    machine,
    trace: swing(setup),
    work: preloadTorque * travel + 0.5 * stiffness * travel ** 2,
    // A uniform rod about its end, with the projectile at its tip.
    inertia: (armMass / 3 + projectile.mass) * armLength ** 2,
  };
}

describe("a cup without gravity", () => {
  it("throws at the stop with all the work of the springs, square to the arm", () => {
    const { machine, trace, work, inertia } = weightless();
    const { nominal } = new SwingReleases(trace);
    if (!nominal) throw new Error("no throw");
    const speed = Math.hypot(nominal.vx, nominal.vy);
    expect(speed / (machine.armLength * Math.sqrt((2 * work) / inertia))).toBeCloseTo(1, 9);
    expect(Math.atan2(nominal.vy, nominal.vx)).toBeCloseTo(((90 - machine.stopAngle) * Math.PI) / 180, 9);
    expect(nominal.hangUp).toBe(false);
  });

  it("comes to the stop after a quarter of the period of a spring without preload", () => {
    const { machine, trace, inertia } = weightless({ preloadTorque: 0 });
    const [before] = trace.segments;
    expect(before.end).toBe("stop");
    const time = trace.begin(before.to - 1) + trace.size(before.to - 1);
    expect(time / ((Math.PI / 2) * Math.sqrt(inertia / machine.stiffness))).toBeCloseTo(1, 9);
  });

  it("runs on past a stop that failed: the torque fades and never pulls back", () => {
    const { machine, trace, work, inertia } = weightless();
    const fade = machine.preloadTorque / machine.stiffness;
    const last = trace.segments[trace.segments.length - 1];
    expect(last.stop).toBe("fails");
    const rate = trace.stateAt(last.to - 1, 1)[1];
    const energy = work + 0.5 * machine.preloadTorque * fade;
    expect((0.5 * inertia * rate * rate) / energy).toBeCloseTo(1, 9);
    // No sling's angle ends the first pass of a cup: what rides on past the stop counts always.
    const { list } = new SwingReleases(trace);
    expect(list.some(({ stop }) => stop === "fails")).toBe(true);
    expect(list.every(({ hangUp }) => !hangUp)).toBe(true);
  });
});

describe("a cup under gravity", () => {
  it("lets go where it no longer pushes, before the stop", () => {
    const machine = { ...inCup, preloadTorque: 0, stiffness: 260, stopAngle: 60 };
    const trace = swing(setupOf({ machine, projectile }));
    const { nominal, list } = new SwingReleases(trace);
    if (!nominal) throw new Error("no throw");
    expect(trace.segments[0].end).toBe("stop");
    expect(nominal.time).toBeLessThan(list[list.length - 1].time);
    expect(Math.abs(trace.forcesAt(nominal.step, nominal.fraction).tension)).toBeLessThan(1e-6);
    expect(list.some(({ time }) => time > nominal.time)).toBe(true);
    expect(list.every(({ hangUp }) => !hangUp)).toBe(true);
  });
});

describe("a sling on a torsion arm", () => {
  it("swings on about the fixed tip while the stop holds, and keeps its energy", () => {
    const machine = { ...(kind.example as SwungMachine), troughFriction: 0 };
    const trace = swing(setupOf({ machine, projectile }));
    expect(trace.segments.map(({ stop }) => stop)).toEqual(["none", "holds", "fails"]);
    const energyAt = (step: number, x: number) =>
      trace.motion.energy(trace.phase(step), trace.stateAt(step, x).slice());
    for (const { from, to } of trace.segments) {
      expect(energyAt(to - 1, 1) / energyAt(from, 0)).toBeCloseTo(1, 8);
    }
  });
});

describe("the gate of torsion arms", () => {
  it.each([
    ["a sling without a release angle", { slingLength: 1.1 }, "machine.releaseAngle"],
    ["a release angle without a sling", { releaseAngle: 35 }, "machine.slingLength"],
    ["an arm cocked at its stop", { stopAngle: -10 }, "machine.stopAngle"],
    ["springs that cannot lift the arm", { preloadTorque: 1, stiffness: 1 }, "machine.preloadTorque"],
    ["a cocked tip below the ground", { cockedAngle: 60 }, "machine.cockedAngle"],
    ["an arm without mass", { armMass: 0 }, "machine.armMass"],
    ["a centre of mass beyond the arm", { armCentre: 2 }, "machine.armCentre"],
    ["a lean that puts the tip below the ground", { leanAlong: -25 }, "machine.cockedAngle"],
  ])("refuses %s and names the field", (_what, change, field) => {
    expect(refusal(change)).toContain(field);
    expect(refusal({})).toEqual([]);
  });
});

it("refuses an arm so light that no step can follow it, and does not try for ever", () => {
  const request = hazardRequestSchema.parse({
    machine: {
      kind: "torsion",
      armLength: 0.025259740039896686,
      armMass: 1.84466589456204e-258,
      pivotHeight: 0.9,
      cockedAngle: 10,
      stopAngle: 95,
      preloadTorque: 700,
      stiffness: 500,
      slingLength: 1.1,
      troughHeight: 0.2,
      releaseAngle: 35,
    },
    projectile: { mass: 1.2, diameter: 0.12 },
  });
  expect(() => preview(request)).toThrow(/cannot be followed/);
});
