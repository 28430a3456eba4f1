/** Frames that roll and machines that lean, against the conservation laws and against what must be the same motion. */
import { describe, expect, it } from "vitest";
import { machineKind } from "@/lib/throw";
import { type SwungMachine, setupOf } from "@/lib/throw/setup";
import type { SwingSetup } from "@/lib/throw/swing/carrier";
import { storedEnergy } from "@/lib/throw/swing/energy";
import { SwingReleases } from "@/lib/throw/swing/releases";
import { swing } from "@/lib/throw/swing/swing";
import type { Trace } from "@/lib/throw/swing/trace";

const KINDS = ["hinged-counterweight", "fixed-counterweight", "floating-arm", "torsion"] as const;
type Kind = (typeof KINDS)[number];

const setupFor = (kind: Kind, change: object = {}, frame: "held" | "rolling" = "rolling"): SwingSetup => {
  const { example, exampleProjectile } = machineKind(kind);
  const base = { frameMass: 90, footprint: 2 };
  const machine = { ...example, base, troughFriction: 0.2, ...change } as SwungMachine;
  return setupOf({ machine, projectile: exampleProjectile }, frame);
};

const nominalOf = (setup: SwingSetup) => {
  const { nominal } = new SwingReleases(swing(setup));
  if (!nominal) throw new Error("no throw");
  return nominal;
};

/** Level first moment of all that rolls and moves, over the ground, kg·m: arm, counterweight, projectile, frame. */
function levelMoment(trace: Trace, step: number, x: number, armMass: number, counterweightMass: number) {
  const { motion } = trace;
  const y = trace.stateAt(step, x).slice();
  const { tip, shortEnd, counterweight } = motion.points(trace.phase(step), y);
  const ball = new Float64Array(4);
  trace.projectileAt(step, x, ball);
  const frame = motion.setup.frame?.mass ?? 0;
  return (
    (armMass * (tip[0] + shortEnd[0])) / 2 +
    counterweightMass * counterweight[0] +
    motion.setup.mass * ball[0] +
    frame * trace.frameAt(step, x).x
  );
}

describe("a frame that rolls", () => {
  it.each(KINDS)("keeps the energy of a frictionless %s until something strikes, leaning too", (kind) => {
    for (const leanAlong of [0, 4]) {
      const setup = setupFor(kind, { troughFriction: 0, leanAlong });
      const trace = swing(setup);
      const energyAt = (step: number, x: number) =>
        trace.motion.energy(trace.phase(step), trace.stateAt(step, x).slice());
      const { nominal } = new SwingReleases(trace);
      const start = energyAt(0, 0);
      for (let step = 0; trace.begin(step) < (nominal?.time ?? 0); step++) {
        expect(Math.abs(energyAt(step, 1) - start)).toBeLessThan(1e-9 * storedEnergy(setup));
      }
    }
  });

  it("keeps its centre of mass where it was along the ground, and says how fast it rolls", () => {
    const { armMass, counterweightMass } = machineKind("hinged-counterweight").example as SwungMachine & {
      kind: "hinged-counterweight";
    };
    const trace = swing(setupFor("hinged-counterweight"));
    const start = levelMoment(trace, 0, 0, armMass, counterweightMass);
    let fastest = 0;
    for (let step = 0; step < trace.steps; step++) {
      const moment = levelMoment(trace, step, 0.5, armMass, counterweightMass);
      expect(Math.abs(moment - start)).toBeLessThan(1e-9 * Math.abs(start));
      const h = 1e-4;
      const rolled = trace.frameAt(step, 0.5 + h).x - trace.frameAt(step, 0.5 - h).x;
      const { speed } = trace.frameAt(step, 0.5);
      expect(rolled / (2 * h * trace.size(step))).toBeCloseTo(speed, 4);
      fastest = Math.max(fastest, Math.abs(speed));
    }
    expect(fastest).toBeGreaterThan(2);
  });

  it("that is heavy beyond measure is held", () => {
    for (const kind of KINDS) {
      const held = nominalOf(setupFor(kind, {}, "held"));
      const heavy = nominalOf({ ...setupFor(kind), frame: { mass: 1e12 } });
      for (const key of ["time", "x", "y", "vx", "vy"] as const) expect(heavy[key]).toBeCloseTo(held[key], 7);
      const light = nominalOf(setupFor(kind));
      expect(Math.abs(light.vx - held.vx)).toBeGreaterThan(0.05);
    }
  });

  it("takes the arm's momentum at the stop, while the projectile feels only its sling", () => {
    for (const kind of ["floating-arm", "torsion"] as const) {
      const trace = swing(setupFor(kind));
      const [before, holds] = trace.segments;
      const [old, now, tip] = [new Float64Array(4), new Float64Array(4), new Float64Array(4)];
      trace.projectileAt(before.to - 1, 1, old);
      trace.projectileAt(holds.from, 0, now);
      const y = trace.stateAt(holds.from, 0).slice();
      trace.motion.tip(trace.phase(holds.from), y, tip);
      const jump = [now[2] - old[2], now[3] - old[3]];
      const sling = [now[0] - tip[0], now[1] - tip[1]];
      const size = Math.hypot(...jump) * Math.hypot(...sling);
      expect(size).toBeGreaterThan(1e-3);
      expect(Math.abs(jump[0] * sling[1] - jump[1] * sling[0])).toBeLessThan(1e-9 * size);
      // It pulls, and the sling no longer lengthens.
      expect(jump[0] * sling[0] + jump[1] * sling[1]).toBeLessThan(0);
      expect((now[2] - tip[2]) * sling[0] + (now[3] - tip[3]) * sling[1]).toBeCloseTo(0, 9);
      // Frame and arm together go on with what the projectile did not take: nothing in all.
      const all = (trace.motion.setup.frame?.mass ?? 0) + trace.motion.setup.carrier.mass;
      expect(all * tip[2] + trace.motion.setup.mass * now[2]).toBeCloseTo(0, 6);
    }
  });
});

