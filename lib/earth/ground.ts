/**
 * The ground between measured heights, and the plane below it on which a throw is to land. Between the heights the
 * ground is the triangulation of Delaunay, flat in every triangle; outside their hull it is taken as low as the lowest
 * of them, never as the slope going on: what nobody measured may not rise.
 */
import Delaunator from "delaunator";
import { type GeoPoint, localPlane } from "./geodesic";
import { highestPlane, lowered, type Plane, type Support } from "./highest-plane";

export interface GroundPoint extends GeoPoint {
  /** Of the ground, m above the ellipsoid. */
  height: number;
}

export interface GroundZone {
  origin: GroundPoint;
  /** m: the machine may stand this far from the origin. */
  accuracy?: number;
  /** Degrees true. */
  bearing: number;
  /** m at i degrees clockwise from the bearing, 360 numbers: how far the ground counts. */
  reach: readonly number[];
}

/** A plane as a hazard request has it: m below the origin's ground; degrees it falls ahead and to the right. */
export interface PlaneBelow {
  below: number;
  slope: number;
  crossSlope: number;
}

export interface GroundBelow extends PlaneBelow {
  /** Whether the zone goes beyond the hull of the heights, where the lowest of them counts. */
  beyond: boolean;
  /** The lowest height there is, m above the ellipsoid. */
  lowest: number;
}

const RADIANS = Math.PI / 180;
const DEGREES = 360;
/** What a hazard request takes, degrees. */
const SLOPES = { uphill: 30, downhill: 45, aside: 30 } as const;
/** Two heights nearer than this are of one place, m: the lower counts. */
const SAME_PLACE = 0.01;
/** Slopes are given to this, degrees; the plane is lowered so that it stays below. */
const SLOPE_STEP = 0.01;
/** So much of a centimetre is rounding, m. */
const ROUNDING = 1e-6;

/** x ahead and z to the right of the bearing, m; height above the ellipsoid, m. */
type Vertex = Support;

/**
 * The highest plane (in the mean over the zone) that lies nowhere above the ground within the zone, nor above the
 * ground where the machine stands. The earth's curvature is left out, as in flights: 8 cm in 1 km. Throws RangeError
 * without heights, and on a reach that is not 360 numbers.
 */
export function planeBelow(points: readonly GroundPoint[], zone: GroundZone): GroundBelow {
  const { reach, accuracy = 0 } = zone;
  if (reach.length !== DEGREES) throw new RangeError(`The reach needs ${DEGREES} numbers, one a degree.`);
  const vertices = placed(points, zone);
  const lowest = lowestOf(vertices);
  const triangles = triangulated(vertices);
  const area = areaOf(reach, accuracy);
  const supports: Support[] = triangles.flatMap((triangle) => clipped(triangle, area));
  // A hair outside the hull the ground is as low as anywhere: there the plane must be, on every edge of the hull.
  const hull = hullOf(vertices);
  const outside = [
    ...area.filter((corner) => !isInside(corner, hull)),
    ...clipped(hull, area).filter((corner) => onEdge(corner, hull)),
  ];
  const beyond = area.some((corner) => !isInside(corner, hull));
  if (beyond) supports.push(...outside.map(({ x, z }) => ({ x, z, height: lowest })));
  supports.push(...vertices.filter((vertex) => isInside(vertex, area)));

  const top = highestAt(zone, points);
  const limits = {
    level: top,
    ahead: [-Math.tan(SLOPES.downhill * RADIANS), Math.tan(SLOPES.uphill * RADIANS)],
    aside: Math.tan(SLOPES.aside * RADIANS),
  } as const;
  const best = highestPlane(supports, aimOf(area), limits);
  const slope = rounded(-Math.atan(best.ahead) / RADIANS);
  const crossSlope = rounded(-Math.atan(best.aside) / RADIANS);
  const tilted: Plane = {
    level: 0,
    ahead: -Math.tan(slope * RADIANS),
    aside: -Math.tan(crossSlope * RADIANS),
  };
  const { level } = lowered(tilted, supports, limits);
  const aside = accuracy * Math.hypot(tilted.ahead, tilted.aside);
  return { below: upToCentimetre(top - level + aside), slope, crossSlope, beyond, lowest };
}

