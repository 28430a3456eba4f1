/** What a keep-out zone touches, and how far it stays from the rest. */
import type { Geometry, LineString, MultiPolygon, Point, Polygon, Position } from "geojson";
import { type LocalPlane, localPlane, normalLongitude } from "../earth";
import { clip } from "./clip";
import { type FeatureKind, type FeatureKindName, featureKind } from "./kinds";
import * as planar from "./planar";
import { unwrapped } from "./reach";

export interface ZoneFeature {
  id: string;
  kind: FeatureKindName;
  /** Longitude before latitude. */
  geometry: Point | LineString | Polygon;
  /** m; the kind's default if null or left out. */
  standOff?: number | null | undefined;
}

export interface Conflict {
  featureId: string;
  kind: FeatureKindName;
  /** Whether the zone reaches the feature; of a boundary, whether it reaches the edge or beyond. */
  touches: boolean;
  /** m² of the feature inside the zone; of a boundary, of the zone outside; 0 for lines and points. */
  overlapArea: number;
  /** m of a line inside the zone; 0 for the others. */
  overlapLength: number;
  /** m between zone and feature, 0 when they touch; of a boundary, from the zone to its edge. */
  distance: number;
  /** m that this feature asks for. */
  standOff: number;
  /** Against the feature's rule: touched, or nearer than its stand-off. */
  inConflict: boolean;
  /** The part inside the zone (of a boundary: the part of the zone outside), for the map; null when none. */
  overlap: Geometry | null;
}

/** Nearer than this is touching: below what a map or a tape can tell, m. */
const TOUCHING = 0.001;
/** Edges are straight in longitude and latitude (RFC 7946, 3.1.1); split to this they are so in the plane, m. */
const LONGEST_EDGE = 200;
const METRES_PER_DEGREE = 111_320;
/** Around a feature, where the zone is cut before the exact clipping, m. */
const MARGIN = 10;

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

