/**
 * Flight against closed forms of mechanics: ranges without air to level and falling ground, vertical motion with
 * quadratic drag.
 */
import { describe, expect, it } from "vitest";
import { constant, DENSITY, G, thrown } from "./independent/thrown";

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

/** Mechanics: the same to a plane that passes `below` under the firing point and falls by `slope` downrange. */
describe("the range without air to ground that falls away", () => {
  it.each([
    [30, 45, 2, 0, 12],
    [30, 45, 2, 6, 0],
    [28, 35, 3, 4, 20],
    [28, 120, 3, 0, -15],
    [20, -10, 5, 10, 5],
  ])("at %d m/s, %d°, from %d m, %d m below, falling by %d°", (speed, angle, height, below, slope) => {
    const load = { mass: 3, diameter: 0.2 };
    const nominal = thrown(speed, angle, height, load, { pressure: 0 }, { below, slope });
    const [vx, vy] = [Math.cos, Math.sin].map((of) => speed * of((angle * Math.PI) / 180));
    const climb = vy + vx * Math.tan((slope * Math.PI) / 180);
    const time = (climb + Math.sqrt(climb * climb + 2 * G * (height + below))) / G;
    expect(Math.abs(nominal.flightTime - time)).toBeLessThan(1e-5);
    expect(Math.abs(nominal.distance - vx * time)).toBeLessThan(1e-3);
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
