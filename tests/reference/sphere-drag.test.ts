/**
 * Source: F. A. Morrison, An Introduction to Fluid Mechanics (2013), data correlation for the drag of a sphere.
 * The standard drag curve: Clift, Grace and Weber, Bubbles, Drops and Particles (1978), read off (from memory).
 */
import { describe, expect, it } from "vitest";
import { sphereDrag } from "@/lib/throw/flight/projectile";

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
});
