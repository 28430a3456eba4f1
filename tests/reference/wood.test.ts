/**
 * Source: USDA Forest Products Laboratory, Wood Handbook, mechanical properties of clear straight-grained wood, mean
 * modulus of rupture at 12 % moisture and green (from memory). Grades: ASTM D245 (from memory).
 */
import { describe, expect, test } from "vitest";
import {
  armStrength,
  clearWoodStrength,
  FIFTH_PERCENTILE,
  GRADE_RATIO,
  WOODS,
} from "@/lib/throw/loads/materials";

const HANDBOOK = [
  ["white-oak", 105, 57],
  ["white-ash", 103, 66],
  ["shagbark-hickory", 139, 76],
  ["douglas-fir", 85, 53],
  ["longleaf-pine", 100, 59],
] as const;

describe("clear wood", () => {
  test.each(HANDBOOK)("%s: %d MPa dry, %d MPa green", (species, dry, green) => {
    expect(clearWoodStrength(species, 12)).toBeCloseTo(dry * 1e6, 0);
    expect(clearWoodStrength(species, 30)).toBeCloseTo(green * 1e6, 0);
    // The two meet at the intersection moisture, and damp wood lies between.
    const { fibreSaturation } = WOODS[species];
    expect(clearWoodStrength(species, fibreSaturation - 1e-9)).toBeCloseTo(green * 1e6, 0);
    expect(clearWoodStrength(species, 17)).toBeLessThan(dry * 1e6);
    expect(clearWoodStrength(species, 17)).toBeGreaterThan(green * 1e6);
  });

  test("drier than 12 % gains nothing", () => {
    expect(clearWoodStrength("white-oak", 8)).toBe(clearWoodStrength("white-oak", 12));
  });
});

test("graded timber is never taken for clear wood", () => {
  for (const [wood, dry] of HANDBOOK) {
    const construction = armStrength({ wood, grade: "no-2", moisture: 19 });
    expect(construction.strength).toBeLessThan(0.35 * dry * 1e6);
    expect(construction.strength).toBeGreaterThan(0.1 * dry * 1e6);
  }
  const ratios = Object.values(GRADE_RATIO);
  expect([...ratios].sort((a, b) => b - a)).toEqual(ratios);
});

test("the fifth percentile of a coefficient of variation of 16 %", () => {
  expect(FIFTH_PERCENTILE).toBeCloseTo(0.737, 3);
  const { strength } = armStrength({ wood: "white-ash", grade: "clear", moisture: 12 });
  expect(strength).toBeCloseTo(103e6 * 0.7368, -4);
});

test("a declared modulus of rupture is taken as it is", () => {
  expect(armStrength({ modulusOfRupture: 250e6 }).strength).toBe(250e6);
});
