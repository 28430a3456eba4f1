/**
 * The independent simulator against mechanics itself, before anything is measured with it: energy, the angular
 * momentum about the sling's line, and the order of its convergence.
 */
import { describe, expect, it } from "vitest";
import { machineKind } from "@/lib/throw";
import { inelastic, slingState } from "./dynamics";
import { type ArmMachine, energy, inTheWorld, type SwingMachine } from "./mechanism";
import { type Swing, simulate } from "./swing";

const KINDS = ["hinged-counterweight", "fixed-counterweight", "floating-arm"] as const;
const of = (kind: (typeof KINDS)[number], changes: object = {}) =>
  ({ ...machineKind(kind).example, ...changes }) as SwingMachine;
const energyAt = (swing: Swing, index: number, end: 0 | -1) => {
  const state = swing.segments[index].states.at(end);
  if (!state) throw new Error("empty segment");
  return energy(swing.mechanism, state.q, state.v);
};

describe.each(KINDS)("%s in free bodies and multipliers", (kind) => {
  const machine = of(kind, { troughFriction: 0 });
  const { mass } = machineKind(kind).exampleProjectile;

  it("conserves energy while nothing jerks", () => {
    const swing = simulate(machine, mass, { resolution: 1000 });
    const start = energyAt(swing, 0, 0);
    swing.segments.forEach((segment, i) => {
      if (segment.states.some((state) => state.slackSeen || state.mode.locked)) return;
      expect(Math.abs(energyAt(swing, i, -1) / start - 1)).toBeLessThan(1e-9);
    });
  });

  it("converges at the order of its integrator", () => {
    const speed = [125, 250, 500, 2000].map((resolution) => {
      const { slip, mechanism } = simulate(machine, mass, { resolution, horizon: 1.2 });
      if (!slip) throw new Error("no slip");
      return Math.hypot(slip.v[mechanism.projectile.x], slip.v[mechanism.projectile.y]);
    });
    const error = speed.slice(0, 3).map((value) => Math.abs(value - speed[3]));
    expect(error[0] / error[1]).toBeGreaterThan(10);
    expect(error[1] / error[2]).toBeGreaterThan(10);
    expect(error[2] / speed[3]).toBeLessThan(1e-7);
  });
});

describe("the jerk of a sling", () => {
  it("changes the load's velocity along the sling only and loses energy", () => {
    const swing = simulate(of("fixed-counterweight"), 2.5, { resolution: 500 });
    const taut = swing.events.find((event) => event.kind === "taut");
    const i = swing.segments.findIndex((segment) => segment.states[0].t === taut?.t);
    const before = swing.segments[i - 1].states.at(-1);
    const after = swing.segments[i].states[0];
    if (!before) throw new Error("no slack");
    const { mechanism } = swing;
    const sling = slingState(mechanism, before.q, before.v);
    const { x, y } = mechanism.projectile;
    const across = (v: number[]) => (sling.x * v[y] - sling.y * v[x]) / sling.length;
    expect(across(after.v)).toBeCloseTo(across(before.v), 10);
    expect(sling.growth).toBeGreaterThan(0.1);
    expect(Math.abs(slingState(mechanism, after.q, after.v).growth)).toBeLessThan(1e-10);
    expect(energyAt(swing, i, 0)).toBeLessThan(energyAt(swing, i - 1, -1) - 1);
    // Twice the same jerk does nothing more.
    expect(inelastic(mechanism, after.mode, after.q, after.v)).toEqual(
      after.v.map((value) => expect.closeTo(value, 9)),
    );
  });
});

describe("a frame on wheels", () => {
  const base = { frameMass: 150, footprint: 2 };
  it.each(KINDS)("keeps energy and has no level momentum in all, %s", (kind) => {
    const machine = of(kind, { base, troughFriction: 0 });
    const swing = simulate(machine, 3, { resolution: 600, rolling: true, horizon: 1.5 });
    const { mechanism } = swing;
    const start = energyAt(swing, 0, 0);
    for (const { states } of swing.segments) {
      const { q, v, slackSeen, mode } = states[states.length - 1];
      const parts = [...mechanism.levels, mechanism.projectile.x, mechanism.frame];
      const each = parts.map((i) => mechanism.masses[i] * v[i]);
      const most = Math.max(1, ...each.map(Math.abs));
      expect(Math.abs(each.reduce((a, b) => a + b, 0))).toBeLessThan(1e-7 * most);
      if (!slackSeen && !mode.locked)
        expect(Math.abs(energy(mechanism, q, v) / start - 1)).toBeLessThan(1e-8);
    }
    expect(swing.events.map((event) => event.kind)).toContain("slip");
  });
});

describe("a twisted skein", () => {
  const machine: ArmMachine = {
    kind: "torsion",
    armLength: 1.6,
    armMass: 9,
    pivotHeight: 1.9,
    cockedAngle: 10,
    stopAngle: 95,
    preloadTorque: 700,
    stiffness: 500,
  };
  it("gives cup and arm at the stop all its work less their lift", () => {
    const { slip } = simulate(machine, 1.2, { resolution: 400 });
    const travel = (105 * Math.PI) / 180;
    const work = 700 * travel + (500 * travel ** 2) / 2;
    const lift =
      (1.2 * 1.6 + (9 * 1.6) / 2) * 9.80665 * (Math.sin((95 * Math.PI) / 180) + Math.sin(Math.PI / 18));
    const inertia = 1.2 * 1.6 ** 2 + (9 * 1.6 ** 2) / 3;
    expect(slip?.v[2]).toBeCloseTo(-Math.sqrt((2 * (work - lift)) / inertia), 7);
  });

  it("runs on past a failed stop while its torque fades, and keeps its energy", () => {
    const swing = simulate(machine, 1.2, { resolution: 400, horizon: 1 });
    const last = swing.segments
      .filter((one) => one.branch === "fails")
      .at(-1)
      ?.states.at(-1);
    if (!last) throw new Error("The stop was not met.");
    const stored = energyAt(swing, 0, 0);
    expect(energy(swing.mechanism, last.q, last.v, true) / stored).toBeCloseTo(1, 5);
  });
});

describe("a machine that leans", () => {
  it("throws along the turned trajectory where gravity does nothing to its swing", () => {
    // A torsion arm far stronger than its weight: the release turns with the machine, to the first order in weight.
    const strong: ArmMachine = {
      kind: "torsion",
      armLength: 1,
      armMass: 1,
      pivotHeight: 1.2,
      cockedAngle: 0,
      stopAngle: 90,
      preloadTorque: 1e5,
      stiffness: 0,
    };
    const angle = (leanAlong: number) => {
      const { slip, mechanism } = simulate(strong, 1, { resolution: 800, leanAlong, horizon: 1 });
      if (!slip) throw new Error("no release");
      const { vx, vy } = inTheWorld(mechanism, slip.q, slip.v);
      return (Math.atan2(vy, vx) * 180) / Math.PI;
    };
    expect(angle(0)).toBeCloseTo(0, 6);
    expect(angle(5)).toBeCloseTo(-5, 6);
  });
});
