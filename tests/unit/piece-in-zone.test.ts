/** A place against a keep-out zone, held against geodesics along the zone's edge and against circles in closed form. */
import { describe, expect, test } from "vitest";
import { type GeoPoint, groundDirect, groundInverse } from "@/lib/earth";
import { pieceInZone, type StoodZone } from "@/lib/zones";

const HEIGHT = 120;
const ORIGIN = { latitude: 51.3, longitude: 179.9995 };
const circle = (reach: number, accuracy = 0): StoodZone => ({
  origin: ORIGIN,
  height: HEIGHT,
  accuracy,
  bearing: 70,
  reach: Array(360).fill(reach),
});
/** Far ahead within 20° of the bearing, less behind, a quarter of that beside. */
const fan: StoodZone = {
  ...circle(0),
  reach: Array.from({ length: 360 }, (_, degree) =>
    degree <= 20 || degree >= 340 ? 200 : degree >= 160 && degree <= 200 ? 90 : 40,
  ),
};
const at = (azimuth: number, distance: number) => groundDirect(ORIGIN, 70 + azimuth, distance, HEIGHT);

/** To the nearest of many points along the edge, by geodesics alone. */
function nearestByGeodesics({ reach, bearing }: StoodZone, point: GeoPoint): number {
  let nearest = Number.POSITIVE_INFINITY;
  const see = (azimuth: number, radius: number) => {
    const edge = groundDirect(ORIGIN, bearing + azimuth, radius, HEIGHT);
    nearest = Math.min(nearest, groundInverse(edge, point, HEIGHT).distance);
  };
  const between = reach.map((radius, degree) => Math.max(radius, reach[(degree + 1) % 360] as number));
  for (const [degree, radius] of between.entries()) {
    for (let part = 0; part < 10; part++) see(degree + part / 10, radius);
    const before = between.at(degree - 1) as number;
    if (before !== radius)
      for (let step = 0; step <= 200; step++) see(degree, before + ((radius - before) * step) / 200);
  }
  return nearest;
}

describe("a place in a zone", () => {
  test.each([
    ["well inside", 0, 150, "inside"],
    ["inside by less than it may be off", 0, 196, "unsure"],
    ["outside ahead", 5, 210, "outside"],
    ["beside the fan, where the zone is narrow", 40, 120, "outside"],
    ["behind, just beyond", 180, 91, "outside"],
    ["behind, well inside", -175, 60, "inside"],
  ] as const)("%s, as geodesics along its edge say", (_, azimuth, distance, verdict) => {
    const point = at(azimuth, distance);
    const found = pieceInZone(fan, point, 5);
    expect(found.verdict).toBe(verdict);
    // The outline is drawn up to a centimetre outside the arc, and the sampled edge has gaps.
    expect(Math.abs(Math.abs(found.inside) - nearestByGeodesics(fan, point))).toBeLessThan(0.05);
    expect(found.inside > 0).toBe(verdict !== "outside");
    expect(found.distance).toBeCloseTo(distance, 4);
    expect(found.azimuth).toBeCloseTo(azimuth, 4);
  });

  test("a circle needs the distance and the uncertainty over its radius, less how far the machine may stand off", () => {
    expect(pieceInZone(circle(100), at(33, 108), 4).inside).toBeCloseTo(-8, 1);
    expect(pieceInZone(circle(100), at(33, 108), 4).factor).toBeCloseTo(1.12, 3);
    expect(pieceInZone(circle(100, 6), at(33, 108), 4)).toMatchObject({ verdict: "outside" });
    expect(pieceInZone(circle(100, 6), at(33, 108), 4).inside).toBeCloseTo(-2, 1);
    expect(pieceInZone(circle(100, 6), at(33, 108), 4).factor).toBeCloseTo(1.06, 3);
    expect(pieceInZone(circle(100), at(33, 96), 4).factor).toBe(1);
    expect(pieceInZone(circle(100), at(33, 97), 4)).toMatchObject({ verdict: "unsure" });
    // Beside the fan the zone would have to be three times as long everywhere; the fan then reaches 600 m.
    expect(pieceInZone(fan, at(90, 118), 2).factor).toBeCloseTo(3, 2);
  });

  test("no zone that can be drawn holds what is too far away", () => {
    expect(pieceInZone(circle(100), at(0, 60_000), 5).factor).toBeNull();
  });
});