/** The level plane at the lowest of the heights: below the ground however far a throw goes. */
export function levelBelow(points: readonly GroundPoint[], zone: Omit<GroundZone, "reach">): GroundBelow {
  const vertices = placed(points, { ...zone, bearing: 0 });
  const lowest = lowestOf(vertices);
  const top = highestAt(zone, points);
  return { below: upToCentimetre(top - lowest), slope: 0, crossSlope: 0, beyond: true, lowest };
}

/** Whether heights lie on all sides of wherever a machine may stand, so that they tell the ground there. */
export function isAmidHeights(points: readonly GroundPoint[], origin: GroundPoint, accuracy = 0): boolean {
  const hull = hullOf(placed(points, { origin, bearing: 0 }));
  return squareOf(accuracy).every((corner) => isInside(corner, hull));
}

const rounded = (degrees: number) => Math.round(degrees / SLOPE_STEP) * SLOPE_STEP + 0;
const upToCentimetre = (metres: number) => Math.max(0, Math.ceil((metres - ROUNDING) * 100) / 100);

function lowestOf(vertices: readonly Vertex[]): number {
  if (vertices.length === 0) throw new RangeError("There are no heights.");
  return Math.min(...vertices.map(({ height }) => height));
}

/** Heights in the machine's own plane; the lower one where two are of one place. */
function placed(
  points: readonly GroundPoint[],
  { origin, bearing }: Pick<GroundZone, "origin" | "bearing">,
): Vertex[] {
  const plane = localPlane(origin, origin.height);
  const sin = Math.sin(bearing * RADIANS);
  const cos = Math.cos(bearing * RADIANS);
  const vertices = new Map<string, Vertex>();
  for (const point of points) {
    const { east, north } = plane.toPlane(point);
    const key = `${Math.round(east / SAME_PLACE)} ${Math.round(north / SAME_PLACE)}`;
    const known = vertices.get(key);
    if (known && known.height <= point.height) continue;
    vertices.set(key, { x: east * sin + north * cos, z: east * cos - north * sin, height: point.height });
  }
  return [...vertices.values()];
}

function triangulated(vertices: readonly Vertex[]): Vertex[][] {
  const { triangles } = Delaunator.from(
    [...vertices],
    ({ x }) => x,
    ({ z }) => z,
  );
  const found: Vertex[][] = [];
  for (let index = 0; index + 2 < triangles.length; index += 3) {
    found.push([0, 1, 2].map((corner) => vertices[triangles[index + corner] as number] as Vertex));
  }
  return found;
}

/**
 * The highest that the machine may stand, m: its own height, or the ground that the other heights show within its
 * uncertainty. Moved up a slope, or entered without a height, a firing point would else hide the fall in front of it.
 */
function highestAt(
  { origin, accuracy = 0 }: Pick<GroundZone, "origin" | "accuracy">,
  points: readonly GroundPoint[],
): number {
  const others = points.filter(
    ({ latitude, longitude, height }) =>
      latitude !== origin.latitude || longitude !== origin.longitude || height !== origin.height,
  );
  const triangles = triangulated(placed(others, { origin, bearing: 0 }));
  const around = triangles.flatMap((triangle) => clipped(triangle, hullOf(squareOf(accuracy))));
  return Math.max(origin.height, ...around.map(({ height }) => height));
}

/** Corners of the square about the origin that holds wherever the machine may stand. */
function squareOf(accuracy: number): Vertex[] {
  const half = Math.max(accuracy, SAME_PLACE);
  return [
    [half, -half],
    [half, half],
    [-half, half],
    [-half, -half],
  ].map(([x, z]) => ({ x: x as number, z: z as number, height: 0 }));
}

