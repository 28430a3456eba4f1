/** The plane below the ground, on random grounds: never above a height or the ground between heights, nor lower than it must. */
import fc from "fast-check";
import { expect, test } from "vitest";
import { type GroundPoint, groundDirect, localPlane, planeBelow } from "@/lib/earth";
import { heightOn, highestPlane, lowered, type Plane } from "@/lib/earth/highest-plane";

const ORIGIN = { latitude: 51.3, longitude: -1.9, height: 120 };
/** What rounding to a centimetre and a hundredth of a degree may hide, m. */
const HAIR = 2e-6;

const zoneShape = fc
  .record({
    forward: fc.double({ min: 5, max: 900, noNaN: true }),
    backward: fc.double({ min: 5, max: 900, noNaN: true }),
    side: fc.double({ min: 5, max: 400, noNaN: true }),
    bearing: fc.double({ min: 0, max: 359.9, noNaN: true }),
  })
  .map(({ forward, backward, side, bearing }) => ({
    bearing,
    reach: Array.from({ length: 360 }, (_, degree) =>
      Math.max(side, degree < 15 || degree > 345 ? forward : 0, Math.abs(degree - 180) < 20 ? backward : 0),
    ),
  }));

const heights = fc
  .array(
    fc.record({
      bearing: fc.double({ min: 0, max: 360, noNaN: true }),
      distance: fc.double({ min: 0, max: 1200, noNaN: true }),
      up: fc.double({ min: -40, max: 40, noNaN: true }),
    }),
    { maxLength: 25 },
  )
  .map((points): GroundPoint[] => [
    ORIGIN,
    ...points.map(({ bearing, distance, up }) => ({
      ...groundDirect(ORIGIN, bearing, distance, ORIGIN.height),
      height: ORIGIN.height + up,
    })),
  ]);

/** Where a point lies from the origin: ahead, to the right, and the plane's height there. */
function seen(point: GroundPoint, bearing: number, plane: ReturnType<typeof planeBelow>) {
  const { east, north } = localPlane(ORIGIN, ORIGIN.height).toPlane(point);
  const turn = (bearing * Math.PI) / 180;
  const ahead = east * Math.sin(turn) + north * Math.cos(turn);
  const right = east * Math.cos(turn) - north * Math.sin(turn);
  const tan = (degrees: number) => Math.tan((degrees * Math.PI) / 180);
  const height = ORIGIN.height - plane.below - tan(plane.slope) * ahead - tan(plane.crossSlope) * right;
  const azimuth = ((Math.atan2(right, ahead) * 180) / Math.PI + 360) % 360;
  return { height, azimuth, distance: Math.hypot(ahead, right) };
}

test("no measured height within the zone lies below the plane, and beyond the heights the lowest counts", () => {
  fc.assert(
    fc.property(heights, zoneShape, fc.nat(359), (points, { bearing, reach }, degree) => {
      const plane = planeBelow(points, { origin: ORIGIN, bearing, reach });
      expect(plane.below).toBeGreaterThanOrEqual(0);
      for (const point of points) {
        const { height, azimuth, distance } = seen(point, bearing, plane);
        const limit = reach[Math.round(azimuth) % 360] as number;
        if (distance <= limit) expect(height).toBeLessThanOrEqual(point.height + HAIR);
      }
      // The zone's own edge, out of the hull of the heights or inside it: never above the highest, and the lowest if out.
      const edge = groundDirect(ORIGIN, bearing + degree, reach[degree] as number, ORIGIN.height);
      const most = Math.max(...points.map(({ height }) => height));
      const far = points.every((point) => localPlane(ORIGIN, ORIGIN.height).toPlane(point).north < 0);
      const { height } = seen({ ...edge, height: 0 }, bearing, plane);
      expect(height).toBeLessThanOrEqual(most + HAIR);
      if (far && localPlane(ORIGIN).toPlane(edge).north > 0)
        expect(height).toBeLessThanOrEqual(plane.lowest + HAIR);
    }),
    { numRuns: 300 },
  );
});

test("ground between three heights counts as flat, and the plane stays below it", () => {
  fc.assert(
    fc.property(
      fc.array(fc.double({ min: -30, max: 30, noNaN: true }), { minLength: 3, maxLength: 3 }),
      zoneShape,
      fc.double({ min: 0, max: 1, noNaN: true }),
      fc.double({ min: 0, max: 1, noNaN: true }),
      (ups, { bearing, reach }, s, t) => {
        const corner = (index: number) => ({
          ...groundDirect(ORIGIN, 120 * index, 2500, ORIGIN.height),
          height: ORIGIN.height + (ups[index] as number),
        });
        const corners = [corner(0), corner(1), corner(2)] as const;
        const plane = planeBelow(corners, { origin: ORIGIN, bearing, reach });
        expect(plane.beyond).toBe(false);
        // A point of the triangle, within the zone.
        const local = localPlane(ORIGIN, ORIGIN.height);
        const flat = corners.map((each) => ({ ...local.toPlane(each), height: each.height }));
        const degree = Math.floor(s * 360) % 360;
        const out = t * (reach[degree] as number);
        const at = local.toPlane(groundDirect(ORIGIN, bearing + degree, out, ORIGIN.height));
        const ground = heightIn(flat, at);
        const { height } = seen({ ...local.toPoint(at), height: 0 }, bearing, plane);
        expect(height).toBeLessThanOrEqual(ground + 1e-4);
      },
    ),
    { numRuns: 200 },
  );
});

test("no other plane within the limits that stays below the supports is worth more", () => {
  const metres = (most: number) => fc.double({ min: -most, max: most, noNaN: true });
  const support = fc.record({ x: metres(500), z: metres(500), height: metres(30) });
  const limits = { level: 0, ahead: [-1, 0.5], aside: 0.5 } as const;
  const worth = ({ level, ahead, aside }: Plane, aim: { x: number; z: number }) =>
    level + ahead * aim.x - Math.abs(aside) * aim.z;
  fc.assert(
    fc.property(
      fc.array(support, { minLength: 1, maxLength: 40 }),
      fc.record({ x: metres(300), z: fc.double({ min: 0, max: 300, noNaN: true }) }),
      fc.double({ min: -1, max: 0.5, noNaN: true }),
      metres(0.5),
      (supports, aim, ahead, aside) => {
        const best = highestPlane(supports, aim, limits);
        for (const { x, z, height } of supports)
          expect(heightOn(best, x, z)).toBeLessThanOrEqual(height + 1e-6);
        const other = lowered({ level: 0, ahead, aside }, supports, limits);
        expect(worth(best, aim)).toBeGreaterThanOrEqual(worth(other, aim) - 1e-5);
      },
    ),
    { numRuns: 500 },
  );
});

/** Height on the plane through three points. */
function heightIn(
  [a, b, c]: readonly { east: number; north: number; height: number }[],
  at: { east: number; north: number },
): number {
  if (!a || !b || !c) throw new Error("Three corners are needed.");
  const twice = (b.east - a.east) * (c.north - a.north) - (b.north - a.north) * (c.east - a.east);
  const u = ((at.east - a.east) * (c.north - a.north) - (at.north - a.north) * (c.east - a.east)) / twice;
  const v = ((b.east - a.east) * (at.north - a.north) - (b.north - a.north) * (at.east - a.east)) / twice;
  return a.height + u * (b.height - a.height) + v * (c.height - a.height);
}
