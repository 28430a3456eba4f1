/**
 * Zones against closed forms (a circle and a straight edge: segment area R²·acos(d/R) − d·√(R²−d²), chord
 * 2·√(R²−d²), distance d − R) and against the areas and distances of geographiclib's geodesics.
 */
import { describe, expect, it } from "vitest";
import { ellipsoidArea, type GeoPoint, groundDirect, inverse, localPlane } from "@/lib/earth";
import { conflicts, type FeatureKindName, reachPolygon, type ZoneFeature } from "@/lib/zones";

const ORIGIN = { latitude: 52.1, longitude: 7.4 };
const HEIGHT = 120;

const circle = (radius: number) => reachPolygon(ORIGIN, 0, new Array(360).fill(radius), HEIGHT);

const plane = localPlane(ORIGIN, HEIGHT);

/** The place `ahead` m along a bearing from the origin and `right` m to the right of there. */
function place(bearing: number, ahead: number, right: number): [number, number] {
  const angle = (bearing * Math.PI) / 180;
  const { latitude, longitude } = plane.toPoint({
    east: ahead * Math.sin(angle) + right * Math.cos(angle),
    north: ahead * Math.cos(angle) - right * Math.sin(angle),
  });
  return [longitude, latitude];
}

/**
 * Places along straight lines on the ground, every 50 m or less: two positions alone would be joined by a line
 * that is straight in longitude and latitude (RFC 7946), which bows by 0.2 m in 3 km here.
 */
function straight(bearing: number, ...corners: [ahead: number, right: number][]): [number, number][] {
  return corners.flatMap(([ahead, right], index) => {
    const before = corners[index - 1];
    if (!before) return [place(bearing, ahead, right)];
    const count = Math.ceil(Math.hypot(ahead - before[0], right - before[1]) / 50);
    return Array.from({ length: count }, (_, step) => {
      const t = (step + 1) / count;
      return place(bearing, before[0] + t * (ahead - before[0]), before[1] + t * (right - before[1]));
    });
  });
}

/** A rectangle from `near` to `far` m along a bearing, `half` m to either side. */
function rectangle(bearing: number, near: number, far: number, half: number): [number, number][] {
  return straight(bearing, [near, -half], [near, half], [far, half], [far, -half], [near, -half]);
}

const area = (kind: FeatureKindName, ...rings: [number, number][][]): ZoneFeature => ({
  id: kind,
  kind,
  geometry: { type: "Polygon", coordinates: rings },
});
const line = (kind: FeatureKindName, ...coordinates: [number, number][]): ZoneFeature => ({
  id: kind,
  kind,
  geometry: { type: "LineString", coordinates },
});
const points = (ring: readonly number[][]): GeoPoint[] =>
  ring
    .slice(0, -1)
    .map(([longitude, latitude]) => ({ longitude: longitude as number, latitude: latitude as number }));

function only(zone: ReturnType<typeof circle>, feature: ZoneFeature) {
  const [found] = conflicts(zone, [feature], HEIGHT);
  if (!found) throw new Error("One feature, one answer.");
  return found;
}

const segment = (radius: number, offset: number) =>
  radius ** 2 * Math.acos(offset / radius) - offset * Math.sqrt(radius ** 2 - offset ** 2);

describe.each([0, 37, 251])("a circle and a straight edge, bearing %d°", (bearing) => {
  it.each([
    [100, 60],
    [500, 200],
    [1000, -300],
    [1000, 990],
  ])("radius %d m, edge at %d m: area to a thousandth, chord to 2 cm", (radius, offset) => {
    const found = only(circle(radius), area("spectators", rectangle(bearing, offset, 1200, 1100)));
    expect(found.touches).toBe(true);
    // The zone is drawn up to 1 cm larger than the circle.
    const allowance = segment(radius, offset) * 0.001;
    expect(found.overlapArea).toBeGreaterThan(segment(radius, offset) - 0.01);
    expect(found.overlapArea).toBeLessThan(segment(radius, offset) + Math.max(allowance, 0.03 * radius));
    const wire = line("overhead-line", ...straight(bearing, [offset, -1500], [offset, 1500]));
    const chord = 2 * Math.sqrt(radius ** 2 - offset ** 2);
    const sharp = (0.02 * radius) / chord; // a centimetre of radius is more of a short chord
    expect(Math.abs(only(circle(radius), wire).overlapLength - chord)).toBeLessThan(0.02 + 2 * sharp);
  });

  it.each([
    [300, 700],
    [950, 1000],
    [1000, 1000.05],
  ])("radius %d m, edge at %d m: distance to 1 cm, never too far", (radius, offset) => {
    const features = [
      area("building", rectangle(bearing, offset, offset + 50, 40)),
      line("road", ...straight(bearing, [offset, -900], [offset, 900])),
    ];
    for (const feature of features) {
      const { distance, touches, overlapArea, overlapLength } = only(circle(radius), feature);
      expect(touches).toBe(false);
      expect(distance).toBeLessThanOrEqual(offset - radius + 0.001);
      expect(distance).toBeGreaterThan(offset - radius - 0.0105);
      expect(overlapArea + overlapLength).toBe(0);
    }
  });

  it("a boundary: what lies outside, or how far the fence is", () => {
    const crossing = only(circle(500), area("boundary", rectangle(bearing, -800, 200, 700)));
    expect(crossing.inConflict).toBe(true);
    expect(Math.abs(crossing.overlapArea / segment(500, 200) - 1)).toBeLessThan(0.001);
    const inside = only(circle(500), area("boundary", rectangle(bearing, -800, 520, 700)));
    expect(inside).toMatchObject({ touches: false, inConflict: false, overlapArea: 0, overlap: null });
    expect(Math.abs(inside.distance - 20)).toBeLessThan(0.011);
  });
});

