/** Geometry of longitude and latitude brought into a plane on metres, and back. */
import type { Geometry, LineString, MultiPolygon, Point, Polygon, Position } from "geojson";
import { type GeoPoint, type LocalPlane, normalLongitude, unwrapped } from "../earth";
import type * as planar from "./planar";
import { rounded } from "./reach";

/** Edges are straight in longitude and latitude (RFC 7946, 3.1.1); split to this they are so in the plane, m. */
const LONGEST_EDGE = 200;
const METRES_PER_DEGREE = 111_320;

/** A line of positions brought into the plane, split where it is long. */
function project(positions: readonly Position[], plane: LocalPlane): planar.Point[] {
  const points: planar.Point[] = [];
  let before: readonly [number, number] | null = null;
  for (const position of positions) {
    const latitude = position[1] as number;
    const longitude = unwrapped(position[0] as number, before?.[0] ?? plane.origin.longitude);
    if (before) {
      const [lon, lat]: readonly [number, number] = before;
      const span = Math.hypot(longitude - lon, latitude - lat) * METRES_PER_DEGREE;
      const count = Math.max(1, Math.ceil(span / LONGEST_EDGE));
      for (let index = 1; index < count; index++) {
        const t = index / count;
        points.push(place(lon + t * (longitude - lon), lat + t * (latitude - lat), plane));
      }
    }
    points.push(place(longitude, latitude, plane));
    before = [longitude, latitude];
  }
  return points;
}

function place(longitude: number, latitude: number, plane: LocalPlane): planar.Point {
  const { east, north } = plane.toPlane({ latitude, longitude });
  return [east, north];
}

const projectRing = (ring: readonly Position[], plane: LocalPlane) => project(ring, plane).slice(0, -1);

export function shapeOf(
  geometry: Point | LineString | Polygon | MultiPolygon,
  plane: LocalPlane,
): planar.Shape {
  const empty = { points: [], lines: [], polygons: [] };
  switch (geometry.type) {
    case "Point":
      return { ...empty, points: project([geometry.coordinates], plane) };
    case "LineString":
      return { ...empty, lines: [project(geometry.coordinates, plane)] };
    case "Polygon":
      return { ...empty, polygons: [geometry.coordinates.map((ring) => projectRing(ring, plane))] };
    case "MultiPolygon":
      return {
        ...empty,
        polygons: geometry.coordinates.map((rings) => rings.map((ring) => projectRing(ring, plane))),
      };
  }
}

/** The middle of a geometry's box: where the plane touches the ground. */
export function middle(geometry: Polygon | MultiPolygon): GeoPoint {
  const positions = geometry.type === "Polygon" ? geometry.coordinates.flat() : geometry.coordinates.flat(2);
  const near = positions[0]?.[0] as number;
  let [west, south, east, north] = [Number.POSITIVE_INFINITY, 90, Number.NEGATIVE_INFINITY, -90];
  for (const [longitude, latitude] of positions as [number, number][]) {
    west = Math.min(west, unwrapped(longitude, near));
    east = Math.max(east, unwrapped(longitude, near));
    south = Math.min(south, latitude);
    north = Math.max(north, latitude);
  }
  return { latitude: (south + north) / 2, longitude: normalLongitude((west + east) / 2) };
}

/** To 0.1 mm. Across the antimeridian the longitudes run on past ±180, as those of zones do. */
export function position(point: planar.Point, plane: LocalPlane): Position {
  const { latitude, longitude } = plane.toPoint({ east: point[0], north: point[1] });
  return [rounded(unwrapped(longitude, plane.origin.longitude)), rounded(latitude)];
}

export function polygonGeometry(
  polygons: readonly planar.Polygon[],
  plane: LocalPlane,
): Polygon | MultiPolygon | null {
  const coordinates = polygons.map((rings) =>
    rings.map((ring) => {
      const positions = ring.map((point) => position(point, plane));
      return [...positions, positions[0] as Position];
    }),
  );
  const [only] = coordinates;
  if (!only) return null;
  return coordinates.length === 1
    ? { type: "Polygon", coordinates: only }
    : { type: "MultiPolygon", coordinates };
}

export function lineGeometry(lines: readonly planar.Point[][], plane: LocalPlane): Geometry | null {
  const coordinates = lines.map((line) => line.map((point) => position(point, plane)));
  const [only] = coordinates;
  if (!only) return null;
  return coordinates.length === 1
    ? { type: "LineString", coordinates: only }
    : { type: "MultiLineString", coordinates };
}
