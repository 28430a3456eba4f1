/**
 * Where someone who walks the field stands to the zones: in which and how deep, or how far off the nearest. What the
 * position is uncertain by counts against them: who may be inside is inside.
 */
import type { MultiPolygon, Polygon } from "geojson";
import { type GeoPoint, type LocalPlane, localPlane, planeBearing } from "../earth";
import { clip } from "./clip";
import * as planar from "./planar";
import { shapeOf } from "./project";

export interface WalkZone {
  id: string;
  geometry: Polygon | MultiPolygon;
}

export interface WalkGround {
  plane: LocalPlane;
  zones: { id: string; polygons: readonly planar.Polygon[] }[];
  /** All zones together, what they enclose on all sides filled in: the way out leads out of this. */
  whole: readonly planar.Polygon[];
}

/** A way over the ground: m, and degrees true. */
export interface Way {
  distance: number;
  bearing: number;
}

export type WalkState =
  /** There are no zones. */
  | { where: "nowhere" }
  | {
      where: "inside";
      /** The deepest first: m to its own nearest edge, accuracy added. */
      zones: { id: string; depth: number }[];
      /** Out of all of them; where a place is enclosed by zones, through them. */
      out: Way;
    }
  /** In no zone, but on ground that zones enclose on all sides, which counts as zone for the day: out through them. */
  | { where: "enclosed"; out: Way }
  /** The nearest zone, accuracy taken off its distance. */
  | { where: "outside"; nearest: Way & { id: string } };

export function walkGround(zones: readonly WalkZone[], around: GeoPoint, height = 0): WalkGround {
  const plane = localPlane(around, height);
  const laid = zones.map(({ id, geometry }) => ({ id, polygons: shapeOf(geometry, plane).polygons }));
  const [first, ...others] = laid;
  const joined = first ? clip("union", first.polygons, ...others.map(({ polygons }) => polygons)) : [];
  return { plane, zones: laid, whole: joined.map(([outer = []]) => [outer]) };
}

/** `accuracy`: m, within which the position almost certainly lies, as phones give it. */
export function walkState(
  { plane, zones, whole }: WalkGround,
  { accuracy, ...point }: GeoPoint & { accuracy: number },
): WalkState {
  if (zones.length === 0) return { where: "nowhere" };
  const { east, north } = plane.toPlane(point);
  const at: planar.Point = [east, north];
  const near = zones
    .map(({ id, polygons }) => ({
      id,
      edge: nearestEdge(at, polygons),
      inside: planar.isInside(at, polygons),
    }))
    .map(({ id, edge, inside }) => ({ id, edge, off: inside ? -edge.distance : edge.distance }))
    .sort((a, b) => a.off - b.off);
  const within = near.filter(({ off }) => off <= accuracy);
  if (within.length > 0)
    return {
      where: "inside",
      zones: within.map(({ id, off }) => ({ id, depth: accuracy - off })),
      out: wayOut(at, whole, accuracy),
    };
  if (planar.isInside(at, whole)) return { where: "enclosed", out: wayOut(at, whole, accuracy) };
  const [nearest] = near as [(typeof near)[number]];
  return {
    where: "outside",
    nearest: {
      id: nearest.id,
      distance: nearest.off - accuracy,
      bearing: planeBearing({ east: nearest.edge.x - east, north: nearest.edge.y - north }),
    },
  };
}

/** Straight to the nearest edge and on by the accuracy; outside the edge, straight away from it. */
function wayOut(at: planar.Point, whole: readonly planar.Polygon[], accuracy: number): Way {
  const edge = nearestEdge(at, whole);
  const inside = planar.isInside(at, whole);
  const [east, north] = inside ? [edge.x - at[0], edge.y - at[1]] : [at[0] - edge.x, at[1] - edge.y];
  return {
    distance: inside ? edge.distance + accuracy : Math.max(0, accuracy - edge.distance),
    // On the edge itself there is no direction to it: square to it, away from the ground that it bounds.
    bearing:
      edge.distance < ON_EDGE
        ? planeBearing({ east: edge.outEast, north: edge.outNorth })
        : planeBearing({ east, north }),
  };
}

/** m */
const ON_EDGE = 0.01;

interface NearestEdge {
  x: number;
  y: number;
  distance: number;
  /** Square to the edge, out of the polygon. */
  outEast: number;
  outNorth: number;
}

function nearestEdge([px, py]: planar.Point, polygons: readonly planar.Polygon[]): NearestEdge {
  let best: NearestEdge = { x: px, y: py, distance: Number.POSITIVE_INFINITY, outEast: 0, outNorth: 1 };
  for (const rings of polygons)
    for (const [number, ring] of rings.entries()) {
      // A hole's outside is its middle.
      const turn = planar.ringArea(ring) > 0 === (number === 0) ? 1 : -1;
      for (const [index, a] of ring.entries()) {
        const b = ring[(index + 1) % ring.length] as planar.Point;
        const [dx, dy] = [b[0] - a[0], b[1] - a[1]];
        const [x, y] = planar.nearestOn([px, py], a, b);
        const distance = Math.hypot(px - x, py - y);
        if (distance < best.distance) best = { x, y, distance, outEast: turn * dy, outNorth: -turn * dx };
      }
    }
  return best;
}
