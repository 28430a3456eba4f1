import { describe, expect, it } from "vitest";
import { groundDirect } from "@/lib/earth";
import {
  conflicts,
  cutAtAntimeridian,
  FEATURE_KIND_NAMES,
  FEATURE_KINDS,
  type FeatureKindName,
  featureGeometrySchema,
  featureKind,
  featureWarnings,
  geometryProblem,
  isLoosened,
  reachPolygon,
  type ZoneFeature,
} from "@/lib/zones";

const ORIGIN = { latitude: 46, longitude: 11 };
const ZONE = reachPolygon(ORIGIN, 0, new Array(360).fill(100));

const at = (bearing: number, distance: number): [number, number] => {
  const { latitude, longitude } = groundDirect(ORIGIN, bearing, distance, 0);
  return [longitude, latitude];
};
/** A square around the origin, corners that far away. */
const square = (reach: number): [number, number][] =>
  [45, 315, 225, 135, 45].map((bearing) => at(bearing, reach));
const feature = (
  kind: FeatureKindName,
  geometry: ZoneFeature["geometry"],
  standOff?: number,
): ZoneFeature => ({
  id: kind,
  kind,
  geometry,
  standOff,
});
const polygon = (...coordinates: [number, number][][]) => ({ type: "Polygon" as const, coordinates });
const only = (of: ZoneFeature) => {
  const [found] = conflicts(ZONE, [of]);
  if (!found) throw new Error("One feature, one answer.");
  return found;
};

describe("kinds of site feature", () => {
  it("are those of the vocabulary, each with a rule, a stand-off and a reason", () => {
    expect(FEATURE_KINDS.map(({ kind }) => kind)).toEqual([...FEATURE_KIND_NAMES]);
    for (const kind of FEATURE_KINDS) {
      expect(kind.standOff).toBeGreaterThanOrEqual(0);
      expect(kind.standOffReason).toMatch(/^[A-Z].*\.$/);
      expect(kind.ruleText).toMatch(/^[A-Z].*\.$/);
      expect(kind.geometries.length).toBeGreaterThan(0);
    }
    expect(() => featureKind("castle")).toThrow(RangeError);
  });

  it("say what they may be drawn as", () => {
    expect(geometryProblem("boundary", "Polygon")).toBeNull();
    expect(geometryProblem("overhead-line", "Polygon")).toBe(
      "Overhead line: draw it as a line, not as an area.",
    );
    expect(geometryProblem("building", "LineString")).toBe(
      "Building: draw it as an area or a point, not as a line.",
    );
  });
});

describe("rules", () => {
  const line = { type: "LineString" as const, coordinates: [at(300, 95), at(60, 95)] };
  const near = { type: "LineString" as const, coordinates: [at(330, 125), at(30, 125)] };

  it("an overhead line inside a zone is a conflict, whatever its stand-off", () => {
    expect(only(feature("overhead-line", line, 0))).toMatchObject({
      touches: true,
      inConflict: true,
      distance: 0,
    });
  });

  it("a stand-off is kept or not, with the kind's default or the feature's own", () => {
    expect(only(feature("road", near))).toMatchObject({ touches: false, standOff: 5, inConflict: false });
    expect(only(feature("overhead-line", near))).toMatchObject({
      touches: false,
      standOff: 15,
      inConflict: true,
    });
    expect(only(feature("overhead-line", near, 30))).toMatchObject({ standOff: 30, inConflict: true });
    expect(only(feature("road", near)).distance).toBeCloseTo(125 * Math.cos(Math.PI / 6) - 100, 1);
  });

  it("water may be crossed and a shelter may lie inside, unless given a stand-off", () => {
    expect(only(feature("water", line))).toMatchObject({ touches: true, inConflict: false });
    expect(only(feature("water", line, 3))).toMatchObject({ touches: true, inConflict: true });
    const shelter = { type: "Point" as const, coordinates: at(80, 20) };
    expect(only(feature("crew-shelter", shelter))).toMatchObject({
      touches: true,
      inConflict: false,
      overlap: { type: "Point" },
    });
  });

  it("a point is touched or so far away", () => {
    expect(only(feature("building", { type: "Point", coordinates: at(10, 99.99) })).touches).toBe(true);
    const found = only(feature("building", { type: "Point", coordinates: at(10, 130) }));
    expect(found.distance).toBeCloseTo(30, 1);
    expect(found).toMatchObject({ touches: false, inConflict: false, overlap: null });
  });

  it("a zone wholly inside a feature touches it, and one in its hole does not", () => {
    const ring = [...square(260)];
    expect(only(feature("spectators", polygon(ring))).overlapArea).toBeCloseTo(Math.PI * 100 ** 2, -2);
    const hole = [...square(180)].reverse();
    const around = only(feature("spectators", polygon(ring, hole)));
    expect(around).toMatchObject({ touches: false, overlapArea: 0 });
    expect(around.distance).toBeCloseTo(180 / Math.SQRT2 - 100, 1);
  });

  it("a feature wholly inside a zone is touched with all its area", () => {
    expect(only(feature("car-park", polygon(square(20)))).overlapArea).toBeCloseTo(800, 0);
    const wire = { type: "LineString" as const, coordinates: [at(0, 30), at(180, 30)] };
    expect(only(feature("road", wire)).overlapLength).toBeCloseTo(60, 2);
  });
});

