/** Loads against cases that can be reckoned by hand, and against each other. */
import { describe, expect, test } from "vitest";
import { slingStiffnessText } from "@/app/_ui/hazard-sheet/words";
import { type HazardRequest, hazardRequestSchema, MACHINE_KINDS, strengthsSchema } from "@/lib/throw";
import { workOut } from "@/lib/throw/case";
import { type Body, bodyOf, outerPart } from "@/lib/throw/loads/body";
import { loads, type StrengthRequest, sweep } from "@/lib/throw/loads/loads";
import { Pose } from "@/lib/throw/loads/pose";
import { reserveOf } from "@/lib/throw/loads/reserve";
import { sectionBetween, sectionModulus } from "@/lib/throw/loads/section";
import { isSwung, setupOf } from "@/lib/throw/setup";
import type { SwingSetup } from "@/lib/throw/swing/carrier";
import { storedEnergy } from "@/lib/throw/swing/energy";
import { LOOSE, Motion, SWING } from "@/lib/throw/swing/motion";

const G = 9.80665;

function example(kind: string, machine: object = {}, more: object = {}): HazardRequest {
  const found = MACHINE_KINDS.find((candidate) => candidate.kind === kind);
  if (!found) throw new Error(kind);
  return hazardRequestSchema.parse({
    machine: { ...found.example, ...machine },
    projectile: found.exampleProjectile,
    ...more,
  });
}

const ARM_KINDS = ["hinged-counterweight", "fixed-counterweight", "floating-arm", "torsion"];

/** A uniform rod of 3 m and 12 kg that turns about a point of it, with a 2 kg projectile on a 1.5 m sling. */
function rod(shortArm: number): { setup: SwingSetup; body: Body } {
  const longArm = 3 - shortArm;
  const offset = 1.5 - shortArm;
  const armInertia = (12 * 3 ** 2) / 12;
  const moment = -12 * offset;
  const setup: SwingSetup = {
    carrier: {
      startAngle: Math.PI,
      tipX: longArm,
      tipY: longArm,
      originY: 4,
      shortArm,
      mass: 12,
      inertia: armInertia + 12 * offset ** 2,
      inertiaCos2: 0,
      moment,
      levelMoment: -moment,
      hanger: null,
      spring: null,
      floats: false,
      endStop: null,
      counterweightSize: 0,
    },
    mass: 2,
    slingLength: 1.5,
    troughHeight: 0,
    troughFriction: 0,
    releaseAngle: 0,
    gravity: G,
    lean: 0,
    leanAcross: 0,
    frame: null,
    horizon: 5,
  };
  const body: Body = {
    armMass: 12,
    armOffset: offset,
    armInertia,
    longArm,
    shortArm,
    lumps: null,
    counterweightMass: 0,
    counterweightInertia: 0,
    counterweightSize: 0,
    carriageMass: 0,
  };
  return { setup, body };
}

const state = (...values: number[]) => Float64Array.from({ length: 16 }, (_, i) => values[i] ?? 0);

function lockedMode(setup: SwingSetup): number {
  const motion = new Motion(setup);
  motion.locked = true;
  return motion.mode;
}
const freeMode = (setup: SwingSetup) => new Motion(setup).mode;

describe("a sling on an arm that stands still", () => {
  const { setup, body } = rod(0);
  const pose = new Pose(setup, body);

  test("at rest it bears the projectile's weight", () => {
    pose.set(SWING, state(Math.PI / 2, 0, 0, 0, -Math.PI / 2, 0), lockedMode(setup));
    expect(pose.tension).toBeCloseTo(2 * G, 9);
  });

  test("let go from the horizontal it bears three times the weight at the bottom", () => {
    const rate = Math.sqrt((2 * G) / 1.5);
    pose.set(SWING, state(Math.PI / 2, 0, 0, 0, -Math.PI / 2, rate), lockedMode(setup));
    expect(pose.tension).toBeCloseTo(6 * G, 9);
  });
});