describe("a machine that leans", () => {
  it("is the same as one cocked and stopped by that much less and more, its pivot moved over the ground", () => {
    // With a cup only the pivot, the arm and gravity count.
    const cup = { slingLength: undefined, releaseAngle: undefined };
    const { pivotHeight, cockedAngle, stopAngle } = machineKind("torsion").example as SwungMachine & {
      kind: "torsion";
    };
    const [leanAlong, lean] = [7, (7 * Math.PI) / 180];
    const leaning = nominalOf(setupFor("torsion", { ...cup, leanAlong }, "held"));
    const turned = { cockedAngle: cockedAngle - leanAlong, stopAngle: stopAngle + leanAlong };
    const upright = nominalOf(
      setupFor("torsion", { ...cup, ...turned, pivotHeight: pivotHeight * Math.cos(lean) }, "held"),
    );
    for (const key of ["time", "y", "vx", "vy"] as const) expect(leaning[key]).toBeCloseTo(upright[key], 8);
    expect(leaning.x).toBeCloseTo(upright.x + pivotHeight * Math.sin(lean), 8);
  });

  it("hangs its counterweight along true gravity and starts it from rest there", () => {
    const trace = swing(setupFor("hinged-counterweight", { leanAlong: 6 }, "held"));
    const { shortEnd, counterweight } = trace.motion.points(trace.phase(0), trace.stateAt(0, 0).slice());
    expect(counterweight[0]).toBeCloseTo(shortEnd[0], 12);
    expect(counterweight[1]).toBeLessThan(shortEnd[1]);
  });

  it("to a side has less of gravity in the plane of the throw", () => {
    const setup = setupFor("fixed-counterweight", { leanAcross: 10 }, "held");
    const upright = setupFor("fixed-counterweight", {}, "held");
    expect(setup.gravity / upright.gravity).toBeCloseTo(Math.cos(Math.PI / 18), 12);
    // Without friction the whole motion only slows: times grow as 1/√g, speeds fall as √g.
    const [slow, quick] = [
      nominalOf({ ...setup, troughFriction: 0 }),
      nominalOf({ ...upright, troughFriction: 0 }),
    ];
    expect(slow.time / quick.time).toBeCloseTo(Math.sqrt(upright.gravity / setup.gravity), 8);
    expect(slow.vx / quick.vx).toBeCloseTo(Math.sqrt(setup.gravity / upright.gravity), 8);
  });
});