function shapeOf(geometry: Point | LineString | Polygon | MultiPolygon, plane: LocalPlane): planar.Shape {
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
function middle(geometry: Polygon | MultiPolygon) {
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

function position(point: planar.Point, plane: LocalPlane): Position {
  const { latitude, longitude } = plane.toPoint({ east: point[0], north: point[1] });
  return [longitude, latitude];
}

function polygonGeometry(polygons: readonly planar.Polygon[], plane: LocalPlane): Geometry | null {
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

function lineGeometry(lines: readonly planar.Point[][], plane: LocalPlane): Geometry | null {
  const coordinates = lines.map((line) => line.map((point) => position(point, plane)));
  const [only] = coordinates;
  if (!only) return null;
  return coordinates.length === 1
    ? { type: "LineString", coordinates: only }
    : { type: "MultiLineString", coordinates };
}

interface Zone {
  plane: LocalPlane;
  polygons: readonly planar.Polygon[];
  edges: ReturnType<typeof planar.edgesOf>;
}

type Measured = Pick<Conflict, "touches" | "overlapArea" | "overlapLength" | "distance" | "overlap">;

/** The part that a zone and a polygon share. Only where edges meet does it take clipping. */
function shared(zone: Zone, polygons: readonly planar.Polygon[], edgesMeet: boolean): planar.Polygon[] {
  if (edgesMeet) {
    const near = planar.trimmed(zone.polygons, planar.boxOf(polygons, MARGIN));
    return near.length > 0 ? clip("intersection", near, polygons) : [];
  }
  const someVertex = polygons[0]?.[0]?.[0];
  if (someVertex && planar.isInside(someVertex, zone.polygons)) return [...polygons];
  const zoneVertex = zone.polygons[0]?.[0]?.[0];
  return zoneVertex && planar.isInside(zoneVertex, polygons) ? [...zone.polygons] : [];
}

function measure(zone: Zone, geometry: ZoneFeature["geometry"]): Measured {
  const shape = shapeOf(geometry, zone.plane);
  const apart = planar.edgeDistance(zone.edges, planar.edgesOf(shape));
  const edgesMeet = apart < TOUCHING;
  const inside = shape.polygons.length > 0 ? shared(zone, shape.polygons, edgesMeet) : [];
  const pieces = shape.lines.flatMap((line) => planar.lineInside(line, zone.polygons));
  const points = shape.points.filter((point) => planar.isInside(point, zone.polygons));
  const touches = edgesMeet || inside.length > 0 || pieces.length > 0 || points.length > 0;
  const [point] = points;
  return {
    touches,
    overlapArea: planar.areaOf(inside),
    overlapLength: pieces.reduce((sum, piece) => sum + planar.lineLength(piece), 0),
    distance: touches ? 0 : apart,
    overlap:
      polygonGeometry(inside, zone.plane) ??
      lineGeometry(pieces, zone.plane) ??
      (point ? { type: "Point", coordinates: position(point, zone.plane) } : null),
  };
}

/** How a zone lies in the ground that all boundaries enclose together. */
function measureBoundary(zone: Zone, boundaries: readonly Polygon[]): Measured {
  const each = boundaries.map((boundary) => shapeOf(boundary, zone.plane).polygons);
  const [first, ...others] = each;
  if (!first) throw new RangeError("A boundary is a polygon.");
  const ground = others.length > 0 ? clip("union", first, ...others) : first;
  const apart = planar.edgeDistance(zone.edges, planar.edgesOf({ points: [], lines: [], polygons: ground }));
  const zoneVertex = zone.polygons[0]?.[0]?.[0];
  const startsInside = zoneVertex !== undefined && planar.isInside(zoneVertex, ground);
  const edgesMeet = apart < TOUCHING;
  let outside: planar.Polygon[] = [];
  // A hole in the ground may lie wholly inside the zone, where no edges meet.
  const holes = ground.some((rings) => rings.length > 1);
  if (edgesMeet || holes) outside = clip("difference", zone.polygons, ground);
  else if (!startsInside) outside = [...zone.polygons];
  const touches = edgesMeet || outside.length > 0;
  return {
    touches,
    overlapArea: planar.areaOf(outside),
    overlapLength: 0,
    distance: touches ? 0 : apart,
    overlap: polygonGeometry(outside, zone.plane),
  };
}

/** Whether what was measured is against the rule. A stand-off above zero protects any kind. */
function breaks(kind: FeatureKind, { touches, distance }: Measured, standOff: number): boolean {
  const strict = kind.rule === "protected" || kind.rule === "contains";
  return (touches && strict) || distance < standOff;
}

/**
 * How a zone stands to every feature, in the order given. Areas to 0.1 %, distances to 1 cm within 1 km.
 *
 * `zone`: longitude and latitude, as `reachPolygon` makes it. `height`: of the ground, m above the ellipsoid.
 * Several boundaries count as one piece of ground. Throws RangeError on a kind that there is not.
 */
export function conflicts(
  zone: Polygon | MultiPolygon,
  features: readonly ZoneFeature[],
  height = 0,
): Conflict[] {
  const plane = localPlane(middle(zone), height);
  const shape = shapeOf(zone, plane);
  const prepared: Zone = { plane, polygons: shape.polygons, edges: planar.edgesOf(shape) };
  const boundaries = features.flatMap((feature) =>
    featureKind(feature.kind).rule === "contains" && feature.geometry.type === "Polygon"
      ? [feature.geometry]
      : [],
  );
  const boundary = boundaries.length > 0 ? measureBoundary(prepared, boundaries) : null;
  return features.map((feature) => {
    const kind = featureKind(feature.kind);
    const measured =
      kind.rule === "contains" && boundary !== null ? boundary : measure(prepared, feature.geometry);
    const standOff = feature.standOff ?? kind.standOff;
    return {
      featureId: feature.id,
      kind: feature.kind,
      ...measured,
      standOff,
      inConflict: breaks(kind, measured, standOff),
    };
  });
}
