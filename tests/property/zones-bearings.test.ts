/** Clear bearings against the exact measures on every quarter degree, and zones against moving every point of them. */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { groundDirect } from "@/lib/earth";
import {
  type BearingArc,
  clearBearings,
  conflicts,
  type FeatureKindName,
  reachPolygon,
  surroundings,
  type ZoneFeature,
} from "@/lib/zones";
import { freeBearings } from "@/lib/zones/clear-bearings";
import { between } from "./numbers";

// The same cases every time; new ones in the long run (npm run test:deep).
if (!process.env.FAIRTHROW_TEST_DEEP) fc.configureGlobal({ seed: 20261125 });

type Position = [number, number];

const STAND = { latitude: 51.2, longitude: -3.4, height: 80 };
const at = (azimuth: number, distance: number, from = STAND): Position => {
  const { latitude, longitude } = groundDirect(from, azimuth, distance, STAND.height);
  return [longitude, latitude];
};
const accuracy = fc.oneof(fc.constant(0), between(0.1, 12));
/** A lobe ahead, a shorter one behind, the rest all round; or runs that step anywhere. */
const reach = fc.oneof(
  fc
    .record({
      ahead: between(60, 400),
      behind: between(30, 200),
      half: fc.integer({ min: 5, max: 60 }),
    })
    .map(({ ahead, behind, half }) =>
      Array.from({ length: 360 }, (_, degree) => {
        const off = Math.min(degree, 360 - degree);
        return off <= half ? ahead * (1 - off / 400) : off >= 180 - half ? behind : 25;
      }),
    ),
  fc
    .array(fc.tuple(fc.integer({ min: 1, max: 90 }), between(0, 400)), {
      minLength: 1,
      maxLength: 20,
    })
    .map((runs) => {
      const degrees = runs.flatMap(([count, radius]) => new Array<number>(count).fill(radius));
      return Array.from({ length: 360 }, (_, degree) => degrees[degree % degrees.length] as number);
    }),
);

describe("a zone widened by the firing point's accuracy", () => {
  it("holds every point of the zone, moved any way by as much, and little more", () => {
    const inside = ([x, y]: Position, ring: readonly number[][]) => {
      let found = false;
      for (let index = 1; index < ring.length; index++) {
        const [ax, ay] = ring[index - 1] as Position;
        const [bx, by] = ring[index] as Position;
        if (ay > y !== by > y && x < ax + ((bx - ax) * (y - ay)) / (by - ay)) found = !found;
      }
      return found;
    };
    fc.assert(
      fc.property(
        reach,
        between(0.1, 30),
        between(0, 359.75),
        fc.array(fc.tuple(between(0, 359.999), between(0, 1), between(0, 359.999)), {
          minLength: 200,
          maxLength: 200,
        }),
        (radii, moved, bearing, samples) => {
          const ring = reachPolygon(STAND, bearing, radii, STAND.height, moved).coordinates[0] ?? [];
          const most = Math.max(...radii, 0.1);
          for (const [azimuth, share, direction] of samples) {
            const degree = Math.floor(azimuth);
            const radius = Math.max(radii[degree] as number, radii[(degree + 1) % 360] as number, 0.1);
            const [longitude, latitude] = at(bearing + azimuth, radius * Math.sqrt(share));
            expect(inside(at(direction, moved * 0.9999, { ...STAND, longitude, latitude }), ring)).toBe(true);
          }
          for (const [azimuth] of samples) {
            expect(inside(at(azimuth, most + moved + 0.02), ring)).toBe(false);
          }
        },
      ),
      { numRuns: 40 },
    );
  });
});

const KINDS: FeatureKindName[] = ["spectators", "building", "road", "overhead-line", "path", "water", "post"];
const feature = fc.record({
  kind: fc.constantFrom(...KINDS),
  azimuth: between(0, 359.99),
  distance: between(5, 450),
  size: between(1, 120),
  turned: between(0, 359.99),
  standOff: fc.option(between(0, 40)),
});

function drawn(parts: typeof feature extends fc.Arbitrary<infer T> ? T : never, index: number): ZoneFeature {
  const [longitude, latitude] = at(parts.azimuth, parts.distance);
  const centre = { ...STAND, longitude, latitude };
  const corner = (turn: number) => at(parts.turned + turn, parts.size, centre);
  const { kind, standOff } = parts;
  const base = { id: String(index), kind, standOff };
  if (kind === "post") return { ...base, geometry: { type: "Point", coordinates: [longitude, latitude] } };
  if (kind === "road" || kind === "overhead-line")
    return { ...base, geometry: { type: "LineString", coordinates: [corner(0), corner(150), corner(200)] } };
  const ring = [0, 270, 180, 100].map(corner);
  return { ...base, geometry: { type: "Polygon", coordinates: [[...ring, ring[0] as Position]] } };
}

const boundary = (size: number): ZoneFeature => ({
  id: "boundary",
  kind: "boundary",
  geometry: { type: "Polygon", coordinates: [[40, 320, 230, 140, 40].map((azimuth) => at(azimuth, size))] },
});

/** Quarter degrees of arcs. */
const steps = (arcs: readonly BearingArc[]) =>
  arcs.flatMap(({ from, to }) => {
    const count = to - from === 360 ? 1439 : ((to - from) * 4 + 1440) % 1440;
    return Array.from({ length: count + 1 }, (_, step) => (from * 4 + step) % 1440);
  });

describe("clear bearings", () => {
  it("are clear by the exact measures, and those left out are blocked but for a hair", () => {
    fc.assert(
      fc.property(
        reach,
        accuracy,
        fc.array(feature, { minLength: 1, maxLength: 6 }),
        fc.option(between(200, 900)),
        (radii, moved, parts, edge) => {
          const features = [...parts.map(drawn), ...(edge === null ? [] : [boundary(edge)])];
          const stand = { ...STAND, accuracy: moved };
          const { clear, blocked } = clearBearings(stand, radii, features);
          // What is found before any drawn zone is tried must hold by itself.
          const free = freeBearings(surroundings(stand, features, [radii]), radii);
          const inConflict = (bearing: number) =>
            conflicts(
              reachPolygon(STAND, bearing, radii, STAND.height, moved),
              features,
              STAND.height,
            ).filter((found) => found.inConflict);
          const found = new Set(steps(clear));
          expect([...found, ...steps(blocked)].sort((a, b) => a - b)).toEqual([...Array(1440).keys()]);
          for (let step = 0; step < 1440; step += 8) {
            const hits = inConflict(step / 4);
            if (found.has(step) || free.has(step)) expect(hits).toEqual([]);
            const near = [-4, -3, -2, -1, 1, 2, 3, 4].some((by) => found.has((step + by + 1440) % 1440));
            if (!found.has(step) && hits.length === 0) expect(near || isHair(step, inConflict)).toBe(true);
            if (hits.length === 0) continue;
            const arc = blocked.find((each) => steps([each]).includes(step));
            for (const { featureId } of hits) expect(arc?.by).toContain(featureId);
          }
          // Between two quarter degrees too.
          for (const { from, to } of clear) if (to !== from) expect(inConflict(from + 0.13)).toEqual([]);
        },
      ),
      { numRuns: 25 },
    );
  });
});

/** Whether a bearing is blocked within two steps of it on both sides: a gap too narrow to be offered. */
function isHair(step: number, inConflict: (bearing: number) => unknown[]): boolean {
  const blocked = (by: number) => inConflict(((step + by + 1440) % 1440) / 4).length > 0;
  return [1, 2].some(blocked) && [-1, -2].some(blocked);
}
