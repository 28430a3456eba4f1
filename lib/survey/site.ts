/** What is known of the ground before anything is measured: the firing point, the pegs, where north is. */
import {
  type GeoPoint,
  groundDirect,
  type LocalPlane,
  localPlane,
  normalBearing,
  type PlanePoint,
} from "../earth";
import type { Contribution } from "./budget";
import { listed, unplaceable } from "./warnings";

export interface FiringPoint extends GeoPoint {
  /** Of the ground, m above the ellipsoid; marks are distances at this height. */
  height: number;
  /** Standard uncertainty of its coordinates along each axis, m; exact if left out. */
  uncertainty?: number;
}

/** A surveyed peg, or a spotter's post. */
export interface Peg extends FiringPoint {
  /** What stands on it. */
  name: string;
}

export interface Site {
  firingPoint: FiringPoint;
  /** By id. */
  pegs?: Readonly<Record<string, Peg>>;
  /** Degrees, east positive, added to magnetic bearings that bring none of their own. */
  declination?: number;
  /** Standard uncertainty of that, degrees: it turns all magnetic bearings of the site alike. Exact if left out. */
  declinationUncertainty?: number;
  /** True bearing of the shot from the firing point, degrees. */
  centreline?: number;
}

/** The firing point among the pegs. */
export const FIRING_POINT = "firing-point";
export const RADIANS = Math.PI / 180;

/** A peg in the plane. */
export interface Station {
  id: string;
  name: string;
  point: FiringPoint;
  at: PlanePoint;
  /** Added to a true bearing here gives its direction in the plane, radians: meridians meet at the poles. */
  convergence: number;
  budget: readonly Contribution[];
}

/** A site with its plane, which touches the ground at the firing point. */
export interface Ground {
  site: Site;
  plane: LocalPlane;
  /** The firing point without an id. Throws Unplaceable for an id that the site does not have. */
  station(id?: string): Station;
}

/** Of which the bearing there is found, m: long against rounding, short against the curve of the earth. */
const SIGHT = 100;

function stationOf(plane: LocalPlane, id: string, name: string, point: FiringPoint): Station {
  const at = plane.toPlane(point);
  const north = plane.toPlane(groundDirect(point, 0, SIGHT, plane.height));
  const size = point.uncertainty ?? 0;
  return {
    id,
    name,
    point,
    at,
    convergence: Math.atan2(north.east - at.east, north.north - at.north),
    budget:
      size > 0
        ? [
            { source: `peg ${id} east`, shared: true, east: size, north: 0 },
            { source: `peg ${id} north`, shared: true, east: 0, north: size },
          ]
        : [],
  };
}

export function groundOf(site: Site): Ground {
  const plane = localPlane(site.firingPoint, site.firingPoint.height);
  return {
    site,
    plane,
    station(id = FIRING_POINT) {
      if (id === FIRING_POINT) return stationOf(plane, id, "the firing point", site.firingPoint);
      const peg = site.pegs?.[id];
      if (!peg)
        unplaceable(
          "unknown-peg",
          "This was measured from a peg that the site does not have: choose the peg.",
        );
      return stationOf(plane, id, peg.name, peg);
    },
  };
}

export interface BearingEntry {
  bearing: number;
  north: "true" | "magnetic";
  declination?: number | undefined;
}

/** The true bearing of one that may be magnetic, degrees, and what the site's declination may turn it by. */
export function trueBearing(
  { bearing, north, declination }: BearingEntry,
  site: Site,
): { bearing: number; declinationUncertainty: number } {
  if (north === "true") return { bearing: normalBearing(bearing), declinationUncertainty: 0 };
  const turn = declination ?? site.declination;
  if (turn === undefined)
    unplaceable(
      "no-declination",
      "A magnetic bearing needs the site's declination: have it entered once, or give a true bearing.",
    );
  return {
    bearing: normalBearing(bearing + turn),
    declinationUncertainty: declination === undefined ? (site.declinationUncertainty ?? 0) : 0,
  };
}

/** The one source of what the site's declination does to every magnetic bearing. */
export const DECLINATION = "declination";

/** Throws Unplaceable when all of some observations are from one place. `what`: "tape" or "bearing". */
export function mustStandApart(stations: readonly Station[], what: string): void {
  const places = new Set(stations.map(({ at }) => `${at.east} ${at.north}`));
  if (places.size < 2)
    unplaceable(
      "same-peg",
      `All ${what}s are from ${listed([...new Set(stations.map(({ name }) => name))])}: take one from another peg, well aside.`,
    );
}