describe("a feature that is protected less than its kind", () => {
  it.each([
    [{ kind: "spectators" }, false],
    [{ kind: "spectators", standOff: 40 }, false],
    [{ kind: "spectators", standOff: 0 }, true],
    [{ kind: "spectators", rule: "crossable" }, true],
    [{ kind: "overhead-line", rule: "crossable" }, false],
    [{ kind: "overhead-line", standOff: 3 }, true],
    [{ kind: "water", rule: "protected" }, false],
    [{ kind: "boundary" }, false],
  ] as const)("%o is told: %s", (feature, loosened) => {
    expect(isLoosened(feature)).toBe(loosened);
  });

  it("keeps its kind's rule and stand-off until that is allowed", () => {
    const near = { type: "LineString" as const, coordinates: [at(330, 125), at(30, 125)] };
    const asked = { ...feature("spectators", near, 3), rule: "hot" as const };
    expect(only(asked)).toMatchObject({ standOff: 10, inConflict: true });
    const allowed = { ...asked, allowance: "A wall stands before it." };
    expect(only(allowed)).toMatchObject({ standOff: 3, inConflict: false });
    // What is asked for beyond the kind's needs nobody's leave.
    expect(only(feature("water", near, 12))).toMatchObject({ standOff: 12, inConflict: true });
  });
});

describe("boundaries", () => {
  it("hold the zone, or it is outside", () => {
    expect(only(feature("boundary", polygon(square(200))))).toMatchObject({
      inConflict: false,
      touches: false,
    });
    expect(only(feature("boundary", polygon(square(120)))).inConflict).toBe(true);
    const elsewhere = square(50).map(([longitude, latitude]): [number, number] => [
      longitude + 0.1,
      latitude,
    ]);
    const found = only(feature("boundary", polygon(elsewhere)));
    expect(found.inConflict).toBe(true);
    expect(found.overlapArea).toBeCloseTo(Math.PI * 100 ** 2, -2);
  });

  it("that join count as one piece of ground", () => {
    const west = polygon([at(45, 0), at(0, 250), at(315, 350), at(225, 350), at(180, 250), at(45, 0)]);
    const east = polygon([at(45, 0), at(180, 250), at(135, 350), at(45, 350), at(0, 250), at(45, 0)]);
    const both = conflicts(ZONE, [
      { ...feature("boundary", west), id: "west" },
      { ...feature("boundary", east), id: "east" },
    ]);
    expect(both.map(({ inConflict }) => inConflict)).toEqual([false, false]);
    expect(only(feature("boundary", west)).inConflict).toBe(true);
  });

  it("with a hole in the middle of the zone do not hold it", () => {
    const pond = square(30).reverse();
    const found = only(feature("boundary", polygon(square(200), pond)));
    expect(found.inConflict).toBe(true);
    expect(found.overlapArea).toBeCloseTo(1800, 0);
  });
});