describe("a bare rod", () => {
  test("falling about its end bends most a third from there: m g cos φ x (L − x)² / (4 L²)", () => {
    const { setup, body } = rod(0);
    const pose = new Pose(setup, body);
    pose.set(LOOSE, state(0.4, -1.3), freeMode(setup));
    for (const x of [0.2, 1, 2, 2.9]) {
      const closed = (12 * G * Math.cos(0.4) * x * (3 - x) ** 2) / (4 * 3 ** 2);
      expect(pose.bending(x)).toBeCloseTo(closed, 6);
    }
    const peak = (x: number) => Math.abs(pose.bending(x));
    expect(peak(1)).toBeGreaterThan(peak(0.98));
    expect(peak(1)).toBeGreaterThan(peak(1.02));
  });

  test("let go level it rests on its pivot with a quarter of its weight", () => {
    const { setup, body } = rod(0);
    const pose = new Pose(setup, body);
    const force = new Float64Array(2);
    pose.set(LOOSE, state(0, 0), freeMode(setup));
    pose.frameForce(force);
    expect(force[0]).toBeCloseTo(0, 9);
    expect(force[1]).toBeCloseTo((-12 * G) / 4, 6);
  });

  test("spinning about its middle at a steady rate it bends by its weight alone: λ g cos φ l²/2", () => {
    const { setup, body } = rod(1.5);
    const pose = new Pose(setup, body);
    const force = new Float64Array(2);
    for (const rate of [0, -8]) {
      pose.set(LOOSE, state(0.7, rate), freeMode(setup));
      for (const station of [0, 0.5, 1.2]) {
        const closed = -(4 * G * Math.cos(0.7) * (1.5 - station) ** 2) / 2;
        expect(pose.bending(station)).toBeCloseTo(closed, 6);
        expect(pose.bending(-station)).toBeCloseTo(closed, 6);
      }
      pose.frameForce(force);
      expect(force[1]).toBeCloseTo(-12 * G, 6);
    }
  });

  test("spinning about its end it pulls with m ω² L/2 besides its weight", () => {
    const { setup, body } = rod(0);
    const pose = new Pose(setup, body);
    const force = new Float64Array(2);
    pose.set(LOOSE, state(Math.PI / 2, -5), freeMode(setup));
    pose.frameForce(force);
    expect(force[1]).toBeCloseTo((12 * 25 * 3) / 2 - 12 * G, 6);
  });

  test("as many lumps it bends as a rod does", () => {
    const { setup, body } = rod(0);
    const lumps = Array.from({ length: 600 }, (_, i) => ({ station: (i + 0.5) * 0.005, mass: 0.02 }));
    const [whole, lumped] = [new Pose(setup, body), new Pose(setup, { ...body, lumps })];
    for (const pose of [whole, lumped]) pose.set(LOOSE, state(0.4, -1.3), freeMode(setup));
    expect(lumped.bending(1)).toBeCloseTo(whole.bending(1), 2);
    expect(outerPart({ ...body, lumps }, 2).mass).toBeCloseTo(outerPart(body, 2).mass, 6);
    expect(outerPart({ ...body, lumps }, 2).centre).toBeCloseTo(2.5, 6);
  });
});

test.each(ARM_KINDS)("%s: forces from the tip and from the short end agree at the pivot", (kind) => {
  const request = example(kind);
  const { trace } = workOut(request);
  if (!trace || !isSwung(request.machine)) throw new Error("swung");
  const { setup } = trace.motion;
  const pose = new Pose(setup, bodyOf(request.machine, setup, undefined));
  const force = new Float64Array(2);
  for (let step = 0; step < trace.segments[0].to; step += 7) {
    pose.recall(trace, step, 0.5);
    pose.frameForce(force);
    const scale = Math.hypot(force[0], force[1]) + 1;
    const { spring, floats, shortArm } = setup.carrier;
    if (!spring) {
      expect(Math.abs(pose.bending(-1e-9) - pose.bending(0)) / scale).toBeLessThan(1e-5);
      // The level force of a floating arm acts at the drop track, the upright one at the fulcrum.
      const level = floats ? pose.shortEnd[1] : setup.carrier.originY;
      const byForces = (pose.fulcrum[0] - 0.8) * force[1] - level * force[0];
      expect(Math.abs(pose.frameMoment(0.8) - byForces) / scale).toBeLessThan(1e-5);
    } else expect(shortArm).toBe(0);
  }
});

