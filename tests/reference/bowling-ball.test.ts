/**
 * Source: USBC equipment specifications (from memory): a bowling ball has 8.500 to 8.595 in and 16 lb at most.
 * Past the drag crisis a smooth ball of that size outflies what a constant 0.47 says (Morrison's curve).
 */
import { describe, expect, it } from "vitest";
import { hazardRequestSchema, preview } from "@/lib/throw";
import { constant, thrown } from "./independent/thrown";

const INCH = 0.0254;
const POUND = 0.45359237;

describe("a smooth ball past the drag crisis", () => {
  const gainOf = (mass: number, diameter: number) => {
    const ball = { mass, diameter, shape: "smooth-sphere" as const };
    return thrown(50, 45, 0, ball).distance / thrown(50, 45, 0, { ...ball, drag: constant(0.47) }).distance;
  };

  it("outflies a constant 0.47: the lighter the ball of one size, the more", () => {
    // A ball of water's density by about a third.
    const light = gainOf(4.19, 0.2);
    expect(light).toBeGreaterThan(1.25);
    expect(light).toBeLessThan(1.4);
    for (const inches of [8.5, 8.595]) {
      const heaviest = gainOf(16 * POUND, inches * INCH);
      expect(heaviest).toBeGreaterThan(1.1);
      expect(heaviest).toBeLessThan(light);
      expect(gainOf(8 * POUND, inches * INCH)).toBeGreaterThan(heaviest);
    }
  });

  it("is flown at no more than 0.09 in the worst case", () => {
    const ball = { mass: 16 * POUND, diameter: 8.5 * INCH, shape: "smooth-sphere" as const, lift: 0 };
    const exact = { releaseSpeed: 0, launchAngle: 0, launchHeight: 0, mass: 0, diameter: 0 };
    const farthest = (projectile: object) =>
      preview(
        hazardRequestSchema.parse({
          machine: { kind: "measured", releaseSpeed: 50, launchAngle: 45, launchHeight: 0 },
          projectile,
          tolerances: exact,
        }),
      ).worst.forward.distance;
    expect(farthest(ball)).toBeGreaterThanOrEqual(farthest({ ...ball, drag: constant(0.09) }));
  });
});
