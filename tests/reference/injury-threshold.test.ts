/**
 * Source: RCC 321, Common Risk Criteria for National Test Ranges, and 14 CFR 417 (from memory): 11 ft·lbf, 15 J, of
 * kinetic energy at impact hurt a person. Foot and pound-force: NIST SP 811.
 */
import { expect, it } from "vitest";
import { hazardRequestSchema, hazardSheet } from "@/lib/throw";

const FOOT_POUND = 0.3048 * 4.4482216152605;
const exact = { releaseSpeed: 0, launchAngle: 0, launchHeight: 0, mass: 0, diameter: 0 };

const sheetOf = (energy: number) => {
  // Without air a level throw from the ground keeps its energy: ½ m v².
  const mass = 0.2;
  const machine = {
    kind: "measured",
    releaseSpeed: Math.sqrt((2 * energy) / mass),
    launchAngle: 45,
    launchHeight: 0,
  };
  return hazardSheet(
    hazardRequestSchema.parse({
      machine,
      projectile: { mass, diameter: 0.1, lift: 0 },
      tolerances: exact,
      air: { pressure: 0 },
    }),
  );
};

it("is 11 ft·lbf to the joule, and marks what lies above it", () => {
  const { impact } = sheetOf(20);
  expect(Math.abs(impact.threshold - 11 * FOOT_POUND)).toBeLessThan(0.1);
  expect(impact.energy).toBeCloseTo(20, 3);
  expect(impact.exceeds).toBe(true);
  expect(sheetOf(14).impact.exceeds).toBe(false);
});
