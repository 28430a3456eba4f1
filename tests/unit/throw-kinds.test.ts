/** The kinds that follow from formulas, held against closed forms without air. */
import { describe, expect, it } from "vitest";
import {
  hazardRequestSchema,
  hazardSheet,
  MACHINE_KINDS,
  type Machine,
  machineKind,
  preview,
} from "@/lib/throw";
import { moved } from "@/lib/throw/case";
import { DrawCurve } from "@/lib/throw/machines/draw-curve";
import { dispersionChunk } from "@/lib/throw/spread/dispersion";
import { boxesOf } from "@/lib/throw/worst/box";

const G = 9.80665;
const RADIAN = Math.PI / 180;
const FORMULA_KINDS = MACHINE_KINDS.filter(({ motion }) => motion.by === "formula").map(({ kind }) => kind);

type Of<Kind extends Machine["kind"]> = Extract<Machine, { kind: Kind }>;
const exampleOf = <Kind extends Machine["kind"]>(kind: Kind) => machineKind(kind).example as Of<Kind>;

/** Without air: then every distance has a closed form. */
const airless = { projectile: { mass: 1, diameter: 0.05 }, air: { pressure: 0 } };
const requestOf = (machine: object, rest: object = {}) =>
  hazardRequestSchema.parse({ machine, ...airless, ...rest });
const releasesOf = (machine: object, rest: object = {}) => moved(requestOf(machine, rest)).releases;

/** Where a throw from (x, y) lands without air, the signs of the frame. */
function landing(x: number, y: number, speed: number, degrees: number): number {
  const [vx, vy] = [speed * Math.cos(degrees * RADIAN), speed * Math.sin(degrees * RADIAN)];
  return x + (vx * (vy + Math.sqrt(vy * vy + 2 * G * y))) / G;
}

/** Fields that a declaration is refused for. */
function refusedFields(machine: object, projectile: object = airless.projectile): string[] {
  const parsed = hazardRequestSchema.safeParse({ machine, projectile });
  if (parsed.success) return [];
  for (const { message } of parsed.error.issues) expect(message).toMatch(/\S/);
  return parsed.error.issues.map(({ path }) => path.join("."));
}

describe("tension", () => {
  const spring = {
    ...exampleOf("tension"),
    // A spring of 400 N/m drawn by 1.5 m, with its own weight beside.
    draw: [
      { length: 0, force: 0 },
      { length: 1.5, force: 600 },
    ],
    movingMass: 0.5,
    launchAngle: 30,
    launchHeight: 2,
  };
  const rise = 1.5 * Math.sin(30 * RADIAN);
  const speed = Math.sqrt((2 * (0.5 * 400 * 1.5 ** 2 - 1 * G * rise)) / 1.5);

  it("throws with the work of the draw less the climb, shared with what moves along", () => {
    const { nominal, worst } = preview(requestOf(spring));
    expect(nominal?.releaseSpeed).toBeCloseTo(speed, 9);
    expect(nominal?.distance).toBeCloseTo(landing(0, 2, speed, 30), 6);
    expect(worst.firstPass.forward.distance).toBeGreaterThanOrEqual(nominal?.distance ?? 0);
  });

  it("takes a quarter of the period of a spring for the stroke", () => {
    const level = { ...spring, launchAngle: 0 };
    const quarter = (Math.PI / 2) * Math.sqrt(1.5 / 400);
    expect((releasesOf(level).nominal?.time ?? 0) / quarter).toBeCloseTo(1, 3);
  });

  it("lets the projectile come free at every instant of the stroke, at the speed it has there", () => {
    for (const { x, y, vx, vy, hangUp } of releasesOf({ ...spring, launchAngle: 0 }).list) {
      const drawn = -x;
      const energy = 0.5 * 400 * (1.5 ** 2 - drawn ** 2);
      expect(0.5 * 1.5 * (vx * vx + vy * vy)).toBeCloseTo(energy, 6);
      expect(y).toBe(2);
      if (!hangUp) expect(vx).toBeGreaterThanOrEqual(0);
    }
  });

  it("rebounds with what hangs in its pouch: as far back as forward when level, and only as a hang-up", () => {
    const { worst } = preview(requestOf({ ...spring, launchAngle: 0 }));
    expect(worst.backward.distance / worst.forward.distance).toBeCloseTo(1, 6);
    // On its way back it is still a little ahead or behind where it is fastest: never less than from rest.
    expect(worst.backward.distance).toBeGreaterThanOrEqual(
      landing(0, 2, Math.sqrt((400 * 1.5 ** 2) / 1.5), 0),
    );
    // The first pass holds only where it was drawn to, 1.5 m behind.
    expect(worst.firstPass.backward.distance).toBeCloseTo(1.5, 6);
  });

  it("keeps the energy of a steep line on the way past rest and back", () => {
    const steep = { ...spring, launchAngle: 80, launchHeight: 3 };
    const start = 0.5 * 400 * 1.5 ** 2 - G * 1.5 * Math.sin(80 * RADIAN);
    for (const { x, y, vx, vy } of releasesOf(steep).list) {
      const along = Math.sign(y - 3) * Math.hypot(x, y - 3);
      const kinetic = 0.5 * 1.5 * (vx * vx + vy * vy);
      expect(kinetic + 0.5 * 400 * along ** 2 + G * (y - 3)).toBeCloseTo(start, 5);
    }
  });

  it("scales every force, joins the first point to length 0, and adds up trapezes", () => {
    const points = [
      { length: 0.5, force: 100 },
      { length: 1, force: 300 },
    ];
    expect(new DrawCurve(points, 2).energy).toBeCloseTo(2 * (25 + 100), 12);
    expect(new DrawCurve(points).work(0.75)).toBeCloseTo(25 + 0.25 * 150, 12);
    const [weak, strong] = [1, 1.21].map(
      (drawForceScale) => releasesOf({ ...spring, launchAngle: 0, drawForceScale }).nominal?.vx ?? 0,
    );
    expect(strong / weak).toBeCloseTo(1.1, 9);
  });

  it.each([
    [
      "lengths that do not rise",
      { draw: [...spring.draw, { length: 1.5, force: 700 }] },
      "machine.draw.2.length",
    ],
    ["a single point", { draw: [{ length: 1, force: 100 }] }, "machine.draw"],
    [
      "a force below the weight",
      { draw: spring.draw.map((p) => ({ ...p, force: 4 })), launchAngle: 80 },
      "machine.draw",
    ],
    ["a draw into the ground", { launchAngle: 60, launchHeight: 0.5 }, "machine.launchHeight"],
    ["more than is computed", { draw: spring.draw.map((p) => ({ ...p, force: 5e6 })) }, "machine.draw"],
  ])("refuses %s and names the field", (_what, change, field) => {
    expect(refusedFields({ ...spring, ...change })).toContain(field);
  });
});

