/** What a barrier takes out of the zone: what flies lower than it with all margins, and nothing else. */
import { describe, expect, it } from "vitest";
import { hazardRequestSchema, hazardSheet } from "@/lib/throw";

const EXACT = { releaseSpeed: 0, launchAngle: 0, launchHeight: 0, mass: 0, diameter: 0 };
const ANGLES = { aim: 5, lean: 3, tornSling: 20, debris: 45 };
const G = 9.80665;

/** A measured machine without air, so that its path is a parabola. */
function reachOf(
  { speed = 25, angle = 12, height = 2 }: { speed?: number; angle?: number; height?: number },
  barriers: object[],
  angles: object = ANGLES,
) {
  const request = hazardRequestSchema.parse({
    machine: { kind: "measured", releaseSpeed: speed, launchAngle: angle, launchHeight: height },
    projectile: { mass: 4, diameter: 0.2, lift: 0 },
    tolerances: EXACT,
    air: { pressure: 0 },
    policy: { angles, minimum: { forward: 1, backward: 1, side: 1 } },
    barriers,
  });
  return hazardSheet(request).exclusion;
}

/** Right across the bearing, from left to right. */
const wall = (at: number, height: number, half = 200) => ({
  height,
  line: [
    { downrange: at, aside: -half },
    { downrange: at, aside: half },
  ],
});

describe("a barrier", () => {
  it("ends the zone where nothing passes over it, and says so", () => {
    const { reach, forward, causes } = reachOf({}, [wall(40, 15)]);
    expect(forward).toBeCloseTo(40, 0);
    expect(forward).toBeGreaterThanOrEqual(40);
    expect(causes?.forward.by).toBe("barrier");
    for (let degree = 0; degree < 60; degree++) {
      const at = 40 / Math.cos((degree * Math.PI) / 180);
      expect(reach[degree]).toBeLessThan(1.06 * at + 0.5);
    }
  });

  it("counts only what flies lower than it with the margin on path and height, by the parabola", () => {
    const angles = { aim: 0, lean: 0, tornSling: 0, debris: 0 };
    const [speed, angle, height] = [25, 30, 2];
    const open = reachOf({ speed, angle, height }, [], angles).forward;
    const slope = Math.tan((angle * Math.PI) / 180);
    const level = speed * Math.cos((angle * Math.PI) / 180);
    const heightAt = (x: number) => height + slope * x - (G * x * x) / (2 * level * level);
    const margin = 1.2 * 1.005;
    for (let at = 6; at < open - 6; at += 4) {
      const near = at / margin;
      const passes = margin * heightAt(near);
      // Behind the stretched impact only the bounce counts: a quarter of the fall on firm ground.
      const fall = Math.sqrt((speed * Math.sin((angle * Math.PI) / 180)) ** 2 + 2 * G * height);
      const needed = (passes > 0 ? passes : (margin * (0.25 * fall) ** 2) / (2 * G)) + 0.5;
      expect(
        reachOf({ speed, angle, height }, [wall(at, needed + 0.6)], angles).forward,
        `at ${at}`,
      ).toBeCloseTo(at, 0);
      if (needed - 0.3 < 0.5) continue;
      expect(reachOf({ speed, angle, height }, [wall(at, needed - 0.3)], angles).forward).toBe(open);
    }
  });

  it("never widens the zone, and shades nothing beside its ends or behind the machine", () => {
    const open = reachOf({}, []).reach;
    const narrow = reachOf({}, [wall(40, 15, 6)]).reach;
    const end = (Math.atan2(6, 40) * 180) / Math.PI;
    for (let degree = 0; degree < 360; degree++) {
      const off = Math.min(degree, 360 - degree);
      expect(narrow[degree]).toBeLessThanOrEqual(open[degree]);
      if (off > end - 1) expect(narrow[degree], `at ${degree}°`).toBe(open[degree]);
    }
    expect(narrow[0]).toBeLessThan(41);
    expect(reachOf({}, [wall(-10, 20)]).reach).toEqual(open);
  });

  it("ends no zone that a machine a little elsewhere would throw beyond, however steeply", () => {
    const accuracy = 5;
    const steep = { speed: 30, angle: 72, height: 1 };
    for (let at = 20; at < 100; at += 2) {
      const { forward } = reachOf(steep, [{ ...wall(at, 9), accuracy }]);
      for (const stand of [-5, -2.5, 0, 2.5, 5]) {
        const there = reachOf(steep, [wall(at - stand, 9)]).forward;
        expect(forward + accuracy, `wall at ${at}, machine ${stand} m ahead`).toBeGreaterThanOrEqual(
          there + stand - 0.05,
        );
      }
    }
    expect(reachOf({}, [{ ...wall(40, 15), accuracy }]).forward).toBeLessThan(42);
  });

  it("stops no throw that starts behind it, and no thrown piece of the machine", () => {
    const request = (barriers: object[]) =>
      hazardRequestSchema.parse({
        machine: {
          kind: "tension",
          draw: [
            { length: 0, force: 0 },
            { length: 1, force: 4000 },
          ],
          movingMass: 2,
          launchAngle: 3,
          launchHeight: 1.5,
        },
        projectile: { mass: 1, diameter: 0.1, lift: 0 },
        barriers,
      });
    const { exclusion, faults } = hazardSheet(request([wall(30, 12), wall(-0.3, 12)]));
    const pieces = Math.max(...(faults ?? []).map(({ reach }) => reach.forward));
    expect(exclusion.forward).toBeGreaterThanOrEqual(1.2 * pieces);
    expect(exclusion.causes?.forward.by).toBe("piece");
  });
});
