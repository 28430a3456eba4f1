/**
 * The edges of a shape in a tree of boxes, so that the nearest of a thousand is found by looking at some twenty. Edges
 * of a ring follow one another, so neighbours in the list are neighbours on the ground and the tree needs no sorting.
 */
import type { Point, Shape } from "./planar";

const FAN = 4;
/** What a search has still to visit: at most three brothers on each level. */
const depths = new Int32Array(128);
const nodes = new Int32Array(128);
const place = new Float64Array(4);
/** West, south, east, north of the edges that are searched with. */
const around = new Float64Array(4);

/** Every edge of a shape, four numbers each: a point is an edge of no length, a polygon's edges are its rings. */
export function edgesOf(shape: Shape): Float64Array {
  const ends: number[] = [];
  for (const [x, y] of shape.points) ends.push(x, y, x, y);
  const join = (from: Point, to: Point) => ends.push(from[0], from[1], to[0], to[1]);
  for (const line of shape.lines)
    for (let index = 1; index < line.length; index++) join(line[index - 1] as Point, line[index] as Point);
  for (const rings of shape.polygons)
    for (const ring of rings)
      for (const [index, point] of ring.entries()) join(point, ring[(index + 1) % ring.length] as Point);
  return Float64Array.from(ends);
}

export class EdgeIndex {
  readonly ends: Float64Array;
  readonly count: number;
  /** Boxes west, south, east, north: of the edges, of four edges each, of four of those, and so on to one. */
  readonly #levels: Float64Array[] = [];
  /** Where the last search ended: the next one is likely near. */
  #hint = 0;

  constructor(ends: Float64Array) {
    this.ends = ends;
    this.count = ends.length / 4;
    const boxes = new Float64Array(ends.length);
    for (let at = 0; at < ends.length; at += 4) {
      boxes[at] = Math.min(ends[at], ends[at + 2]);
      boxes[at + 1] = Math.min(ends[at + 1], ends[at + 3]);
      boxes[at + 2] = Math.max(ends[at], ends[at + 2]);
      boxes[at + 3] = Math.max(ends[at + 1], ends[at + 3]);
    }
    this.#levels.push(boxes);
    for (let below: Float64Array = boxes; below.length > 4; below = this.#levels.at(-1) as Float64Array) {
      const count = Math.ceil(below.length / 4 / FAN);
      const level = new Float64Array(count * 4);
      for (let node = 0; node < count; node++) {
        let [west, south, east, north] = [Infinity, Infinity, -Infinity, -Infinity];
        const end = Math.min((node + 1) * FAN * 4, below.length);
        for (let at = node * FAN * 4; at < end; at += 4) {
          west = Math.min(west, below[at]);
          south = Math.min(south, below[at + 1]);
          east = Math.max(east, below[at + 2]);
          north = Math.max(north, below[at + 3]);
        }
        level.set([west, south, east, north], node * 4);
      }
      this.#levels.push(level);
    }
  }

  /** The least distance from any of these edges, four numbers each, to any of the index; infinite without edges. */
  apart(ends: Float64Array): number {
    if (this.count === 0 || ends.length === 0) return Number.POSITIVE_INFINITY;
    setAround(ends);
    let least = this.#closer(ends, this.#hint, Number.POSITIVE_INFINITY);
    let size = 0;
    depths[size] = this.#levels.length - 1;
    nodes[size++] = 0;
    while (size > 0) {
      const depth = depths[--size];
      const node = nodes[size];
      const boxes = this.#levels[depth];
      const at = node * 4;
      const x = Math.max(0, boxes[at] - around[2], around[0] - boxes[at + 2]);
      const y = Math.max(0, boxes[at + 1] - around[3], around[1] - boxes[at + 3]);
      if (x * x + y * y >= least) continue;
      if (depth === 0) {
        const closer = this.#closer(ends, node, least);
        if (closer < least) {
          least = closer;
          this.#hint = node;
        }
        continue;
      }
      const end = Math.min((node + 1) * FAN, this.#levels[depth - 1].length / 4);
      for (let child = node * FAN; child < end; child++) {
        depths[size] = depth - 1;
        nodes[size++] = child;
      }
    }
    return Math.sqrt(least);
  }

  /** The squared distance from any of these edges to one of the index, if it is less than `least`; else that. */
  #closer(ends: Float64Array, edge: number, least: number): number {
    const mine = this.ends;
    const at = edge * 4;
    const cx = mine[at];
    const cy = mine[at + 1];
    const dx = mine[at + 2];
    const dy = mine[at + 3];
    for (let other = 0; other < ends.length; other += 4) {
      const ax = ends[other];
      const ay = ends[other + 1];
      const bx = ends[other + 2];
      const by = ends[other + 3];
      const x = Math.max(0, Math.min(cx, dx) - Math.max(ax, bx), Math.min(ax, bx) - Math.max(cx, dx));
      const y = Math.max(0, Math.min(cy, dy) - Math.max(ay, by), Math.min(ay, by) - Math.max(cy, dy));
      if (x * x + y * y < least) least = Math.min(least, segmentsApart(ax, ay, bx, by, cx, cy, dx, dy));
    }
    return least;
  }