describe("an arm that spins upright", () => {
  const arm = {
    ...exampleOf("spinning-arm"),
    armLength: 1.5,
    spinRate: 20,
    launchHeight: 2.5,
    releaseAngle: 40,
  };
  const SPEED = 30;

  it("releases square to the arm, the top of the circle moving downrange", () => {
    const { nominal } = releasesOf(arm);
    expect(Math.hypot(nominal?.vx ?? 0, nominal?.vy ?? 0)).toBeCloseTo(SPEED, 9);
    expect(Math.atan2(nominal?.vy ?? 0, nominal?.vx ?? 0) / RADIAN).toBeCloseTo(40, 9);
    expect(nominal?.x).toBeCloseTo(-1.5 * Math.sin(40 * RADIAN), 9);
    expect(nominal?.y).toBeCloseTo(2.5 + 1.5 * Math.cos(40 * RADIAN), 9);
    const top = releasesOf({ ...arm, releaseAngle: 0 }).nominal;
    expect([top?.x, top?.y, top?.vx]).toEqual([expect.closeTo(0, 9), 4, expect.closeTo(SPEED, 9)]);
  });

  it("throws as far as the best direction of the whole circle, either way, whatever was meant", () => {
    const fine = Array.from({ length: 36_000 }, (_, i) => {
      const direction = i / 100;
      const x = -1.5 * Math.sin(direction * RADIAN);
      return landing(x, 2.5 + 1.5 * Math.cos(direction * RADIAN), SPEED, direction);
    });
    for (const releaseAngle of [40, 170, -90]) {
      const { worst, nominal } = preview(requestOf({ ...arm, releaseAngle, releaseJitter: 5 }));
      expect(worst.forward.distance).toBeCloseTo(Math.max(...fine), 3);
      expect(worst.backward.distance).toBeCloseTo(-Math.min(...fine), 3);
      expect(worst.firstPass.backward.distance).toBe(worst.backward.distance);
      expect(Number.isFinite(nominal?.distance)).toBe(true);
    }
  });

  it("refuses an arm that strikes the ground, and more speed than is computed", () => {
    expect(refusedFields({ ...arm, launchHeight: 1.4 })).toContain("machine.launchHeight");
    expect(refusedFields({ ...arm, spinRate: 5000 })).toContain("machine.spinRate");
    expect(refusedFields({ ...arm, plane: "slanted" })).toContain("machine.plane");
  });
});

