/**
 * Exact clipping of polygons in the plane. polyclip-ts computes without rounding, but where edges of the two
 * polygons all but coincide it was seen to give up (3 of 600 hard cases; JSTS gave up in 14 of them). On
 * coordinates rounded to a grid of 0.1 mm it solved all 600.
 */
import { difference, intersection, union } from "polyclip-ts";
import type { Point, Polygon } from "./planar";

/** m; a coarser grid is tried only when clipping on a finer one fails. */
const GRIDS = [0.0001, 0.001, 0.01] as const;

const OPERATIONS = { difference, intersection, union };

function toGrid(polygons: readonly Polygon[], grid: number): [number, number][][][] {
  return polygons
    .map((rings) =>
      rings
        .map((ring) => ring.map(([x, y]): [number, number] => [Math.round(x / grid), Math.round(y / grid)]))
        .filter((ring) => new Set(ring.map(String)).size > 2),
    )
    .filter((rings) => rings.length > 0);
}

/** Polygons whose outer ring comes first; the rings come back open, like those given. */
export function clip(
  operation: keyof typeof OPERATIONS,
  subject: readonly Polygon[],
  ...others: (readonly Polygon[])[]
): Polygon[] {
  let failure: unknown;
  for (const grid of GRIDS) {
    try {
      const result = OPERATIONS[operation](
        toGrid(subject, grid),
        ...others.map((polygons) => toGrid(polygons, grid)),
      );
      return result.map((rings) =>
        rings.map((ring) => ring.slice(0, -1).map(([x, y]): Point => [x * grid, y * grid])),
      );
    } catch (error) {
      failure = error;
    }
  }
  throw new Error("The overlap of two areas could not be computed.", { cause: failure });
}
