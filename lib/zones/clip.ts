/**
 * Clipping of polygons in the plane by Clipper2, which works in whole numbers and so always comes to an end: a grid
 * of 0.1 mm within 9 km of the plane's origin, 1 mm within 90 km.
 */
import { Clipper, ClipType, FillRule, type Path64, type PolyPath64, PolyTree64 } from "clipper2-ts";
import { type Point, type Polygon, type Ring, ringArea } from "./planar";

const GRID = 0.0001; // m
/** Largest coordinate on the grid: up to here the library's products are exact without big numbers. */
const LARGEST = 9e7;

const OPERATIONS = {
  difference: ClipType.Difference,
  intersection: ClipType.Intersection,
  union: ClipType.Union,
};

/** Outer rings turned one way and holes the other, so that polygons which overlap count as one piece of ground. */
function paths(polygons: readonly Polygon[], grid: number): Path64[] {
  const path = (ring: Ring, index: number): Path64 => {
    const points = ring.map(([x, y]) => ({ x: Math.round(x / grid), y: Math.round(y / grid) }));
    return ringArea(ring) > 0 === (index === 0) ? points : points.reverse();
  };
  return polygons.flatMap((rings) => rings.map(path));
}

/** Polygons whose outer ring comes first; the rings come back open, like those given. */
export function clip(
  operation: keyof typeof OPERATIONS,
  subject: readonly Polygon[],
  ...others: (readonly Polygon[])[]
): Polygon[] {
  let extent = 0;
  for (const polygons of [subject, ...others])
    for (const rings of polygons)
      for (const ring of rings)
        for (const [x, y] of ring) extent = Math.max(extent, Math.abs(x), Math.abs(y));
  const grid = Math.max(GRID, extent / LARGEST);
  const tree = new PolyTree64();
  Clipper.booleanOpWithPolyTree(
    OPERATIONS[operation],
    paths(subject, grid),
    others.flatMap((polygons) => paths(polygons, grid)),
    tree,
    FillRule.NonZero,
  );
  const found: Polygon[] = [];
  const ring = (node: PolyPath64) => (node.poly ?? []).map(({ x, y }): Point => [x * grid, y * grid]);
  const collect = (outer: PolyPath64): void => {
    const holes = children(outer);
    found.push([ring(outer), ...holes.map(ring)]);
    for (const hole of holes) for (const island of children(hole)) collect(island);
  };
  for (const outer of children(tree)) collect(outer);
  return found;
}

const children = (node: PolyPath64): PolyPath64[] =>
  Array.from({ length: node.count }, (_, index) => node.child(index));