describe("the tolerances of a spinning arm", () => {
  const arm = exampleOf("spinning-arm");
  const exact = Object.fromEntries(
    ["armLength", "spinRate", "launchHeight", "tilt", "mass", "diameter"].map((name) => [name, 0]),
  );

  it("take a tilt only where there is a level plane to tilt, and never the release as meant", () => {
    const names = (plane: string) => {
      const [box] = boxesOf(requestOf({ ...arm, plane, releaseJitter: 5 }));
      return box.sides.map(({ name }) => name);
    };
    expect(names("vertical")).not.toContain("tilt");
    expect(names("horizontal")).toContain("tilt");
    for (const plane of ["vertical", "horizontal"]) expect(names(plane)).not.toContain("releaseAngle");
  });

  it("spread ordinary throws by the jitter, a level arm's over the azimuths", () => {
    const spread = (releaseJitter: number) => {
      const level = { ...arm, plane: "horizontal", releaseAngle: 0, releaseJitter };
      const { points } = dispersionChunk(requestOf(level, { tolerances: exact }), { seed: 4 }, 0, 200);
      const azimuths = Array.from(
        { length: 200 },
        (_, i) => Math.atan2(points[2 * i + 1], points[2 * i]) / RADIAN,
      );
      return Math.max(...azimuths) - Math.min(...azimuths);
    };
    expect(spread(0)).toBeCloseTo(0, 9);
    expect(spread(10)).toBeGreaterThan(19);
    expect(spread(10)).toBeLessThanOrEqual(20);
  });
});

describe("an arm that spins level", () => {
  const arm: Of<"spinning-arm"> = {
    ...exampleOf("spinning-arm"),
    plane: "horizontal",
    armLength: 1.5,
    spinRate: 20,
    launchHeight: 1.2,
    releaseAngle: 0,
  };
  const flown = landing(0, 1.2, 30, 0);

  it("throws as far backwards as forwards, from a point aside", () => {
    const { worst } = preview(requestOf(arm));
    expect(worst.forward.distance).toBeCloseTo(Math.hypot(flown, 1.5), 6);
    expect(worst.backward.distance).toBeCloseTo(worst.forward.distance, 9);
    expect(releasesOf(arm).allRound).toEqual({ aside: 1.5 });
  });

  it("is meant to leave towards its release angle, from the left of it: clockwise from above", () => {
    const { nominal } = preview(requestOf({ ...arm, releaseAngle: 90 }));
    expect(nominal?.drift).toBeCloseTo(flown, 6);
    expect(nominal?.distance).toBeCloseTo(1.5, 6);
    expect(nominal?.releaseSpeed).toBeCloseTo(30, 9);
    const ahead = preview(requestOf(arm)).nominal;
    expect(ahead?.distance).toBeCloseTo(flown, 6);
    expect(ahead?.drift).toBeCloseTo(-1.5, 6);
  });

  it("throws at any elevation up to its tilt, every place square to its velocity", () => {
    const { list } = releasesOf({ ...arm, tilt: 20 });
    const elevations = list.map(({ vx, vy }) => Math.atan2(vy, Math.abs(vx)) / RADIAN);
    expect(Math.max(...elevations)).toBeCloseTo(20, 9);
    expect(Math.min(...elevations)).toBeCloseTo(-20, 0);
    for (const { x, y, vx, vy } of list) {
      expect(Math.hypot(vx, vy)).toBeCloseTo(30, 9);
      // Along the throw and up; the rest of the arm lies across, where the velocity has nothing.
      expect(x * vx + (y - 1.2) * vy).toBeCloseTo(0, 9);
      expect(Math.hypot(x, y - 1.2)).toBeLessThanOrEqual(1.5);
    }
    const tilted = preview(requestOf({ ...arm, tilt: 20 })).worst.forward.distance;
    expect(tilted).toBeGreaterThanOrEqual(Math.hypot(landing(0, 1.2, 30, 20), 1.5) - 1e-6);
    expect(refusedFields({ ...arm, tilt: 60 })).toContain("machine.tilt");
    expect(refusedFields({ ...arm, tilt: 45, launchHeight: 1 })).toContain("machine.launchHeight");
  });
});