  /** The distance from a point to the nearest edge. */
  distance(x: number, y: number): number {
    place[0] = place[2] = x;
    place[1] = place[3] = y;
    return this.apart(place);
  }

  /** Whether a point lies inside (even-odd over all edges, which must be rings); on an edge it may be either. */
  contains(x: number, y: number): boolean {
    let inside = false;
    const { ends } = this;
    this.#search(
      (boxes, at) => boxes[at + 1] <= y && boxes[at + 3] >= y && boxes[at + 2] >= x,
      (edge) => {
        const at = edge * 4;
        const [ax, ay, bx, by] = [ends[at], ends[at + 1], ends[at + 2], ends[at + 3]];
        if (ay > y !== by > y && x < ((bx - ax) * (y - ay)) / (by - ay) + ax) inside = !inside;
      },
    );
    return inside;
  }

  /** The edges whose boxes meet that of a segment, widened by a hair. */
  near(ax: number, ay: number, bx: number, by: number): number[] {
    const hair = 1e-6;
    const [west, south] = [Math.min(ax, bx) - hair, Math.min(ay, by) - hair];
    const [east, north] = [Math.max(ax, bx) + hair, Math.max(ay, by) + hair];
    const found: number[] = [];
    this.#search(
      (boxes, at) =>
        boxes[at] <= east && boxes[at + 2] >= west && boxes[at + 1] <= north && boxes[at + 3] >= south,
      (edge) => found.push(edge),
    );
    return found;
  }

  #search(wanted: (boxes: Float64Array, at: number) => boolean, found: (edge: number) => void): void {
    const visit = (depth: number, node: number): void => {
      if (!wanted(this.#levels[depth] as Float64Array, node * 4)) return;
      if (depth === 0) {
        found(node);
        return;
      }
      const below = (this.#levels[depth - 1] as Float64Array).length / 4;
      const end = Math.min((node + 1) * FAN, below);
      for (let child = node * FAN; child < end; child++) visit(depth - 1, child);
    };
    if (this.count > 0) visit(this.#levels.length - 1, 0);
  }
}

function setAround(ends: Float64Array): void {
  around[0] = around[1] = Number.POSITIVE_INFINITY;
  around[2] = around[3] = Number.NEGATIVE_INFINITY;
  for (let at = 0; at < ends.length; at += 2) {
    const x = ends[at];
    const y = ends[at + 1];
    if (x < around[0]) around[0] = x;
    if (y < around[1]) around[1] = y;
    if (x > around[2]) around[2] = x;
    if (y > around[3]) around[3] = y;
  }
}

/** Squared distance from a point to a segment. */
function pointApart(px: number, py: number, ax: number, ay: number, bx: number, by: number): number {
  const dx = bx - ax;
  const dy = by - ay;
  const squared = dx * dx + dy * dy;
  const along = squared === 0 ? 0 : ((px - ax) * dx + (py - ay) * dy) / squared;
  const t = Math.min(1, Math.max(0, along));
  const x = px - ax - t * dx;
  const y = py - ay - t * dy;
  return x * x + y * y;
}

/** Squared distance between two segments; 0 where they cross. */
function segmentsApart(
  ax: number,
  ay: number,
  bx: number,
  by: number,
  cx: number,
  cy: number,
  dx: number,
  dy: number,
): number {
  const c = (bx - ax) * (cy - ay) - (by - ay) * (cx - ax);
  const d = (bx - ax) * (dy - ay) - (by - ay) * (dx - ax);
  if (c * d < 0) {
    const a = (dx - cx) * (ay - cy) - (dy - cy) * (ax - cx);
    const b = (dx - cx) * (by - cy) - (dy - cy) * (bx - cx);
    if (a * b < 0) return 0;
  }
  return Math.min(
    pointApart(ax, ay, cx, cy, dx, dy),
    pointApart(bx, by, cx, cy, dx, dy),
    pointApart(cx, cy, ax, ay, bx, by),
    pointApart(dx, dy, ax, ay, bx, by),
  );
}