/** A convex area, counter-clockwise, that holds everything within reach of wherever the machine may stand. */
function areaOf(reach: readonly number[], accuracy: number): Vertex[] {
  const outwards = 1 / Math.cos(0.5 * RADIANS);
  const corners = reach.map((_, degree) => {
    const radius = Math.max(
      reach[(degree + DEGREES - 1) % DEGREES] as number,
      reach[degree] as number,
      reach[(degree + 1) % DEGREES] as number,
    );
    const out = (Math.max(radius, 1) + accuracy) * outwards;
    return { x: out * Math.cos(degree * RADIANS), z: out * Math.sin(degree * RADIANS), height: 0 };
  });
  return hullOf(corners);
}

const turn = (a: Vertex, b: Vertex, c: Vertex) => (b.x - a.x) * (c.z - a.z) - (b.z - a.z) * (c.x - a.x);

/** Convex hull, counter-clockwise with x to the right and z up (Andrew's monotone chain). */
function hullOf(vertices: readonly Vertex[]): Vertex[] {
  const sorted = [...vertices].sort((a, b) => a.x - b.x || a.z - b.z);
  const chain = (ordered: readonly Vertex[]) => {
    const kept: Vertex[] = [];
    for (const vertex of ordered) {
      while (kept.length > 1 && turn(kept.at(-2) as Vertex, kept.at(-1) as Vertex, vertex) <= 0) kept.pop();
      kept.push(vertex);
    }
    return kept.slice(0, -1);
  };
  return [...chain(sorted), ...chain(sorted.reverse())];
}

/** A convex polygon holds what lies left of all its edges; a hull of less than three corners holds nothing. */
function isInside(point: Vertex, hull: readonly Vertex[]): boolean {
  if (hull.length < 3) return false;
  return hull.every((corner, index) => turn(corner, hull[(index + 1) % hull.length] as Vertex, point) >= 0);
}

/** Within a hair of one of the edges, m. */
function onEdge(point: Vertex, hull: readonly Vertex[]): boolean {
  return hull.some((corner, index) => {
    const next = hull[(index + 1) % hull.length] as Vertex;
    const length = Math.hypot(next.x - corner.x, next.z - corner.z);
    return Math.abs(turn(corner, next, point)) <= 1e-6 * Math.max(length, 1);
  });
}

/** A convex polygon cut down to another (Sutherland-Hodgman), its heights going along. */
function clipped(polygon: readonly Vertex[], area: readonly Vertex[]): Vertex[] {
  return area.reduce<Vertex[]>(
    (left, corner, index) => {
      const next = area[(index + 1) % area.length] as Vertex;
      const kept: Vertex[] = [];
      for (const [at, point] of left.entries()) {
        const before = left[(at + left.length - 1) % left.length] as Vertex;
        const now = turn(corner, next, point);
        const then = turn(corner, next, before);
        if (now >= 0 !== then >= 0) {
          const t = then / (then - now);
          kept.push({
            x: before.x + t * (point.x - before.x),
            z: before.z + t * (point.z - before.z),
            height: before.height + t * (point.height - before.height),
          });
        }
        if (now >= 0) kept.push(point);
      }
      return kept;
    },
    [...polygon],
  );
}

/** Means of x and |z| over a convex area that holds the origin: as triangles from the line z = 0. */
function aimOf(area: readonly Vertex[]): { x: number; z: number } {
  const far = 1e6;
  const half = (sign: 1 | -1): Vertex[] =>
    hullOf(
      [
        [-far, 0],
        [far, 0],
        [far, sign * far],
        [-far, sign * far],
      ].map(([x, z]) => ({ x: x as number, z: z as number, height: 0 })),
    );
  let [size, x, z] = [0, 0, 0];
  for (const sign of [1, -1] as const) {
    const part = clipped(area, half(sign));
    for (let index = 1; index + 1 < part.length; index++) {
      const [a, b, c] = [part[0], part[index], part[index + 1]] as [Vertex, Vertex, Vertex];
      const twice = turn(a, b, c);
      size += twice;
      x += (twice * (a.x + b.x + c.x)) / 3;
      z += (twice * sign * (a.z + b.z + c.z)) / 3;
    }
  }
  return { x: x / size, z: z / size };
}
