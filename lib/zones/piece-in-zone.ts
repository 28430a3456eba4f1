/**
 * Where something came down, held against the keep-out zone of the machine that it came from. A place is known only within
 * an uncertainty, and the cautious reading of that counts: it lies inside only if it does however far it is off, any way.
 */
import type { Polygon } from "geojson";
import { type GeoPoint, nearPlane, normalBearing } from "../earth";
import * as planar from "./planar";
import { profileOf, STEPS_A_DEGREE } from "./profile";
import { shapeOf } from "./project";
import { reachPolygon } from "./reach";

/** A zone as it was drawn. */
export interface StoodZone {
  origin: GeoPoint;
  /** Of the ground, m above the ellipsoid. */
  height: number;
  /** How far the machine may stand from the origin, m. */
  accuracy: number;
  /** Degrees true. */
  bearing: number;
  /** m by degree clockwise from the bearing, 360 numbers. */
  reach: readonly number[];
}

export interface InZone {
  /** unsure: the place lies inside, but not with all of its uncertainty: it counts as outside. */
  verdict: "inside" | "unsure" | "outside";
  /** From the nearest part of the zone's edge, m; negative outside. */
  inside: number;
  /** Of the place from the firing point: m on the ground, and degrees clockwise from the bearing, −180 to 180. */
  distance: number;
  azimuth: number;
  /** How far the zone reaches on that azimuth, m. */
  reach: number;
  /**
   * By how much the reach would have to be longer all round for the zone to hold the place with all of its uncertainty; 1
   * where it does. Null when no zone that can be drawn would.
   */
  factor: number | null;
}

/** Longest reach that is drawn, m. */
const LONGEST = 50_000;
/** To which the factor is found; what it is rounded up to keeps the place inside. */
const FINE = 1e-4;

/** `most`: how far the place may be off, any way, m. Throws RangeError as `reachPolygon` does. */
export function pieceInZone(zone: StoodZone, point: GeoPoint, most: number): InZone {
  const plane = nearPlane(zone.origin, zone.height);
  const { east, north } = plane.toPlane(point);
  const distance = Math.hypot(east, north);
  const bearing = (Math.atan2(east, north) * 180) / Math.PI;
  const azimuth = normalBearing(bearing - zone.bearing);
  const profile = profileOf(zone.reach, zone.accuracy);
  const inside = depthIn(outlineOf(zone, 1), [east, north]);
  const holds = (factor: number) => depthIn(outlineOf(zone, factor), [east, north]) >= most;
  return {
    verdict: inside >= most ? "inside" : inside >= 0 ? "unsure" : "outside",
    inside,
    distance,
    azimuth: azimuth > 180 ? azimuth - 360 : azimuth,
    reach: profile[Math.min(profile.length - 1, Math.floor(azimuth * STEPS_A_DEGREE))] as number,
    factor: inside >= most ? 1 : factorThat(holds, LONGEST / Math.max(...zone.reach)),
  };
}

/** The outline of a zone whose reach is so many times as long. */
export const stretched = ({ origin, bearing, reach, height, accuracy }: StoodZone, factor: number): Polygon =>
  reachPolygon(
    origin,
    bearing,
    reach.map((metres) => Math.min(LONGEST, metres * factor)),
    height,
    accuracy,
  );

const outlineOf = (zone: StoodZone, factor: number): planar.Polygon[] => [
  ...shapeOf(stretched(zone, factor), nearPlane(zone.origin, zone.height)).polygons,
];

/** m from the nearest edge; negative outside. */
function depthIn(polygons: readonly planar.Polygon[], point: planar.Point): number {
  let nearest = Number.POSITIVE_INFINITY;
  for (const ring of polygons.flat())
    for (const [index, corner] of ring.entries()) {
      const [x, y] = planar.nearestOn(point, corner, ring[(index + 1) % ring.length] as planar.Point);
      nearest = Math.min(nearest, Math.hypot(point[0] - x, point[1] - y));
    }
  return planar.isInside(point, polygons) ? nearest : -nearest;
}

/** The least factor above 1 that holds; a zone only grows with it. */
function factorThat(holds: (factor: number) => boolean, largest: number): number | null {
  let low = 1;
  let high = 2;
  while (!holds(Math.min(high, largest))) {
    if (high >= largest) return null;
    low = high;
    high *= 2;
  }
  high = Math.min(high, largest);
  while (high - low > FINE) {
    const middle = (low + high) / 2;
    if (holds(middle)) high = middle;
    else low = middle;
  }
  return high;
}
