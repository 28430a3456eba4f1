/** Who must move, or stay under cover, when a machine fires. */
import type { GeoPoint } from "../earth";
import type { Conflict } from "./conflicts";
import { EdgeIndex, edgesOf } from "./edge-index";
import * as planar from "./planar";
import type { LaidFeature, LaidZone, Site } from "./site";

/** A firing point, where crews stand at other machines. */
export interface CrewPlace extends GeoPoint {
  id: string;
  /** m: how far from these coordinates they may be. */
  accuracy: number;
}

export interface StandClear {
  what: "firing-point" | "feature";
  id: string;
  /** m from the deepest place of it to the nearest way out of the zone. */
  depth: number;
  /** m of a line inside the zone, else 0. */
  length: number;
  /** m² of an area inside the zone, else 0. */
  area: number;
}

/** The deepest place is found to this many metres, or this share of its depth. */
const PRECISION = 0.05;
const SHARE = 0.005;
const precision = (depth: number) => Math.max(PRECISION, SHARE * depth);

/**
 * The firing points (all that are given: leave out the machine's own) and the features that may lie in the zone, in
 * the order given. `conflicts`: what `conflictsOn` says of this zone on this site. An agreed road is closed, and so
 * must be watched like a path.
 */
export function standClear(
  site: Site,
  zone: LaidZone,
  conflicts: readonly Conflict[],
  places: readonly CrewPlace[],
): StandClear[] {
  const crews = places.flatMap((place): StandClear[] => {
    const { east, north } = site.plane.toPlane(place);
    const depth = depthAt(zone, east, north) + place.accuracy;
    return depth < 0 ? [] : [{ what: "firing-point", id: place.id, depth, length: 0, area: 0 }];
  });
  const features = site.features.flatMap((laid, index): StandClear[] => {
    const found = conflicts[index];
    if (!found?.touches || !isCleared(found)) return [];
    const { overlapLength, overlapArea } = found;
    const depth = Math.max(0, deepest(zone, laid));
    return [{ what: "feature", id: laid.feature.id, depth, length: overlapLength, area: overlapArea }];
  });
  return [...crews, ...features];
}

const isCleared = ({ rule, kind, agreed }: Conflict) =>
  rule === "hot" || rule === "sheltered" || (kind === "road" && agreed !== null);

/** m from a place to the zone's edge, negative outside. */
export function depthAt(zone: LaidZone, x: number, y: number): number {
  const edge = zone.edges.distance(x, y);
  return zone.edges.contains(x, y) ? edge : -edge;
}

/**
 * The most that any point of a feature lies inside. Over a piece of a line or a cell of an area the depth is at most
 * its middle's and half the piece more, so what cannot do better is not divided further.
 */
function deepest(zone: LaidZone, { shape }: LaidFeature): number {
  let best = Number.NEGATIVE_INFINITY;
  const at = (x: number, y: number) => {
    const depth = depthAt(zone, x, y);
    best = Math.max(best, depth);
    return depth;
  };
  for (const [x, y] of shape.points) at(x, y);
  const ends = edgesOf({ ...shape, points: [] });
  const pieces: [number, number, number, number][] = [];
  for (let edge = 0; edge < ends.length; edge += 4)
    pieces.push([ends[edge], ends[edge + 1], ends[edge + 2], ends[edge + 3]]);
  for (let piece = pieces.pop(); piece; piece = pieces.pop()) {
    const [ax, ay, bx, by] = piece;
    const [x, y] = [(ax + bx) / 2, (ay + by) / 2];
    const half = Math.hypot(bx - ax, by - ay) / 2;
    if (at(x, y) + half <= Math.max(best, 0) + precision(best)) continue;
    pieces.push([ax, ay, x, y], [x, y, bx, by]);
  }
  return shape.polygons.length > 0 ? deepestWithin(zone, shape.polygons, best) : best;
}

function deepestWithin(zone: LaidZone, polygons: readonly planar.Polygon[], onEdge: number): number {
  let best = onEdge;
  const feature = new EdgeIndex(edgesOf({ points: [], lines: [], polygons }));
  const area = planar.boxOf(polygons, 0);
  const around = planar.boxOf(zone.polygons, 0);
  const west = Math.max(area.west, around.west);
  const south = Math.max(area.south, around.south);
  const side = Math.max(Math.min(area.east, around.east) - west, Math.min(area.north, around.north) - south);
  if (!(side > 0)) return best;
  const cells: [x: number, y: number, half: number][] = [[west + side / 2, south + side / 2, side / 2]];
  // Breadth first: large cells raise the best early.
  for (let next = 0; next < cells.length; next++) {
    const [x, y, half] = cells[next] as [number, number, number];
    const corner = half * Math.SQRT2;
    const inside = feature.contains(x, y);
    const depth = depthAt(zone, x, y);
    if (inside) best = Math.max(best, depth);
    if (depth + corner <= Math.max(best, 0) + precision(best)) continue;
    if (!inside && feature.distance(x, y) > corner) continue;
    const quarter = half / 2;
    for (const dx of [-quarter, quarter])
      for (const dy of [-quarter, quarter]) cells.push([x + dx, y + dy, quarter]);
  }
  return best;
}