describe("areas against geographiclib", () => {
  it("of a feature wholly inside, brought to the ground's height", () => {
    const ring = rectangle(20, 40, 240, 90);
    const ground = (1 + HEIGHT / 6_378_000) ** 2;
    expect(
      Math.abs(
        only(circle(400), area("car-park", ring)).overlapArea / (ellipsoidArea(points(ring)) * ground) - 1,
      ),
    ).toBeLessThan(1e-5);
  });

  it("of the part handed back for the map", () => {
    const found = only(circle(400), area("car-park", rectangle(20, 300, 700, 250)));
    if (found.overlap?.type !== "Polygon") throw new Error("One piece was expected.");
    const ground = (1 + HEIGHT / 6_378_000) ** 2;
    const onEllipsoid = Math.abs(ellipsoidArea(points(found.overlap.coordinates[0] ?? [])));
    expect(Math.abs((onEllipsoid * ground) / found.overlapArea - 1)).toBeLessThan(1e-5);
  });

  it("of a zone of 1 km: the circle, at most 1 cm of edge more", () => {
    const ring = circle(1000).coordinates[0] ?? [];
    const ground = (1 + HEIGHT / 6_378_000) ** 2;
    const measured = ellipsoidArea(points(ring)) * ground;
    expect(measured).toBeGreaterThan(Math.PI * 1000 ** 2 - 1);
    expect(measured).toBeLessThan(Math.PI * 1000.01 ** 2);
  });
});

describe("a distance against brute force", () => {
  it("over every metre of a bent road and every hundredth of a degree of the zone", () => {
    const reach = Array.from({ length: 360 }, (_, azimuth) => (azimuth > 320 || azimuth < 40 ? 420 : 130));
    const zone = reachPolygon(ORIGIN, 64, reach, 0);
    const bends: GeoPoint[] = [
      { latitude: 52.1072, longitude: 7.402 },
      { latitude: 52.1034, longitude: 7.4077 },
      { latitude: 52.1045, longitude: 7.4125 },
    ];
    let least = Number.POSITIVE_INFINITY;
    for (let leg = 0; leg < 2; leg++) {
      const [a, b] = [bends[leg] as GeoPoint, bends[leg + 1] as GeoPoint];
      for (let step = 0; step <= 500; step++) {
        const t = step / 500;
        const on = {
          latitude: a.latitude + t * (b.latitude - a.latitude),
          longitude: a.longitude + t * (b.longitude - a.longitude),
        };
        // Nearest point of the front arc or of its corners, by geodesics from the origin.
        const { distance, bearing } = inverse(ORIGIN, on);
        const azimuth = ((bearing - 64 + 540) % 360) - 180;
        const edge = Math.max(-40, Math.min(40, azimuth));
        for (const turn of [azimuth, edge]) {
          if (Math.abs(turn) > 40) continue;
          const near = groundDirect(ORIGIN, 64 + turn, Math.min(420, Math.max(130, distance)), 0);
          least = Math.min(least, inverse(near, on).distance);
        }
      }
    }
    const [found] = conflicts(zone, [
      line("road", ...bends.map(({ latitude, longitude }) => [longitude, latitude] as [number, number])),
    ]);
    expect(found?.touches).toBe(false);
    expect(Math.abs((found?.distance ?? 0) - least)).toBeLessThan(0.02);
  });
});
