/**
 * Source: the wind's power law with exponent 1/7 over open ground (common practice, no source); lift and drag by
 * their definitions, square to and along the air's motion. The engine against plain fixed steps of the same
 * definitions, and against every launch angle in turn.
 */
import { describe, expect, it } from "vitest";
import { hazardRequestSchema, preview } from "@/lib/throw";
import { constant, DENSITY, G, STANDARD, thrown } from "./independent/thrown";

describe("wind and lift", () => {
  const load = { mass: 2.2, diameter: 0.19 };
  const area = (Math.PI / 4) * load.diameter ** 2;

  /** Impact of a throw at these components of speed; the lift turns the path upwards when positive. */
  function fly(vx: number, vy: number, height: number, drag: number, lift: number, wind: number) {
    let [x, y, u, v] = [0, height, vx, vy];
    const h = 2e-3;
    const rate = (yy: number, uu: number, vv: number) => {
      const w = wind * (Math.max(0, yy) / 10) ** (1 / 7);
      const speed = Math.hypot(uu - w, vv);
      const f = (DENSITY * area * speed) / 2 / load.mass;
      return [-f * (drag * (uu - w) + lift * vv), -G - f * (drag * vv - lift * (uu - w))];
    };
    for (;;) {
      const [a, b] = rate(y, u, v);
      const [c, d] = rate(y + (h / 2) * v, u + (h / 2) * a, v + (h / 2) * b);
      const nextY = y + h * (v + (h / 2) * b);
      const nextX = x + h * (u + (h / 2) * a);
      if (nextY <= 0 && v < 0) return x + ((nextX - x) * y) / (y - nextY);
      [x, y, u, v] = [nextX, nextY, u + h * c, v + h * d];
    }
  }
  const best = (speed: number, height: number, drag: number, lift: number, wind: number) => {
    let farthest = 0;
    for (let angle = -10; angle <= 190; angle += 0.5) {
      const [vx, vy] = [speed * Math.cos((angle * Math.PI) / 180), speed * Math.sin((angle * Math.PI) / 180)];
      for (const sign of [1, -1]) farthest = Math.max(farthest, fly(vx, vy, height, drag, sign * lift, wind));
    }
    return farthest;
  };

  it.each([
    [0, 8],
    [180, -8],
  ])("carries the throw as meant, blowing towards %d°", (direction, along) => {
    const wind = { speed: 8, direction };
    const air = { ...STANDARD, wind };
    const nominal = thrown(35, 45, 3, { ...load, drag: constant(0.4) }, air);
    const [vx, vy] = [35 * Math.SQRT1_2, 35 * Math.SQRT1_2];
    // The power law does not hold in the grass: what a model takes there moves the landing by centimetres.
    expect(Math.abs(nominal.distance - fly(vx, vy, 3, 0.4, 0, along))).toBeLessThan(0.05);
  });

  it("takes the worst launch angle, lift of either sign and the gust behind, with the low drag", () => {
    const request = hazardRequestSchema.parse({
      machine: { kind: "measured", releaseSpeed: 35, launchAngle: 45, launchHeight: 3 },
      projectile: { ...load, drag: { nominal: 0.4, low: 0.2, high: 0.5 }, lift: 0.12 },
      // Without a tolerance of the launch angle it may leave in any direction.
      tolerances: { releaseSpeed: 0, launchHeight: 0, mass: 0, diameter: 0 },
      air: { ...STANDARD, wind: { speed: 5, gust: 9, direction: 140 } },
    });
    const { worst } = preview(request);
    const farthest = best(35, 3, 0.2, 0.12, 9);
    // The worst throw may lie between two of the angles tried, and in a plane of lift that this does not try.
    expect(worst.forward.distance).toBeGreaterThan(farthest - 0.05);
    expect(worst.forward.distance).toBeLessThan(farthest * 1.01);
    expect(worst.backward.distance).toBeGreaterThan(farthest - 0.05);
    expect(worst.backward.distance).toBeLessThan(farthest * 1.01);
  });
});
