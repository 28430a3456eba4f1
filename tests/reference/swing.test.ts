/**
 * The swing against a general rigid-body engine: @dimforge/rapier2d-compat, https://rapier.rs, set up in
 * tests/reference/independent/rigid-body-engine.ts from bodies, hinges, slides, a rope and a floor. Release speed
 * and direction must agree within 1 % with a run that has converged when the step is halved.
 */
import { beforeAll, describe, expect, it } from "vitest";
import { hazardSheet, machineKind, preview } from "@/lib/throw";
import { type SwungMachine, setupOf } from "@/lib/throw/setup";
import { SwingReleases } from "@/lib/throw/swing/releases";
import { swing } from "@/lib/throw/swing/swing";
import type { ArmMachine, SwingMachine } from "./independent/mechanism";
import { exactRequest } from "./independent/request";
import { type RigidState, startRigidBodies, swingRigidBodies } from "./independent/rigid-body-engine";
import { simulate } from "./independent/swing";

const KINDS = ["hinged-counterweight", "fixed-counterweight", "floating-arm"] as const;
const example = (kind: (typeof KINDS)[number]) => machineKind(kind).example as SwingMachine;

interface Released {
  speed: number;
  direction: number;
  height: number;
}

/** The instant after a fifth of a second (or earlier, for a quick machine) at which the sling's angle falls to the release angle, between two steps. */
function releaseOf(machine: ArmMachine, mass: number, dt: number, after = 0.2): Released {
  const level = machine.releaseAngle ?? 0;
  let before: RigidState | null = null;
  let found: Released | null = null;
  swingRigidBodies(machine, mass, dt, 3, (now) => {
    if (before && now.t > after && before.angle > level && now.angle <= level) {
      const last = before;
      const f = (last.angle - level) / (last.angle - now.angle);
      const mix = (pick: (s: RigidState) => number) => pick(last) + f * (pick(now) - pick(last));
      const vx = mix((s) => s.vx);
      const vy = mix((s) => s.vy);
      const direction = (Math.atan2(vy, vx) * 180) / Math.PI;
      found = { speed: Math.hypot(vx, vy), direction, height: mix((s) => s.y) };
      return true;
    }
    before = now;
    return false;
  });
  if (!found) throw new Error("The rigid bodies never came to the release angle.");
  return found;
}

beforeAll(startRigidBodies);

describe.each(KINDS)("%s against rigid bodies", (kind) => {
  const load = { ...machineKind(kind).exampleProjectile, drag: 0.47 };
  it.each([0, 0.2, 0.6])("leaves at the same speed and direction, trough friction %d", (troughFriction) => {
    const machine = { ...example(kind), troughFriction };
    const coarse = releaseOf(machine, load.mass, 1 / 2000);
    const fine = releaseOf(machine, load.mass, 1 / 4000);
    // Converged: halving the step moves the result by much less than the 1 % asked for.
    expect(Math.abs(fine.speed / coarse.speed - 1)).toBeLessThan(2e-3);
    expect(Math.abs(fine.direction - coarse.direction)).toBeLessThan(0.25);

    const { nominal } = preview(exactRequest(machine, load));
    if (!nominal) throw new Error("The engine never comes to the release angle.");
    expect(Math.abs(nominal.releaseSpeed / fine.speed - 1)).toBeLessThan(0.01);
    expect(Math.abs(nominal.launchAngle - fine.direction)).toBeLessThan(0.01 * Math.abs(fine.direction));
    expect(Math.abs(nominal.releaseHeight / fine.height - 1)).toBeLessThan(0.01);
  });
});

describe("frames on wheels and a torsion arm against rigid bodies", () => {
  const wheels = { frameMass: 80, footprint: 2 };
  it.each([
    ["hinged-counterweight", wheels],
    ["fixed-counterweight", wheels],
    ["floating-arm", wheels],
    ["torsion", "fixed"],
    ["torsion", wheels],
  ] as const)("%s leaves alike, base %o", (kind, base) => {
    const { example, exampleProjectile } = machineKind(kind);
    // On the bare trough: how a floor rubs is the engine's own affair.
    const machine = { ...example, base, troughFriction: 0 } as SwungMachine;
    const after = kind === "torsion" ? 0.05 : 0.2;
    const step = kind === "torsion" ? 1 / 16_000 : 1 / 4000;
    const coarse = releaseOf(machine as ArmMachine, exampleProjectile.mass, 2 * step, after);
    const fine = releaseOf(machine as ArmMachine, exampleProjectile.mass, step, after);
    expect(Math.abs(fine.speed / coarse.speed - 1)).toBeLessThan(3e-3);

    const { nominal } = new SwingReleases(
      swing(setupOf({ machine, projectile: exampleProjectile }, "rolling")),
    );
    if (!nominal) throw new Error("The engine never comes to the release angle.");
    expect(Math.abs(Math.hypot(nominal.vx, nominal.vy) / fine.speed - 1)).toBeLessThan(0.01);
    const direction = (Math.atan2(nominal.vy, nominal.vx) * 180) / Math.PI;
    expect(Math.abs(direction - fine.direction)).toBeLessThan(0.01 * Math.abs(fine.direction));
  });
});

