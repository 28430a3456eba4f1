/** Unions, shared parts and distances against JSTS (npm), a port of the JTS Topology Suite, on polygons meant to hurt. */
import fc from "fast-check";
import Coordinate from "jsts/org/locationtech/jts/geom/Coordinate.js";
import GeometryFactory from "jsts/org/locationtech/jts/geom/GeometryFactory.js";
import PrecisionModel from "jsts/org/locationtech/jts/geom/PrecisionModel.js";
import DistanceOp from "jsts/org/locationtech/jts/operation/distance/DistanceOp.js";
import OverlayOp from "jsts/org/locationtech/jts/operation/overlay/OverlayOp.js";
import IsValidOp from "jsts/org/locationtech/jts/operation/valid/IsValidOp.js";
import { describe, expect, it } from "vitest";
import { clip } from "@/lib/zones/clip";
import { EdgeIndex, edgesOf } from "@/lib/zones/edge-index";
import { areaOf, type Point, type Polygon } from "@/lib/zones/planar";
import { between } from "./numbers";

// The same cases every time; new ones in the long run (npm run test:deep).
if (!process.env.FAIRTHROW_TEST_DEEP) fc.configureGlobal({ seed: 20261125 });

const GRID = 0.0001;
// JSTS has to work on the same grid: its own rounding would be a second question.
const factory = new GeometryFactory(new PrecisionModel(1 / GRID));
const onGrid = (value: number) => Math.round(value / GRID) * GRID;

/**
 * Outlines that are simple but hostile: needles, steps of millimetres, corners that all but coincide, some with a hole
 * that nearly touches the outline. Every corner has an azimuth of its own, so nothing crosses.
 */
const outline = fc
  .record({
    x: fc.oneof(fc.constantFrom(0, 50, 100), between(-80, 180)),
    y: fc.oneof(fc.constantFrom(0, 50), between(-80, 80)),
    radii: fc.array(fc.oneof(fc.constantFrom(50, 50.001, 100), between(3, 120)), {
      minLength: 3,
      maxLength: 40,
    }),
    turned: fc.oneof(fc.constant(0), between(0, 1)),
    hole: fc.option(between(0.05, 0.98)),
  })
  .map(({ x, y, radii, turned, hole }): Polygon => {
    const ring = (share: number) =>
      radii.map((radius, index): Point => {
        const angle = ((index + turned) / radii.length) * 2 * Math.PI;
        return [onGrid(x + share * radius * Math.cos(angle)), onGrid(y + share * radius * Math.sin(angle))];
      });
    return hole === null ? [ring(1)] : [ring(1), ring(hole).reverse()];
  });

const theirs = (polygon: Polygon) => {
  const [shell, ...holes] = polygon.map((ring) =>
    factory.createLinearRing([...ring, ring[0] as Point].map(([x, y]) => new Coordinate(x, y))),
  );
  return factory.createPolygon(shell, holes);
};

const OPERATIONS = {
  union: OverlayOp.union,
  intersection: OverlayOp.intersection,
  difference: OverlayOp.difference,
} as const;

describe("against a second geometry library", () => {
  it("unions, shared parts and differences have the same area, and are valid", () => {
    let compared = 0;
    fc.assert(
      fc.property(outline, outline, (first, second) => {
        const [a, b] = [theirs(first), theirs(second)];
        for (const name of ["union", "intersection", "difference"] as const) {
          const mine = clip(name, [first], [second]);
          let area: number;
          try {
            area = OPERATIONS[name](a, b).getArea();
          } catch {
            // JSTS gives up where edges all but coincide; counted below.
            continue;
          }
          compared++;
          // Every crossing may be rounded to the grid: by half of it along all edges.
          expect(Math.abs(areaOf(mine) - area)).toBeLessThan(0.05 + area * 1e-5);
          for (const polygon of mine)
            if (areaOf([polygon]) > 0.01) expect(IsValidOp.isValid(theirs(polygon))).toBe(true);
        }
      }),
      { numRuns: 150 },
    );
    expect(compared).toBeGreaterThan(150 * 3 * 0.95);
  });

  it("distances are the same, and none where edges cross", () => {
    const line = fc.array(fc.tuple(between(-300, 300), between(-300, 300)), { minLength: 1, maxLength: 12 });
    fc.assert(
      fc.property(outline, line, (polygon, points) => {
        const index = new EdgeIndex(edgesOf({ points: [], lines: [], polygons: [polygon] }));
        const shape =
          points.length === 1
            ? { points, lines: [], polygons: [] }
            : { points: [], lines: [points], polygons: [] };
        const coordinates = points.map(([x, y]) => new Coordinate(x, y));
        const other =
          points.length === 1 ? factory.createPoint(coordinates[0]) : factory.createLineString(coordinates);
        const edges = theirs(polygon).getBoundary();
        expect(index.apart(edgesOf(shape))).toBeCloseTo(DistanceOp.distance(edges, other), 9);
      }),
      { numRuns: 300 },
    );
  });
});
