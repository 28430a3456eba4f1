/**
 * Dispersion by seeded draws against first-order propagation.
 * Sources: JCGM 100:2008, 4.3.7 (limits ±a are a standard uncertainty a/√3) and 5.1.2 (propagation); JCGM 101:2008, 8
 * (the draws validate the first order where a model is nearly linear). The throw is the airless one from a height.
 */
import { expect, test } from "vitest";
import { dispersionChunk, dispersionRequestSchema, summarise } from "@/lib/throw";

const GRAVITY = 9.80665;
const machine = { kind: "measured", releaseSpeed: 30, launchAngle: 35, launchHeight: 4 };

/** Closed form, angle in degrees. */
function distance(speed: number, angle: number, height: number): number {
  const up = speed * Math.sin((angle * Math.PI) / 180);
  const level = speed * Math.cos((angle * Math.PI) / 180);
  return (level * (up + Math.sqrt(up * up + 2 * GRAVITY * height))) / GRAVITY;
}

test("standard deviations of distance and drift are those of the first order", () => {
  const tolerances = { releaseSpeed: 0.6, launchAngle: 1.5, launchHeight: 0.3, mass: 0, diameter: 0 };
  const aim = 2;
  const asked = dispersionRequestSchema.parse({
    request: { machine, projectile: { mass: 3, diameter: 0.2 }, tolerances, air: { pressure: 0 } },
    draws: 6000,
    seed: 3,
    aim,
    crossings: [{ beyond: distance(30, 35, 4) }],
  });
  const answer = summarise(dispersionChunk(asked.request, asked, 0, asked.draws), asked);
  const at = distance(30, 35, 4);
  const slopes = [
    (distance(30.01, 35, 4) - distance(29.99, 35, 4)) / 0.02,
    (distance(30, 35.01, 4) - distance(30, 34.99, 4)) / 0.02,
    (distance(30, 35, 4.01) - distance(30, 35, 3.99)) / 0.02,
  ];
  const limits = [tolerances.releaseSpeed, tolerances.launchAngle, tolerances.launchHeight];
  const ahead = Math.hypot(...slopes.map((slope, i) => (slope * limits[i]) / Math.sqrt(3)));
  const aside = (at * aim * Math.PI) / 180 / Math.sqrt(3);
  const spread = answer.spread as NonNullable<typeof answer.spread>;
  // A standard deviation of n draws has itself a standard error of at most 1/√(2n), here 1 %: three of them.
  expect(spread.standardDeviation.distance / ahead).toBeGreaterThan(0.97);
  expect(spread.standardDeviation.distance / ahead).toBeLessThan(1.03);
  expect(spread.standardDeviation.drift / aside).toBeGreaterThan(0.97);
  expect(spread.standardDeviation.drift / aside).toBeLessThan(1.03);
  const { value, standardError } = spread.mean.drift;
  expect(Math.abs(value)).toBeLessThan(4 * standardError);
  expect(spread.ellipse.semiMajor / spread.ellipse.semiMinor).toBeGreaterThan(1);
  // Half of nearly symmetric throws go beyond the declared one.
  const [half] = answer.crossings;
  expect(Math.abs(half.chance - 0.5)).toBeLessThan(0.02 + 3 * half.standardError);
});

test("the stated standard errors are those seen between seeds", () => {
  const chances: number[] = [];
  let stated = 0;
  for (let seed = 0; seed < 60; seed++) {
    const asked = dispersionRequestSchema.parse({
      request: { machine, projectile: { mass: 3, diameter: 0.2 }, air: { pressure: 0 } },
      draws: 200,
      seed,
      crossings: [{ beyond: 98 }],
    });
    const { crossings } = summarise(dispersionChunk(asked.request, asked, 0, asked.draws), asked);
    chances.push(crossings[0].chance);
    stated += crossings[0].standardError / 60;
  }
  const mean = chances.reduce((sum, each) => sum + each, 0) / 60;
  const seen = Math.sqrt(chances.reduce((sum, each) => sum + (each - mean) ** 2, 0) / 59);
  expect(mean).toBeGreaterThan(0.05);
  expect(mean).toBeLessThan(0.95);
  // 60 seeds know it to 9 %: three of those.
  expect(Math.abs(seen / stated - 1)).toBeLessThan(0.28);
});
