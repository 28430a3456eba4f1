import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { groundDirect, groundDistance, localPlane } from "@/lib/earth";
import { conflicts, featureGeometrySchema, reachPolygon, type ZoneFeature } from "@/lib/zones";
import { between } from "./numbers";

// The same cases every time; new ones in the long run (npm run test:deep).
if (!process.env.FAIRTHROW_TEST_DEEP) fc.configureGlobal({ seed: 20261125 });

type Point = [number, number];

const origin = fc.record({
  latitude: between(-70, 70),
  longitude: between(-180, 180),
});
const bearing = between(0, 359.999);
const height = between(-100, 3000);
/** Runs of equal reach, so that it steps, as sheets do, from nothing to a kilometre. */
const reach = fc
  .array(fc.tuple(fc.integer({ min: 1, max: 90 }), fc.oneof(fc.constant(0), between(5, 1000))), {
    minLength: 1,
    maxLength: 40,
  })
  .map((runs) => {
    const degrees = runs.flatMap(([count, radius]) => new Array<number>(count).fill(radius));
    return Array.from({ length: 360 }, (_, degree) => degrees[degree % degrees.length] as number);
  });

/** Even-odd rule straight on longitude and latitude, as anyone who reads the polygon would apply it. */
function inRing([x, y]: Point, ring: readonly number[][]): boolean {
  let inside = false;
  for (let index = 1; index < ring.length; index++) {
    const [ax, ay] = ring[index - 1] as Point;
    const [bx, by] = ring[index] as Point;
    if (ay > y !== by > y && x < ax + ((bx - ax) * (y - ay)) / (by - ay)) inside = !inside;
  }
  return inside;
}

describe("the keep-out zone's outline", () => {
  it("never lies inside the reach, at any azimuth, and at most 1 cm outside it", () => {
    fc.assert(
      fc.property(
        origin,
        bearing,
        reach,
        height,
        fc.array(between(0, 359.999), { minLength: 40, maxLength: 40 }),
        (at, toward, radii, ground, azimuths) => {
          const ring = reachPolygon(at, toward, radii, ground).coordinates[0] ?? [];
          const place = (azimuth: number, distance: number): Point => {
            const point = groundDirect(at, toward + azimuth, distance, ground);
            const turns = Math.round((point.longitude - at.longitude) / 360);
            return [point.longitude - 360 * turns, point.latitude];
          };
          // Whole degrees and their neighbourhood are where the reach steps.
          const near = azimuths.flatMap((azimuth) => {
            const whole = Math.floor(azimuth);
            return [azimuth, whole, whole + 1e-7, whole + 1 - 1e-7];
          });
          for (const azimuth of near) {
            const degree = Math.floor(azimuth);
            const [before, after] = [radii[degree] as number, radii[(degree + 1) % 360] as number];
            // At a whole degree the zone owes that degree's own reach.
            const owed = Number.isInteger(azimuth) ? before : Math.max(before, after);
            expect(inRing(place(azimuth, owed * (1 - 1e-9)), ring)).toBe(true);
          }
          for (const azimuth of azimuths) {
            const inDegree = azimuth % 1;
            if (inDegree < 0.1 || inDegree > 0.9) continue;
            const degree = Math.floor(azimuth);
            const drawn = Math.max(radii[degree] as number, radii[(degree + 1) % 360] as number, 0.1);
            expect(inRing(place(azimuth, drawn + 0.01), ring)).toBe(false);
          }
        },
      ),
      { numRuns: 40 },
    );
  });

  it("is a valid GeoJSON polygon: closed, simple, counter-clockwise", () => {
    fc.assert(
      fc.property(
        origin.filter(({ longitude }) => Math.abs(longitude) < 179.9),
        bearing,
        reach,
        (at, toward, radii) => {
          const polygon = reachPolygon(at, toward, radii);
          // The check refuses open and self-crossing rings, and turns those that run the wrong way.
          expect(featureGeometrySchema.parse(polygon)).toEqual(polygon);
        },
      ),
      { numRuns: 15 },
    );
  });
});

