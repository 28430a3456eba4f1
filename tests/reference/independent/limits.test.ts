/**
 * The independent simulator against mechanics itself, before anything is measured with it: energy, the angular
 * momentum about the sling's line, and the order of its convergence.
 */
import { describe, expect, it } from "vitest";
import { machineKind } from "@/lib/throw";
import { inelastic, slingState } from "./dynamics";
import { energy, type SwingMachine } from "./mechanism";
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
