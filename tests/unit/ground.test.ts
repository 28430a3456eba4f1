/** The plane below a measured ground: slopes that are there, hollows, what nobody measured, and what bounds it. */
import { describe, expect, test } from "vitest";
import { type GroundPoint, groundDirect, levelBelow, planeBelow } from "@/lib/earth";
import { highestPlane } from "@/lib/earth/highest-plane";

const ORIGIN = { latitude: 44.2, longitude: -31.6, height: 50 };
const round = (reach: number) => Array.from({ length: 360 }, () => reach);

/** A height of the ground so far ahead and to the right on a bearing of 90°. */
function spot(ahead: number, right: number, up: number): GroundPoint {
  const bearing = 90 + (Math.atan2(right, ahead) * 180) / Math.PI;
  return { ...groundDirect(ORIGIN, bearing, Math.hypot(ahead, right), 50), height: 50 + up };
}

/** A grid of heights on all sides to 500 m. */
const grid = (up: (ahead: number, right: number) => number) =>
  [-500, -250, 0, 250, 500].flatMap((ahead) =>
    [-500, -250, 0, 250, 500].map((right) => spot(ahead, right, up(ahead, right))),
  );
const at = (points: GroundPoint[], reach = round(300), accuracy = 0) =>
  planeBelow([ORIGIN, ...points], { origin: ORIGIN, bearing: 90, reach, accuracy });

describe("where heights surround the zone", () => {
  test("level ground is level", () => {
    expect(at(grid(() => 0))).toEqual({ below: 0, slope: 0, crossSlope: 0, beyond: false, lowest: 50 });
  });

  test("ground that falls away downrange gives its slope, to a hundredth of a degree", () => {
    const { below, slope, crossSlope } = at(grid((ahead) => -0.05 * ahead));
    expect(slope).toBeCloseTo(2.86, 9);
    expect(crossSlope).toBe(0);
    expect(below).toBeLessThan(0.1);
  });

  test("ground that rises downrange may shorten a throw, and that behind lies lower", () => {
    expect(at(grid((ahead) => 0.05 * ahead)).slope).toBeCloseTo(-2.86, 9);
  });

  test("ground that falls to a side falls to that side, or lies lower as a whole where that costs less", () => {
    const fallsRight = at(grid((_, right) => -0.05 * right));
    // A fall to one side counts to both, so a level plane below all of it is as good.
    expect(fallsRight.below + 300 * Math.tan((fallsRight.crossSlope * Math.PI) / 180)).toBeGreaterThan(14.9);
  });

  test("a ridge gets a level plane at what lies lowest in the zone", () => {
    const { below, slope } = at(
      grid((ahead) => -0.04 * Math.abs(ahead)),
      round(250),
    );
    expect(slope).toBe(0);
    expect(below).toBeGreaterThanOrEqual(10);
    expect(below).toBeLessThan(10.6);
  });

  test("one hollow in the zone lowers the plane, one outside does not", () => {
    const level = grid(() => 0);
    const hollow = (ahead: number) => at([...level, spot(ahead, 0, -3)], round(240));
    const { below, slope } = hollow(150);
    expect(below + 150 * Math.tan((slope * Math.PI) / 180)).toBeGreaterThanOrEqual(3);
    expect(hollow(495)).toMatchObject({ below: 0, slope: 0 });
  });

  test("a machine that may stand higher up the slope stands higher above the plane", () => {
    const falling = grid((ahead) => -0.1 * ahead);
    const exact = at(falling);
    const vague = at(falling, round(300), 10);
    expect(vague.below).toBeGreaterThan(exact.below + 1.9);
  });
});

test("a machine stands no lower than the ground around it: one moved up a slope keeps no height of below", () => {
  const hill = grid((ahead, right) => 20 - 0.04 * Math.hypot(ahead, right));
  const uphill = hill.filter((point) => point.height < 70);
  expect(at(uphill).below).toBeGreaterThan(at(grid(() => 0)).below + 4);
  expect(levelBelow([ORIGIN, ...uphill], { origin: ORIGIN, bearing: 90 }).below).toBeGreaterThan(18);
});

describe("where nobody measured", () => {
  test("the lowest height counts, not the slope going on upwards", () => {
    const near = [spot(100, -100, 10), spot(100, 100, 10), spot(-100, -100, -10), spot(-100, 100, -10)];
    const plane = at(near, round(400));
    expect(plane.beyond).toBe(true);
    expect(plane.lowest).toBe(40);
    const ahead = -plane.below - 400 * Math.tan((plane.slope * Math.PI) / 180);
    expect(ahead).toBeLessThanOrEqual(-10);
  });

  test("two heights, or some in a line, have no ground between them: all is as low as the lowest", () => {
    for (const points of [[spot(200, 0, -4)], [spot(100, 0, -2), spot(200, 0, -4)]]) {
      expect(at(points)).toMatchObject({ below: 4, slope: 0, crossSlope: 0, beyond: true });
    }
  });
});

test("the level plane at the lowest height holds however far a throw goes", () => {
  expect(levelBelow([ORIGIN, spot(900, 0, -7)], { origin: ORIGIN, bearing: 0 })).toMatchObject({
    below: 7,
    slope: 0,
  });
});

test("of two heights at one place the lower counts", () => {
  expect(at([...grid(() => 0), spot(100, 20, 0), spot(100, 20, -2)]).below).toBeGreaterThan(0.5);
});

test("a plane under three supports rests on all three where the aim lies among them", () => {
  const supports = [
    { x: 0, z: 0, height: -1 },
    { x: 100, z: -100, height: -5 },
    { x: 100, z: 100, height: -5 },
  ];
  const limits = { level: 0, ahead: [-1, 1], aside: 1 } as const;
  const { level, ahead, aside } = highestPlane(supports, { x: 60, z: 20 }, limits);
  expect([level, ahead, aside]).toEqual([-1, -0.04, 0].map((value) => expect.closeTo(value, 9)));
});

test("without heights there is no ground", () => {
  expect(() => planeBelow([], { origin: ORIGIN, bearing: 0, reach: round(10) })).toThrow(/heights/);
  expect(() => planeBelow([ORIGIN], { origin: ORIGIN, bearing: 0, reach: [1] })).toThrow(/360/);
});