/** Area that a star around (0, 0) and a convex polygon share: each triangle of the fan, clipped edge by edge. */
function sharedArea(star: readonly Point[], convex: readonly Point[]): number {
  let area = 0;
  for (let index = 0; index < star.length; index++) {
    let piece: Point[] = [[0, 0], star[index] as Point, star[(index + 1) % star.length] as Point];
    for (let edge = 0; edge < convex.length; edge++) {
      const [a, b] = [convex[edge] as Point, convex[(edge + 1) % convex.length] as Point];
      const left = (p: Point) => (b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0]);
      piece = piece.flatMap((p, at) => {
        const before = piece[(at + piece.length - 1) % piece.length] as Point;
        const [now, then] = [left(p), left(before)];
        const t = then / (then - now);
        const cut: Point = [before[0] + t * (p[0] - before[0]), before[1] + t * (p[1] - before[1])];
        const crossed = now >= 0 !== then >= 0 ? [cut] : [];
        return now >= 0 ? [...crossed, p] : crossed;
      });
    }
    for (let at = 0; at < piece.length; at++) {
      const [p, q] = [piece[at] as Point, piece[(at + 1) % piece.length] as Point];
      area += (p[0] * q[1] - q[0] * p[1]) / 2;
    }
  }
  return Math.abs(area);
}

describe("what a zone touches", () => {
  const box = fc.record({
    east: between(-1200, 1200),
    north: between(-1200, 1200),
    half: between(2, 80),
    turned: between(0, 90),
  });

  it("is the area that a second way of clipping finds, and touching is having no distance", () => {
    fc.assert(
      fc.property(
        origin,
        bearing,
        reach,
        fc.array(box, { minLength: 1, maxLength: 3 }),
        (at, toward, radii, boxes) => {
          const zone = reachPolygon(at, toward, radii);
          const plane = localPlane(at);
          const flat = ([longitude, latitude]: readonly number[]): Point => {
            const { east, north } = plane.toPlane({
              latitude: latitude as number,
              longitude: longitude as number,
            });
            return [east, north];
          };
          const star = (zone.coordinates[0] ?? []).slice(0, -1).map(flat);
          const features = boxes.map(({ east, north, half, turned }, index): ZoneFeature => {
            const corners = [0, 90, 180, 270].map((turn): Point => {
              const angle = ((turned + turn) * Math.PI) / 180;
              const corner = plane.toPoint({
                east: east + half * Math.cos(angle),
                north: north + half * Math.sin(angle),
              });
              return [corner.longitude, corner.latitude];
            });
            return {
              id: String(index),
              kind: "building",
              geometry: { type: "Polygon", coordinates: [[...corners, corners[0] as Point]] },
            };
          });
          for (const [index, found] of conflicts(zone, features).entries()) {
            const geometry = features[index]?.geometry;
            if (geometry?.type !== "Polygon") throw new Error("Every feature here is an area.");
            const convex = (geometry.coordinates[0] ?? []).slice(0, -1).map(flat);
            const expected = sharedArea(star, convex);
            expect(Math.abs(found.overlapArea - expected)).toBeLessThan(0.01 + expected * 1e-4);
            expect(found.touches).toBe(found.distance === 0);
            expect(found.inConflict).toBe(found.distance < 5);
            if (expected > 0.01) expect(found.touches).toBe(true);
          }
        },
      ),
      { numRuns: 30 },
    );
  });

  it("is at least as much when the reach grows, and never farther away", () => {
    fc.assert(
      fc.property(bearing, reach, box, between(1, 1.5), (toward, radii, place, factor) => {
        const at = { latitude: 44, longitude: 9 };
        const centre = localPlane(at).toPoint(place);
        const corners = [45, 315, 225, 135].map((turn): Point => {
          const corner = groundDirect(centre, turn, place.half, 0);
          return [corner.longitude, corner.latitude];
        });
        const features: ZoneFeature[] = [
          {
            id: "a",
            kind: "spectators",
            geometry: { type: "Polygon", coordinates: [[...corners, corners[0] as Point]] },
          },
          { id: "l", kind: "road", geometry: { type: "LineString", coordinates: corners } },
          {
            id: "p",
            kind: "crew-shelter",
            geometry: { type: "Point", coordinates: [centre.longitude, centre.latitude] },
          },
        ];
        const small = conflicts(reachPolygon(at, toward, radii), features);
        const large = conflicts(
          reachPolygon(
            at,
            toward,
            radii.map((radius) => radius * factor),
          ),
          features,
        );
        for (const [index, before] of small.entries()) {
          const after = large[index];
          if (!after) throw new Error("Every feature has an answer.");
          // Either outline may lie up to 1 cm outside its reach, and each of 360 steps is widened by 2 mm.
          expect(after.overlapArea).toBeGreaterThanOrEqual(before.overlapArea - 0.02 * 8 * place.half);
          expect(after.overlapLength).toBeGreaterThanOrEqual(before.overlapLength - 360 * 0.002);
          expect(after.distance).toBeLessThanOrEqual(before.distance + 0.011);
        }
        const far = groundDistance(at, centre, 0);
        if (far > 0.2) expect(small[2]?.touches).toBe(small[2]?.distance === 0);
      }),
      { numRuns: 20 },
    );
  });
});