describe("the catch after a slack against rigid bodies", () => {
  it("whips the projectile of a fixed counterweight the same way", () => {
    const machine = { ...example("fixed-counterweight"), troughFriction: 0 };
    const load = { ...machineKind("fixed-counterweight").exampleProjectile, drag: 0 };
    const { worst } = hazardSheet(exactRequest(machine, load));
    const { releaseTime, releaseSpeed, launchAngle } = worst.backward;
    expect(worst.backward.afterSlack).toBe(true);
    if (releaseTime === null || releaseSpeed === null || launchAngle === null) throw new Error("no throw");

    // The rope goes slack and comes taut again, without any bounce, before that instant.
    const at = (dt: number) => {
      let last: RigidState | null = null;
      let slackest = machine.slingLength;
      swingRigidBodies(machine, load.mass, dt, releaseTime + dt / 2, (state) => {
        last = state;
        slackest = Math.min(slackest, state.reach);
        return false;
      });
      if (!last) throw new Error("no step");
      const { vx, vy, reach } = last as RigidState;
      expect(slackest).toBeLessThan(0.99 * machine.slingLength);
      expect(reach).toBeGreaterThan(0.999 * machine.slingLength);
      return { vx, vy };
    };
    const coarse = at(1 / 4000);
    const fine = at(1 / 8000);
    expect(Math.hypot(fine.vx - coarse.vx, fine.vy - coarse.vy)).toBeLessThan(
      0.01 * Math.hypot(fine.vx, fine.vy),
    );
    expect(Math.abs(releaseSpeed / Math.hypot(fine.vx, fine.vy) - 1)).toBeLessThan(0.01);
    const direction = (Math.atan2(fine.vy, fine.vx) * 180) / Math.PI;
    expect(Math.abs(launchAngle - direction)).toBeLessThan(0.01 * direction);
  });
});

/** Complete elliptic integral of the first kind by the arithmetic-geometric mean, modulus k. */
function ellipticK(k: number): number {
  let a = 1;
  let b = Math.sqrt(1 - k * k);
  for (let i = 0; i < 40 && Math.abs(a - b) > 1e-16; i++) [a, b] = [(a + b) / 2, Math.sqrt(a * b)];
  return Math.PI / (2 * a);
}

/** Mechanics: without a load and a sling the fixed counterweight is a compound pendulum. */
describe("the compound pendulum", () => {
  // A gram on a short sling against half a ton: its share of the inertia is below 1e-5.
  const machine = {
    ...example("fixed-counterweight"),
    cockedAngle: 35,
    counterweightMass: 500,
    slingLength: 0.5,
    pivotHeight: 2,
    longArm: 3,
    troughHeight: 0.3,
    troughFriction: 0,
    releaseAngle: 20,
  } as SwingMachine & { kind: "fixed-counterweight" };
  const length = machine.longArm + machine.shortArm;
  const centre = length / 2 - machine.shortArm;
  const inertia =
    (machine.armMass * length ** 2) / 12 +
    machine.armMass * centre ** 2 +
    machine.counterweightInertia +
    machine.counterweightMass * machine.shortArm ** 2;
  const moment = machine.counterweightMass * machine.shortArm - machine.armMass * centre;
  const amplitude = ((90 + machine.cockedAngle) * Math.PI) / 180;
  // From rest to the lowest point is a quarter of the period 4·K(sin(amplitude/2))·√(I/(moment·g)).
  const quarter = ellipticK(Math.sin(amplitude / 2)) * Math.sqrt(inertia / (moment * 9.80665));

  it("is upright after a quarter of the period by the elliptic integral", () => {
    const { swing } = preview(exactRequest(machine, { mass: 0.001, diameter: 0.01, drag: 0.47 }));
    if (!swing) throw new Error("no picture of the swing");
    const i = swing.frames.findIndex((frame) => frame.tip[0] > 0);
    expect(i).toBeGreaterThan(1);
    // The instant between two frames, by the cubic through four of them.
    const four = swing.frames.slice(i - 2, i + 2);
    const time = four.reduce((sum, one) => {
      const weight = four.reduce(
        (product, other) =>
          other === one ? product : (product * other.tip[0]) / (other.tip[0] - one.tip[0]),
        1,
      );
      return sum + weight * one.time;
    }, 0);
    expect(Math.abs(time / quarter - 1)).toBeLessThan(2e-5);
  });

  it("so does the independent simulator", () => {
    const { segments, mechanism } = simulate(machine, 0.001, { resolution: 400 });
    const states = segments.flatMap((segment) => segment.states);
    const i = states.findIndex((state) => state.q[mechanism.armAngle] < -1.5 * Math.PI);
    const [a, b] = [states[i - 1], states[i]];
    const past = a.q[mechanism.armAngle] + 1.5 * Math.PI;
    const time = a.t + ((b.t - a.t) * past) / (past - (b.q[mechanism.armAngle] + 1.5 * Math.PI));
    expect(Math.abs(time / quarter - 1)).toBeLessThan(2e-5);
  });
});