test.each(ARM_KINDS)("%s: peaks are as large as a dense scan's", (kind) => {
  const request = example(kind);
  const worked = workOut(request);
  const { trace, releases } = worked;
  if (!trace || !isSwung(request.machine) || !releases.nominal) throw new Error("swung");
  const { setup } = trace.motion;
  const pose = new Pose(setup, bodyOf(request.machine, setup, undefined));
  const force = new Float64Array(2);
  let [tension, pivot, moment] = [0, 0, 0];
  for (let step = 0; step <= releases.nominal.step; step++) {
    const end = step === releases.nominal.step ? releases.nominal.fraction : 1;
    for (let i = 0; i <= 100; i++) {
      pose.recall(trace, step, (end * i) / 100);
      pose.frameForce(force);
      tension = Math.max(tension, pose.tension);
      pivot = Math.max(pivot, Math.hypot(force[0], force[1]));
      moment = Math.max(moment, Math.abs(pose.bending(0)));
    }
  }
  const found = loads(request, worked);
  if (found.sling) expect(found.sling.tension.throw?.value).toBeCloseTo(tension, 1);
  expect((found.pivot?.force.throw?.value ?? 0) / pivot).toBeCloseTo(1, 5);
  expect(found.arm?.moment.throw?.value ?? 0).toBeGreaterThanOrEqual(moment * 0.99999);
});

test("without friction what is stored goes into the projectile and what is left", () => {
  const request = example("fixed-counterweight", { troughFriction: 0 });
  const worked = workOut(request);
  const { nominal } = worked.releases;
  if (!nominal) throw new Error("slips");
  const { mass } = request.projectile;
  const given = mass * (0.5 * (nominal.vx ** 2 + nominal.vy ** 2) + G * nominal.y);
  const stored = storedEnergy(setupOf(request));
  expect((loads(request, worked).energyLeft ?? 0) + given).toBeCloseTo(stored, 4);
});

test("a jerk's peak is that of a spring that stops the mass behind the impulse", () => {
  const request = example("hinged-counterweight");
  const found = loads(request, workOut(request)).sling;
  const jerk = found?.jerks[0];
  if (!found || !jerk) throw new Error("this example's sling goes slack in a hang-up");
  expect(jerk.hangUp).toBe(true);
  expect(jerk.peakForce).toBeCloseTo(Math.sqrt(found.stiffness * jerk.impulse * jerk.speed), 6);
  // No more than the projectile's own mass stops, and it loses no more than all its relative speed.
  expect(jerk.impulse).toBeLessThanOrEqual(request.projectile.mass * jerk.speed * (1 + 1e-9));
  expect(found.hangUpReserve?.load).toBeGreaterThanOrEqual(jerk.peakForce);
});

/** Share by which rope stretches before it breaks. Common practice, no source. */
const ROPES = { nylon: 0.2, polyester: 0.12, manila: 0.1, aramid: 0.035, polyethylene: 0.035 };

