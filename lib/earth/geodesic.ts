/**
 * Distances, bearings and a local plane on the WGS 84 ellipsoid, by geographiclib-geodesic (Karney 2013,
 * exact to some nanometres). Latitude and longitude in degrees, bearings in degrees clockwise from true
 * north, distances in metres.
 */
import geographiclib from "geographiclib-geodesic";
import { normalBearing } from "./bearing";

export interface GeoPoint {
  latitude: number;
  longitude: number;
}

export interface PlanePoint {
  /** m */
  east: number;
  /** m */
  north: number;
}

export interface LocalPlane {
  readonly origin: GeoPoint;
  /** m above the ellipsoid: the plane's distances are those on the ground at this height. */
  readonly height: number;
  toPlane(point: GeoPoint): PlanePoint;
  toPoint(point: PlanePoint): GeoPoint;
}

const { Geodesic } = geographiclib;
const wgs84 = Geodesic.WGS84;
const ECCENTRICITY_SQUARED = wgs84.f * (2 - wgs84.f);
const RADIANS = Math.PI / 180;

/** A longitude brought into −180 … 180. */
export function normalLongitude(longitude: number): number {
  return longitude >= -180 && longitude <= 180 ? longitude : normalBearing(longitude + 180) - 180;
}

/** A longitude within half a turn of another, past ±180 if need be. */
export function unwrapped(longitude: number, near: number): number {
  return longitude - 360 * Math.round((longitude - near) / 360);
}

function checkPoint({ latitude, longitude }: GeoPoint): void {
  if (!(Math.abs(latitude) <= 90)) throw new RangeError("The latitude must lie between −90 and 90 degrees.");
  if (!Number.isFinite(longitude)) throw new RangeError("The longitude must be a number of degrees.");
}

function checkFinite(value: number, name: string): void {
  if (!Number.isFinite(value)) throw new RangeError(`The ${name} must be a number.`);
}

/**
 * The shortest line between two points on the ellipsoid: its length, its bearing at the first point, and
 * `reverseBearing`, the bearing from the second point back to the first. Of a point to itself all are 0.
 */
export function inverse(
  from: GeoPoint,
  to: GeoPoint,
): { distance: number; bearing: number; reverseBearing: number } {
  checkPoint(from);
  checkPoint(to);
  const line = wgs84.Inverse(from.latitude, from.longitude, to.latitude, to.longitude);
  const distance = line.s12 as number;
  if (distance === 0) return { distance, bearing: 0, reverseBearing: 0 };
  return {
    distance,
    bearing: normalBearing(line.azi1 as number),
    reverseBearing: normalBearing((line.azi2 as number) + 180),
  };
}

/** The point at a distance along the ellipsoid on a bearing. Longitude comes back within ±180. */
export function direct(point: GeoPoint, bearing: number, distance: number): GeoPoint {
  checkPoint(point);
  checkFinite(bearing, "bearing");
  checkFinite(distance, "distance");
  const end = wgs84.Direct(point.latitude, point.longitude, bearing, distance);
  return { latitude: end.lat2 as number, longitude: normalLongitude(end.lon2 as number) };
}

/** Curvatures of the ellipsoid at a latitude along the meridian and across it, 1/m. */
function curvatures(latitude: number): { north: number; east: number } {
  const w2 = 1 - ECCENTRICITY_SQUARED * Math.sin(latitude * RADIANS) ** 2;
  const east = Math.sqrt(w2) / wgs84.a;
  return { north: (east * w2) / (1 - ECCENTRICITY_SQUARED), east };
}

/**
 * How much longer a line is on ground at this height than on the ellipsoid: 1 + h/R with Euler's radius of
 * curvature at the latitude on the bearing (the usual reduction of a measured distance to the ellipsoid).
 */
export function groundScale(latitude: number, bearing: number, height: number): number {
  checkFinite(height, "ground's height");
  const { north, east } = curvatures(latitude);
  const cos = Math.cos(bearing * RADIANS);
  return 1 + height * (cos * cos * north + (1 - cos * cos) * east);
}

/** `inverse` with the distance brought to ground at a height (m above the ellipsoid). */
export function groundInverse(
  from: GeoPoint,
  to: GeoPoint,
  height: number,
): { distance: number; bearing: number; reverseBearing: number } {
  const line = inverse(from, to);
  return { ...line, distance: line.distance * groundScale(from.latitude, line.bearing, height) };
}

/** The distance between two points, brought from the ellipsoid to ground at a height (m). */
export function groundDistance(from: GeoPoint, to: GeoPoint, height: number): number {
  return groundInverse(from, to, height).distance;
}

/** `direct` for a horizontal distance measured on ground at a height (m above the ellipsoid). */
export function groundDirect(point: GeoPoint, bearing: number, distance: number, height: number): GeoPoint {
  return direct(point, bearing, distance / groundScale(point.latitude, bearing, height));
}

/**
 * A plane that touches the ground at a point: azimuthal equidistant, stretched to the ground's height north and
 * east by the curvatures there. Straight lines of the plane are within 0.1 mm of the geodesic on the ground
 * between any two points within 1 km of the origin, and within 10 mm up to 10 km.
 */
export function localPlane(origin: GeoPoint, height = 0): LocalPlane {
  checkPoint(origin);
  checkFinite(height, "ground's height");
  const { north, east } = curvatures(origin.latitude);
  const stretch = { north: 1 + height * north, east: 1 + height * east };
  return {
    origin,
    height,
    toPlane(point) {
      const { distance, bearing } = inverse(origin, point);
      const angle = bearing * RADIANS;
      return {
        east: distance * Math.sin(angle) * stretch.east,
        north: distance * Math.cos(angle) * stretch.north,
      };
    },
    toPoint(point) {
      checkFinite(point.east, "east coordinate");
      checkFinite(point.north, "north coordinate");
      const e = point.east / stretch.east;
      const n = point.north / stretch.north;
      return direct(origin, Math.atan2(e, n) / RADIANS, Math.hypot(e, n));
    },
  };
}

/** Area in m² of a ring of points (closed or open) on the ellipsoid, positive counter-clockwise. */
export function ellipsoidArea(ring: readonly GeoPoint[]): number {
  const polygon = wgs84.Polygon(false);
  for (const point of ring) {
    checkPoint(point);
    polygon.AddPoint(point.latitude, point.longitude);
  }
  return polygon.Compute(false, true).area as number;
}
