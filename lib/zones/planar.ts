/** Plane geometry on metres: areas, boxes, what is inside. */

export type Point = readonly [number, number];
/** Open: the first point is not repeated. */
export type Ring = readonly Point[];
/** Outer ring first, then holes. */
export type Polygon = readonly Ring[];

/** A geometry brought into the plane; a polygon's edges are its rings. */
export interface Shape {
  points: readonly Point[];
  lines: readonly (readonly Point[])[];
  polygons: readonly Polygon[];
}

/** Signed area, positive counter-clockwise. */
export function ringArea(ring: Ring): number {
  const [origin] = ring;
  if (!origin) return 0;
  let twice = 0;
  for (let index = 1; index + 1 < ring.length; index++) {
    const [ax, ay] = ring[index] as Point;
    const [bx, by] = ring[index + 1] as Point;
    twice += (ax - origin[0]) * (by - origin[1]) - (bx - origin[0]) * (ay - origin[1]);
  }
  return twice / 2;
}

/** Area of polygons with holes, m². */
export function areaOf(polygons: readonly Polygon[]): number {
  let area = 0;
  for (const rings of polygons) {
    for (const [index, ring] of rings.entries()) area += (index === 0 ? 1 : -1) * Math.abs(ringArea(ring));
  }
  return area;
}

export interface Box {
  west: number;
  south: number;
  east: number;
  north: number;
}

export function boxOf(polygons: readonly Polygon[], margin: number): Box {
  const points = polygons.flat(2) as Point[];
  const box = { west: Infinity, south: Infinity, east: -Infinity, north: -Infinity };
  for (const [x, y] of points) {
    box.west = Math.min(box.west, x - margin);
    box.south = Math.min(box.south, y - margin);
    box.east = Math.max(box.east, x + margin);
    box.north = Math.max(box.north, y + margin);
  }
  return box;
}

/**
 * Polygons cut down to a box, so that little is left to clip exactly (Sutherland-Hodgman). Inside the box they
 * are the same; on its border edges may run to and fro.
 */
export function trimmed(polygons: readonly Polygon[], box: Box): Polygon[] {
  const sides: [axis: 0 | 1, sign: 1 | -1, limit: number][] = [
    [0, 1, box.west],
    [0, -1, box.east],
    [1, 1, box.south],
    [1, -1, box.north],
  ];
  const cut = (ring: Ring) =>
    sides.reduce<Ring>((points, [axis, sign, limit]) => {
      const kept: Point[] = [];
      for (const [index, point] of points.entries()) {
        const before = points[(index + points.length - 1) % points.length] as Point;
        const now = sign * (point[axis] - limit);
        const then = sign * (before[axis] - limit);
        if (now >= 0 !== then >= 0) {
          const t = then / (then - now);
          kept.push([before[0] + t * (point[0] - before[0]), before[1] + t * (point[1] - before[1])]);
        }
        if (now >= 0) kept.push(point);
      }
      return kept;
    }, ring);
  return polygons
    .map((rings) => rings.map(cut).filter((ring) => ring.length > 2))
    .filter((rings) => rings.length > 0);
}

/** Whether a point lies inside (even-odd over all rings); on an edge it may be either. */
export function isInside([x, y]: Point, polygons: readonly Polygon[]): boolean {
  let inside = false;
  for (const rings of polygons) {
    for (const ring of rings) {
      for (let index = 0, before = ring.length - 1; index < ring.length; before = index++) {
        const [ax, ay] = ring[index] as Point;
        const [bx, by] = ring[before] as Point;
        if (ay > y !== by > y && x < ((bx - ax) * (y - ay)) / (by - ay) + ax) inside = !inside;
      }
    }
  }
  return inside;
}

const turn = (a: Point, b: Point, c: Point) => (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);

/** Whether two segments cross in a point inside both. */
export function crosses(a: Point, b: Point, c: Point, d: Point): boolean {
  return turn(a, b, c) * turn(a, b, d) < 0 && turn(c, d, a) * turn(c, d, b) < 0;
}

/** The point of a segment that is nearest to a point. */
export function nearestOn([px, py]: Point, [ax, ay]: Point, [bx, by]: Point): Point {
  const [dx, dy] = [bx - ax, by - ay];
  const squared = dx * dx + dy * dy;
  const along = squared === 0 ? 0 : ((px - ax) * dx + (py - ay) * dy) / squared;
  const t = Math.min(1, Math.max(0, along));
  return [ax + t * dx, ay + t * dy];
}

export function lineLength(line: readonly Point[]): number {
  let length = 0;
  for (let index = 1; index < line.length; index++) {
    const [ax, ay] = line[index - 1] as Point;
    const [bx, by] = line[index] as Point;
    length += Math.hypot(bx - ax, by - ay);
  }
  return length;
}
