/**
 * Chance contours against the closed form: of a normal distribution in the plane the share exp(−r²/2) lies beyond r
 * standard deviations (Rayleigh), so the contour of a share has the radius √(−2 ln(1 − share)).
 */
import { expect, it } from "vitest";
import { groundInverse } from "@/lib/earth";
import { chanceContours, landingSpread } from "@/lib/zones";

const STAND = { latitude: 47, longitude: 12, height: 400 };
const corners = (share: number, covariance: [number, number, number]) => {
  const [contour] = chanceContours(STAND, 30, { mean: [200, 15], covariance }, [share]);
  return (contour?.geometry.coordinates[0] ?? []).map(([longitude, latitude]) => {
    const { distance, bearing } = groundInverse(
      STAND,
      { longitude: longitude as number, latitude: latitude as number },
      STAND.height,
    );
    const angle = ((bearing - 30) * Math.PI) / 180;
    return [distance * Math.cos(angle) - 200, distance * Math.sin(angle) - 15] as const;
  });
};

it("a round spread has round contours of the closed form's radius", () => {
  for (const share of [0.5, 0.9, 0.99])
    for (const [x, z] of corners(share, [16, 0, 16]))
      expect(Math.hypot(x, z)).toBeCloseTo(4 * Math.sqrt(-2 * Math.log(1 - share)), 3);
});

it("a slanting one keeps every corner at the same number of standard deviations", () => {
  const [xx, xz, zz] = [90, 30, 20] as const;
  const determinant = xx * zz - xz * xz;
  for (const [x, z] of corners(0.9, [xx, xz, zz])) {
    const squared = (zz * x * x - 2 * xz * x * z + xx * z * z) / determinant;
    expect(squared).toBeCloseTo(-2 * Math.log(0.1), 3);
  }
});

it("weights count a landing as often as they say", () => {
  const twice = landingSpread([
    [100, 0],
    [100, 0],
    [130, 6],
  ]);
  expect(
    landingSpread(
      [
        [100, 0],
        [130, 6],
      ],
      [2, 1],
    ),
  ).toEqual(twice);
  expect(twice.mean).toEqual([110, 2]);
  expect(() => landingSpread([])).toThrow(RangeError);
});