describe.each(["hinged-counterweight", "fixed-counterweight"])("the jerk of a %s", (kind) => {
  const jerkWith = (sling?: object) => {
    const request = example(kind, {}, sling ? { strengths: { sling } } : {});
    const found = loads(request, workOut(request)).sling;
    const jerk = found?.jerks[0];
    if (!found || !jerk) throw new Error("this example's sling goes slack in a hang-up");
    return { force: jerk.peakForce, pull: found.tension.throw?.value ?? 0, ...found };
  };
  const bare = jerkWith();

  test("with no sling declared is no smaller than with any usual one that bears the throw", () => {
    for (const stretch of Object.values(ROPES)) {
      for (const legs of [1, 2]) {
        for (const oversize of [1, 2]) {
          // What bears five times the pull with knots and water, and rope of twice that.
          const ropeRating = (oversize * 5 * bare.pull) / (0.5 * 0.85 * legs);
          expect(jerkWith({ ropeRating, legs, stretch }).force).toBeLessThanOrEqual(bare.force * (1 + 1e-9));
          // A maker who says nothing of the stretch changes nothing.
          expect(jerkWith({ ropeRating, legs }).force).toBeLessThanOrEqual(bare.force * (1 + 1e-9));
        }
      }
      expect(jerkWith({ breakingStrength: 10 * bare.pull, stretch }).force).toBeLessThan(bare.force);
    }
  });

  test("is that of the rope: knots and water take strength from it, not stiffness", () => {
    const [knotted, spliced] = [true, false].map((knots) =>
      jerkWith({ ropeRating: 20_000, knots, wet: knots }),
    );
    expect(knotted?.stiffness).toBe(spliced?.stiffness);
    expect(knotted?.hangUpReserve?.reserve).toBeLessThan(spliced?.hangUpReserve?.reserve ?? 0);
  });

  test("says beside it how stiff the sling was taken and why, in the reader's units", () => {
    const declared = slingStiffnessText(jerkWith({ ropeRating: 8000, legs: 2, stretch: 0.15 }), "metric");
    const { slingLength } = example(kind).machine as { slingLength: number };
    const each = (16_000 / (0.15 * slingLength)) * 0.01;
    expect(Number(/pulls (\d+) N for each centimetre/.exec(declared)?.[1]) / each).toBeCloseTo(1, 1);
    expect(declared).toContain("The rope stretches 15 % before it breaks, as declared");
    expect(slingStiffnessText(bare, "us")).toMatch(/pulls [\d,]+ lbf for each inch .* No sling is declared/);
  });
});

test("nothing declared gives no reserve but a sentence; what is declared is derated and warned of", () => {
  const request = example("fixed-counterweight");
  const worked = workOut(request);
  const bare = loads(request, worked);
  for (const reserve of [bare.sling?.reserve, bare.arm?.reserve, bare.pivot?.reserve, bare.hanger?.reserve]) {
    expect(reserve).toMatchObject({ strength: null, reserve: null, verdict: "unknown" });
    expect(reserve?.explanation).toMatch(/^Declare /);
  }
  expect(bare.stability).toBeNull();
  const strengths = strengthsSchema.parse({
    sling: { ropeRating: 2000 },
    pivot: 1000,
    arm: {
      material: { wood: "douglas-fir" },
      sections: { pivot: { shape: "rectangular", depth: 0.12, width: 0.09 } },
    },
    frame: { mass: 60, footprint: 0.5 },
  });
  const declared = loads({ ...request, strengths } as StrengthRequest, worked);
  expect(declared.sling?.reserve.strength).toBeCloseTo(2000 * 0.5 * 0.85, 9);
  expect(declared.sling?.reserve.verdict).toBe("below-design-factor");
  expect(declared.pivot?.reserve.verdict).toBe("breaks");
  const moment = Math.max(declared.arm?.moment.throw?.value ?? 0, declared.arm?.moment.after?.value ?? 0);
  expect(declared.arm?.reserve.load).toBeCloseTo(moment / ((0.09 * 0.12 ** 2) / 6), 0);
  expect(declared.stability?.tips).toBe(true);
  expect(declared.warnings.map(({ code }) => code)).toEqual(
    expect.arrayContaining(["sling-reserve", "pivot-reserve", "tips"]),
  );
});

test("a heavy wide frame does not tip, and needs friction for the level force", () => {
  const request = example("fixed-counterweight");
  const strengths = strengthsSchema.parse({ frame: { mass: 5000, footprint: 6, friction: 0.5 } });
  const { stability } = loads({ ...request, strengths } as StrengthRequest, workOut(request));
  expect(stability).toMatchObject({ tips: false, slides: false });
  expect(stability?.friction).toBeGreaterThan(0);
});

