/**
 * Flight against closed forms and published drag. Sources beside each group.
 */
import { describe, expect, it } from "vitest";
import { type HazardRequestInput, hazardRequestSchema, type Nominal, preview } from "@/lib/throw";
import { sphereDrag } from "@/lib/throw/projectile";

const G = 9.80665;
const STANDARD = { temperature: 288.15, pressure: 101_325 };
const DENSITY = 1.225;

function thrown(
  releaseSpeed: number,
  launchAngle: number,
  launchHeight: number,
  projectile: HazardRequestInput["projectile"],
  air: HazardRequestInput["air"] = STANDARD,
): Nominal {
  const request = hazardRequestSchema.parse({
    machine: { kind: "measured", releaseSpeed, launchAngle, launchHeight },
    projectile: { lift: 0, ...projectile },
    tolerances: { releaseSpeed: 0, launchAngle: 0, launchHeight: 0, mass: 0, diameter: 0 },
    air,
  });
  const { nominal } = preview(request);
  if (!nominal) throw new Error("A measured machine always throws.");
  return nominal;
}

const constant = (drag: number) => ({ nominal: drag, low: drag, high: drag });

/** Mechanics: a throw without air from a height above the ground. */
describe("the range without air", () => {
  it.each([
    [30, 45, 0],
    [38, 42, 3.5],
    [12, 0, 10],
    [25, 80, 1],
    [20, -30, 15],
    [45, 130, 6],
  ])("at %d m/s, %d°, from %d m", (speed, angle, height) => {
    const load = { mass: 3, diameter: 0.2 };
    const nominal = thrown(speed, angle, height, load, { temperature: 288.15, pressure: 0 });
    const vx = speed * Math.cos((angle * Math.PI) / 180);
    const vy = speed * Math.sin((angle * Math.PI) / 180);
    const time = (vy + Math.sqrt(vy * vy + 2 * G * height)) / G;
    expect(Math.abs(nominal.flightTime - time)).toBeLessThan(1e-5);
    expect(Math.abs(nominal.distance - vx * time)).toBeLessThan(1e-3);
    expect(nominal.apex).toBeCloseTo(height + Math.max(0, vy) ** 2 / (2 * G), 3);
    expect(nominal.impactSpeed).toBeCloseTo(Math.sqrt(speed * speed + 2 * G * height), 4);
    expect(nominal.impactEnergy).toBeCloseTo(1.5 * (speed * speed + 2 * G * height), 1);
  });
});

/** Mechanics: vertical motion with quadratic drag, terminal speed v_t. */
describe("straight up and down with quadratic drag", () => {
  it.each([
    [40, 0.5, 1.5],
    [60, 0.05, 0],
    [25, 12, 2],
  ])("%d m/s, %d kg, from %d m", (speed, mass, height) => {
    const diameter = 0.15;
    const nominal = thrown(speed, 90, height, { mass, diameter, drag: constant(0.47) });
    const vt = Math.sqrt((2 * mass * G) / (DENSITY * 0.47 * (Math.PI / 4) * diameter ** 2));
    const rise = (vt ** 2 / (2 * G)) * Math.log(1 + (speed / vt) ** 2);
    const fall = height + rise;
    const down = (vt / G) * Math.acosh(Math.exp((G * fall) / vt ** 2));
    expect(Math.abs(nominal.apex / fall - 1)).toBeLessThan(1e-4);
    expect(Math.abs(nominal.flightTime / ((vt / G) * Math.atan(speed / vt) + down) - 1)).toBeLessThan(1e-4);
    expect(Math.abs(nominal.impactSpeed / (vt * Math.tanh((G * down) / vt)) - 1)).toBeLessThan(1e-4);
    expect(Math.abs(nominal.distance)).toBeLessThan(1e-6);
  });
});

/** F. A. Morrison, An Introduction to Fluid Mechanics (2013), data correlation for the drag of a sphere. */
describe("the drag of a smooth sphere", () => {
  it.each([0.5, 1, 10, 100, 1e3, 1e4, 1e5, 2e5, 3e5, 4e5, 5e5, 7e5, 1e6])(
    "is the correlation at Re %d",
    (re) => {
      const printed =
        24 / re +
        (2.6 * (re / 5)) / (1 + (re / 5) ** 1.52) +
        (0.411 * (re / 2.63e5) ** -7.94) / (1 + (re / 2.63e5) ** -8) +
        (0.25 * (re / 1e6)) / (1 + re / 1e6);
      expect(Math.abs(sphereDrag(re) / printed - 1)).toBeLessThan(1e-9);
    },
  );

  // The standard drag curve, read off Clift, Grace and Weber, Bubbles, Drops and Particles (1978) (from memory).
  it.each([
    [1, 27.2, 0.12],
    [10, 4.26, 0.12],
    [100, 1.09, 0.1],
    [1e3, 0.47, 0.1],
    [1e4, 0.41, 0.1],
    [1e5, 0.5, 0.2],
  ])("lies near the standard curve at Re %d", (re, measured, within) => {
    expect(Math.abs(sphereDrag(re) / measured - 1)).toBeLessThan(within);
  });

  it("falls to 0.09 at the drag crisis, where a 0.2 m ball flies at 50 m/s", () => {
    expect(sphereDrag(5e5)).toBeLessThan(0.095);
    expect(sphereDrag((50 * 0.2) / 1.46e-5)).toBeCloseTo(0.11, 2);
  });

  // A ball of the density of water: with the mass of 4.2 kg a third; a heavier one of the same size gains less.
  it("lets a 0.2 m ball at 50 m/s outfly a constant 0.47 by about a third", () => {
    const ball = { mass: 4.19, diameter: 0.2, shape: "smooth-sphere" as const };
    const gain =
      thrown(50, 45, 0, ball).distance / thrown(50, 45, 0, { ...ball, drag: constant(0.47) }).distance;
    expect(gain).toBeGreaterThan(1.25);
    expect(gain).toBeLessThan(1.4);
    const heavy = { ...ball, mass: 7.26 };
    const less =
      thrown(50, 45, 0, heavy).distance / thrown(50, 45, 0, { ...heavy, drag: constant(0.47) }).distance;
    expect(less).toBeGreaterThan(1.1);
    expect(less).toBeLessThan(gain);
  });
});