describe("an air cannon", () => {
  const cannon = { ...exampleOf("air-cannon"), valve: "ideal" as const };
  const projectile = machineKind("air-cannon").exampleProjectile;

  it("throws along its barrel, at any speed up to the ideal valve's; backwards only what its tolerance allows", () => {
    const { nominal, worst } = preview(requestOf(cannon));
    const meant = landing(0, cannon.muzzleHeight, nominal?.releaseSpeed ?? 0, cannon.elevation);
    expect(nominal?.distance).toBeCloseTo(meant, 6);
    expect(worst.forward.distance).toBeCloseTo(meant, 6);
    expect(worst.backward.distance).toBeLessThan(1e-9);
    const upright = preview(requestOf({ ...cannon, elevation: 92 }));
    expect(upright.worst.backward.distance).toBeGreaterThan(10);
    expect(upright.worst.forward.distance).toBe(0);
  });

  it("says why there is no throw as meant through a valve that is too tight, and keeps its worst", () => {
    const tight = { ...cannon, friction: 1800, valve: { flowCoefficient: 0.5, openingTime: 5 } };
    const { nominal, nominalReason, worst } = preview(requestOf(tight));
    expect(nominal).toBeNull();
    expect(nominalReason).toMatch(/not seen to leave the barrel/);
    expect(worst.forward.distance).toBeGreaterThan(5);
  });

  it.each([
    ["a pressure above the rating", { chamberPressure: 7e5 }, {}, "machine.chamberPressure"],
    ["a projectile larger than the bore", {}, { diameter: 0.106 }, "machine.boreDiameter"],
    ["gas that does not drive it out", { friction: 5000 }, {}, "machine.chamberPressure"],
    [
      "more speed than is computed",
      { chamberPressure: 6e5, friction: 0 },
      { mass: 0.004 },
      "machine.chamberPressure",
    ],
    ["a valve that is neither ideal nor known", { valve: "fast" }, {}, "machine.valve"],
  ])("refuses %s and names the field", (_what, change, load, field) => {
    expect(refusedFields({ ...cannon, ...change }, { ...projectile, ...load })).toContain(field);
  });

  it("counts a gauge that errs, though a declared pressure above the rating is refused", () => {
    const { refusals, limits } = machineKind("air-cannon");
    const over = { ...cannon, chamberPressure: 1.05 * cannon.ratedPressure };
    const conditions = { projectile, gravity: G, pressure: 101_325, tolerances: {} };
    expect(refusals?.(over, conditions)).toEqual([]);
    expect(limits?.(over, conditions)).toHaveLength(1);
  });
});

describe("every kind by formula", () => {
  it.each(FORMULA_KINDS)(
    "never goes beyond its ceiling, and never answers with anything but a number: %s",
    (kind) => {
      const { example, exampleProjectile } = machineKind(kind);
      for (const air of [{}, { pressure: 0 }, { temperature: 40, wind: { speed: 8, gust: 20 } }]) {
        const request = hazardRequestSchema.parse({ machine: example, projectile: exampleProjectile, air });
        const { worst, ceiling, nominal } = preview(request);
        expect(worst.forward.distance).toBeLessThanOrEqual(ceiling.distance * (1 + 1e-9));
        expect(worst.backward.distance).toBeLessThanOrEqual(ceiling.distance * (1 + 1e-9));
        const numbers = JSON.stringify({ worst, ceiling, nominal }, (_key, value) =>
          typeof value === "number" && !Number.isFinite(value) ? "not a number" : value,
        );
        expect(numbers).not.toContain("not a number");
        for (const instant of moved(request).releases.list) {
          const { time, x, y, vx, vy } = instant;
          expect([time, x, y, vx, vy].every(Number.isFinite)).toBe(true);
        }
      }
    },
  );

  it.each(FORMULA_KINDS)(
    "reaches as far aside on ground that falls to the left as to the right: %s",
    (kind) => {
      const { example, exampleProjectile, parameters } = machineKind(kind);
      const exact = ["mass", "diameter", ...parameters.map(({ name }) => name)].map((name) => [name, 0]);
      const reachOn = (crossSlope: number) =>
        hazardSheet(
          hazardRequestSchema.parse({
            machine: example,
            projectile: exampleProjectile,
            tolerances: Object.fromEntries(exact),
            terrain: { crossSlope },
          }),
        ).exclusion.reach;
      const [left, level, right] = [reachOn(-12), reachOn(0), reachOn(12)];
      expect(left).toEqual(right);
      for (const [degree, reach] of left.entries())
        expect(reach).toBeGreaterThanOrEqual(level[degree] as number);
    },
  );

  it.each(FORMULA_KINDS)("finds every listed instant again by its step and fraction: %s", (kind) => {
    const { example, exampleProjectile } = machineKind(kind);
    const request = hazardRequestSchema.parse({ machine: example, projectile: exampleProjectile });
    const { releases } = moved(request);
    for (const instant of releases.list) expect(releases.near(instant, instant.fraction)).toEqual(instant);
  });
});

it("says why an air cannon throws nothing through a valve that lets next to nothing through", () => {
  const { example, exampleProjectile } = machineKind("air-cannon");
  const valve = { flowCoefficient: 1.8e-280, openingTime: 0 };
  const request = hazardRequestSchema.parse({
    machine: { ...example, valve },
    projectile: exampleProjectile,
    air: { pressure: 0 },
  });
  const { nominal, nominalReason } = preview(request);
  expect(nominal).toBeNull();
  expect(nominalReason).toContain("too slowly");
});