describe("the outline", () => {
  it.each([
    [new Array(359).fill(10), /360/],
    [new Array(360).fill(10).with(7, Number.NaN), /at 7°/],
    [new Array(360).fill(10).with(7, -1), /at 7°/],
    [new Array(360).fill(10).with(7, Number.POSITIVE_INFINITY), /at 7°/],
  ])("refuses what is no reach", (reach, message) => {
    expect(() => reachPolygon(ORIGIN, 0, reach)).toThrow(message);
  });

  it("refuses a bearing that is none, and the poles", () => {
    const reach = new Array(360).fill(10);
    expect(() => reachPolygon(ORIGIN, Number.NaN, reach)).toThrow(RangeError);
    expect(() => reachPolygon({ latitude: 89, longitude: 0 }, 0, reach)).toThrow(RangeError);
  });

  it("points the reach along the bearing", () => {
    const reach = new Array(360).fill(20).with(0, 200);
    const zone = reachPolygon(ORIGIN, 90, reach);
    const house = (bearing: number): ZoneFeature =>
      feature("building", { type: "Point", coordinates: at(bearing, 150) });
    expect(
      conflicts(zone, [house(90), house(0), house(180), house(270)]).map(({ touches }) => touches),
    ).toEqual([true, false, false, false]);
  });

  it("stays whole across the antimeridian, and can be cut there", () => {
    const island = { latitude: -16.8, longitude: 179.9995 };
    const zone = reachPolygon(island, 0, new Array(360).fill(200));
    expect(
      Math.max(...(zone.coordinates[0] ?? []).map(([longitude]) => longitude as number)),
    ).toBeGreaterThan(180);
    const cut = cutAtAntimeridian(zone);
    if (cut.type !== "MultiPolygon") throw new Error("It crosses, so there are two parts.");
    expect(cut.coordinates).toHaveLength(2);
    for (const [longitude] of cut.coordinates.flat(2))
      expect(Math.abs(longitude as number)).toBeLessThanOrEqual(180);
    const beyond: ZoneFeature = feature("building", { type: "Point", coordinates: [-179.9995, -16.8] });
    expect(conflicts(zone, [beyond])[0]?.touches).toBe(true);
    expect(conflicts(cut, [beyond])[0]?.touches).toBe(true);
    expect(cutAtAntimeridian(ZONE)).toEqual(ZONE);
  });
});

describe("the geometry of a feature", () => {
  const issues = (geometry: unknown) => {
    const parsed = featureGeometrySchema.safeParse(geometry);
    return parsed.success ? [] : parsed.error.issues.map(({ message }) => message);
  };
  const ring = (...coordinates: [number, number][]) => ({ type: "Polygon", coordinates: [coordinates] });

  it("is turned the right-hand way, without repeated corners", () => {
    const clockwise = ring([0, 0], [0, 1], [0, 1], [1, 1], [1, 0], [0, 0]);
    expect(featureGeometrySchema.parse(clockwise)).toEqual(ring([0, 0], [1, 0], [1, 1], [0, 1], [0, 0]));
  });

  it.each([
    [ring([0, 0], [1, 1], [1, 0], [0, 1], [0, 0]), /crosses or touches itself at corner 1/],
    [ring([0, 0], [2, 0], [2, 2], [1, 0], [0, 2], [0, 0]), /crosses or touches itself/],
    [ring([0, 0], [3, 0], [1, 0], [1, 1], [0, 0]), /crosses or touches itself/],
    [ring([0, 0], [1, 1], [0, 0]), /at least 3 different corners/],
    [ring([0, 0], [1, 1], [1, 0]), /Close the ring/],
    [
      {
        type: "LineString",
        coordinates: [
          [5, 5],
          [5, 5],
        ],
      },
      /at least 2 different points/,
    ],
    [{ type: "Point", coordinates: [46, 111] }, /latitude lies between/],
    [{ type: "Point", coordinates: [Number.NaN, 1] }, /longitude is a number/],
    [{ type: "Point", coordinates: [1] }, /a longitude and a latitude/],
    [{ type: "Blob" }, /Draw a point, a line or an area/],
  ])("%j is refused", (geometry, sentence) => {
    expect(issues(geometry)[0]).toMatch(sentence);
  });

  it("is doubted when it lies far away, and told to be swapped when it is", () => {
    const point = (longitude: number, latitude: number) => ({
      type: "Point" as const,
      coordinates: [longitude, latitude] as [number, number],
    });
    expect(featureWarnings(point(11.01, 46), ORIGIN)).toEqual([]);
    expect(featureWarnings(point(46, 11), ORIGIN)[0]).toMatch(/look swapped/);
    expect(featureWarnings(point(12, 46), ORIGIN)[0]).toMatch(/77 km from the site/);
  });
});
