/**
 * Sources: Geocentric Datum of Australia technical manual, Flinders Peak to Buninyong on GRS 80; NIMA TR8350.2
 * for normal gravity (from memory), its free-air gradient 0.3086 mGal/m (from memory); and, for the reduction
 * of a distance to the ground's height, three-dimensional coordinates worked out here from the definition of
 * the ellipsoid.
 */
import geographiclib from "geographiclib-geodesic";
import { describe, expect, it } from "vitest";
import { direct, type GeoPoint, groundDistance, inverse, localPlane, normalGravity } from "@/lib/earth";

const dms = (degrees: number, minutes: number, seconds: number) => degrees + minutes / 60 + seconds / 3600;

const flindersPeak = { latitude: -dms(37, 57, 3.7203), longitude: dms(144, 25, 29.5244) };
const buninyong = { latitude: -dms(37, 39, 10.1561), longitude: dms(143, 55, 35.3839) };
const LENGTH = 54_972.271;
const BEARING = dms(306, 52, 5.37);
const REVERSE = dms(127, 10, 25.07);
/** Half of the last digit printed: 0.005″ of the bearings, 0.5 mm. */
const SECONDS = 0.005 / 3600;

describe("Flinders Peak to Buninyong", () => {
  it("on GRS 80, as printed, by the library", () => {
    const grs80 = new geographiclib.Geodesic.Geodesic(6_378_137, 1 / 298.257222101);
    const line = grs80.Inverse(
      flindersPeak.latitude,
      flindersPeak.longitude,
      buninyong.latitude,
      buninyong.longitude,
    );
    expect(Math.abs((line.s12 as number) - LENGTH)).toBeLessThan(0.0005);
    expect(Math.abs((line.azi1 as number) + 360 - BEARING)).toBeLessThan(SECONDS);
    expect(Math.abs((line.azi2 as number) + 180 - REVERSE)).toBeLessThan(SECONDS);
  });

  it("on WGS 84, whose polar axis is 0.1 mm longer, by our inverse", () => {
    const line = inverse(flindersPeak, buninyong);
    expect(Math.abs(line.distance - LENGTH)).toBeLessThan(0.0006);
    expect(Math.abs(line.bearing - BEARING)).toBeLessThan(SECONDS);
    expect(Math.abs(line.reverseBearing - REVERSE)).toBeLessThan(SECONDS);
  });

  it("and our direct arrives there", () => {
    const end = direct(flindersPeak, BEARING, LENGTH);
    expect(inverse(end, buninyong).distance).toBeLessThan(0.003);
  });
});

describe("normal gravity", () => {
  it.each([
    [0, 9.7803253],
    [45, 9.806198],
    [-45, 9.806198],
    [90, 9.8321849],
  ])("at %d°: %d m/s²", (latitude, gravity) => {
    expect(Math.abs(normalGravity(latitude, 0) - gravity)).toBeLessThan(5.1e-7);
  });

  it("falls by 0.3086 mGal a metre near the ground, at 45°", () => {
    expect(((normalGravity(45, 100) - normalGravity(45, 0)) / 100) * 1e5).toBeCloseTo(-0.3086, 3);
  });
});

/** Earth-centred coordinates of a point at a height above the WGS 84 ellipsoid (its definition). */
function cartesian({ latitude, longitude }: GeoPoint, height: number): [number, number, number] {
  const [phi, lambda] = [(latitude * Math.PI) / 180, (longitude * Math.PI) / 180];
  const flattening = 1 / 298.257223563;
  const e2 = flattening * (2 - flattening);
  const normal = 6_378_137 / Math.sqrt(1 - e2 * Math.sin(phi) ** 2);
  return [
    (normal + height) * Math.cos(phi) * Math.cos(lambda),
    (normal + height) * Math.cos(phi) * Math.sin(lambda),
    (normal * (1 - e2) + height) * Math.sin(phi),
  ];
}

const straight = (a: GeoPoint, b: GeoPoint, height: number) => {
  const [p, q] = [cartesian(a, height), cartesian(b, height)];
  return Math.hypot(p[0] - q[0], p[1] - q[1], p[2] - q[2]);
};

const SITES: GeoPoint[] = [
  { latitude: 0, longitude: 10 },
  { latitude: 47.3, longitude: 8.2 },
  { latitude: -63, longitude: -179.999 },
  { latitude: 80, longitude: 100 },
];

describe("distances on high ground", () => {
  it("are those between the points at that height, to 0.1 mm in 1 km", () => {
    for (const site of SITES) {
      for (const height of [-300, 0, 400, 3000]) {
        for (const bearing of [0, 37, 90, 215]) {
          const end = direct(site, bearing, 1000);
          // The chord of 1 km is 1 µm shorter than its arc.
          expect(Math.abs(groundDistance(site, end, height) - straight(site, end, height))).toBeLessThan(
            1e-4,
          );
        }
      }
    }
  });
});

describe("the local plane", () => {
  it("keeps distances between any two points within 1 km to 0.1 mm, and comes back", () => {
    for (const site of SITES) {
      for (const height of [0, 2000]) {
        const plane = localPlane(site, height);
        const places = [0, 50, 140, 200, 333].map((bearing, index) =>
          direct(site, bearing, 1000 - 150 * index),
        );
        for (const [index, a] of places.entries()) {
          const back = plane.toPoint(plane.toPlane(a));
          expect(inverse(a, back).distance).toBeLessThan(1e-7);
          for (const b of places.slice(index + 1)) {
            const [p, q] = [plane.toPlane(a), plane.toPlane(b)];
            const planar = Math.hypot(p.east - q.east, p.north - q.north);
            expect(Math.abs(planar - groundDistance(a, b, height))).toBeLessThan(1e-4);
          }
        }
      }
    }
  });
});