describe("sections", () => {
  test("moduli by hand", () => {
    expect(sectionModulus({ shape: "rectangular", depth: 0.2, width: 0.1 })).toBeCloseTo(
      (0.1 * 0.04) / 6,
      12,
    );
    expect(sectionModulus({ shape: "round", diameter: 0.1 })).toBeCloseTo((Math.PI * 1e-3) / 32, 12);
    const tube = sectionModulus({ shape: "tube", diameter: 0.1, wall: 0.01 });
    expect(tube).toBeCloseTo((Math.PI * 1e-3 * (1 - 0.8 ** 4)) / 32, 12);
    const laminated = { shape: "laminated", depth: 0.2, width: 0.1, layers: 4, clothLayers: 0 } as const;
    const solid = (0.1 * 0.04) / 6;
    expect(sectionModulus({ ...laminated, glueFactor: 1 })).toBeCloseTo(solid, 12);
    expect(sectionModulus({ ...laminated, glueFactor: 0 })).toBeCloseTo(solid / 4, 12);
    expect(sectionModulus({ ...laminated, glueFactor: 1, clothLayers: 5 })).toBeCloseTo(
      (0.1 * 0.204 ** 2) / 6,
      12,
    );
  });

  test("between pivot and tip every size changes evenly; other shapes are refused", () => {
    const pivot = { shape: "round", diameter: 0.1 } as const;
    expect(sectionBetween(pivot, { shape: "round", diameter: 0.06 }, 0.5)).toEqual({
      shape: "round",
      diameter: 0.08,
    });
    const mixed = { arm: { sections: { pivot, tip: { shape: "rectangular", depth: 0.1, width: 0.1 } } } };
    expect(strengthsSchema.safeParse(mixed).success).toBe(false);
  });
});

test("verdicts of a reserve", () => {
  const verdict = (load: number) => reserveOf(load, 100, 5, "").verdict;
  expect(verdict(10)).toBe("meets-design-factor");
  expect(verdict(50)).toBe("below-design-factor");
  expect(verdict(150)).toBe("breaks");
  expect(reserveOf(0, 100, 5, "").reserve).toBeNull();
});

test("a machine that swings over sweeps up to its pivot and arm, and the sling beyond", () => {
  const request = example("fixed-counterweight");
  const { machine } = request;
  if (machine.kind !== "fixed-counterweight") throw new Error("fixed");
  const swept = sweep(request, workOut(request));
  const top = machine.pivotHeight + machine.longArm;
  expect(swept?.all.height).toBeGreaterThanOrEqual(top);
  expect(swept?.all.height).toBeLessThanOrEqual(
    top + machine.slingLength + request.projectile.diameter / 2 + 1e-9,
  );
  // At the trigger the tip is the farthest uprange, and the sling lies under the arm.
  expect(swept?.all.backward).toBeGreaterThanOrEqual(machine.longArm * Math.cos((40 * Math.PI) / 180));
  expect(swept?.untilRelease?.height).toBeLessThanOrEqual((swept?.all.height ?? 0) + 1e-9);
});

describe("machines by formula", () => {
  test("a spinning arm pulls with m ω² r", () => {
    const request = example("spinning-arm", { armLength: 2, spinRate: 10 });
    const { spin } = loads(request, workOut(request));
    expect(spin?.projectilePull).toBeCloseTo(request.projectile.mass * 200, 9);
    expect(sweep(request, workOut(request))?.all.forward).toBeCloseTo(2 + request.projectile.diameter / 2, 9);
  });

  test("a bow stores the area under its draw curve", () => {
    const draw = [
      { length: 0, force: 0 },
      { length: 1, force: 600 },
      { length: 1.5, force: 500 },
    ];
    const request = example("tension", { draw, drawForceScale: 1 });
    expect(loads(request, workOut(request)).draw).toEqual({ peakForce: 600, storedEnergy: 300 + 275 });
  });

  test("an air cannon's cap bears pressure by area, its chamber is held to its rating", () => {
    const request = example("air-cannon", { chamberPressure: 5e5, ratedPressure: 8e5, boreDiameter: 0.2 });
    const { chamber } = loads(request, workOut(request));
    expect(chamber?.capForce).toBeCloseTo(5e5 * Math.PI * 0.01, 6);
    expect(chamber?.reserve.reserve).toBeCloseTo(1.6, 9);
  });
});
