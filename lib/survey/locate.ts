/**
 * A fix turned into a landing point, its covariance and a mark: first-order propagation (JCGM 100:2008, 5.1
 * and 5.2). The firing point is a surveyed peg and taken as exact: every mark of it shares its error.
 */
import { type GeoPoint, groundDirect, groundInverse, normalBearing } from "../earth";
import type { Fix, LandedFix } from "./fix";

export interface FiringPoint extends GeoPoint {
  /** Of the ground, m above the ellipsoid; marks are distances at this height. */
  height: number;
}

/** [east-east, east-north, north-north], m². */
export type Covariance = [number, number, number];

export interface Located {
  point: GeoPoint;
  /** Of the landing point as seen from the firing point. */
  covariance: Covariance;
  /** Horizontal distance from the firing point on the ground, m, not rounded. */
  mark: number;
  /** Expanded uncertainty of the mark, coverage factor 2, m. */
  uncertainty: number;
  /** True bearing of the landing point, degrees from 0 to 360. */
  bearing: number;
}

/**
 * Standard uncertainties taken where the fix gives none. All common practice, no source: a fibreglass tape
 * pulled over grass to a mark found by eye, a hand compass, a phone under open sky.
 */
export const DEFAULT_UNCERTAINTY = {
  /** m, whatever the distance: finding both ends. */
  tapeConstant: 0.02,
  /** Of the distance: pull, sag, slope. */
  tapeProportion: 0.0005,
  /** Degrees. */
  compass: 1,
  /** m along each axis. */
  receiver: 2.5,
} as const;

/** Coverage factor of the mark's expanded uncertainty (JCGM 100:2008, 6.2.1): about 95 %. */
const COVERAGE_FACTOR = 2;
const RADIANS = Math.PI / 180;

/** Radius over standard deviation of a circular normal distribution that holds a share of it. */
const circularRadius = (share: number) => Math.sqrt(-2 * Math.log(1 - share));

/** Standard uncertainty along each axis, m, of a position whose receiver reports a radius. */
function receiverUncertainty(fix: Extract<LandedFix, { method: "position" }>): number {
  if (fix.accuracy === undefined) return DEFAULT_UNCERTAINTY.receiver;
  return fix.accuracy / circularRadius(fix.accuracyLevel / 100);
}

/** Standard uncertainty of a taped distance, m. */
export function tapeUncertainty(distance: number): number {
  return Math.hypot(DEFAULT_UNCERTAINTY.tapeConstant, DEFAULT_UNCERTAINTY.tapeProportion * distance);
}

function locateByBearing(
  fix: Extract<LandedFix, { method: "bearing-distance" }>,
  firingPoint: FiringPoint,
): Located {
  const bearing = normalBearing(fix.bearing + (fix.north === "magnetic" ? (fix.declination ?? 0) : 0));
  const along = fix.distanceUncertainty ?? tapeUncertainty(fix.distance);
  const across = fix.distance * (fix.bearingUncertainty ?? DEFAULT_UNCERTAINTY.compass) * RADIANS;
  const sin = Math.sin(bearing * RADIANS);
  const cos = Math.cos(bearing * RADIANS);
  return {
    point: groundDirect(firingPoint, bearing, fix.distance, firingPoint.height),
    covariance: [
      (along * sin) ** 2 + (across * cos) ** 2,
      (along * along - across * across) * sin * cos,
      (along * cos) ** 2 + (across * sin) ** 2,
    ],
    mark: fix.distance,
    uncertainty: COVERAGE_FACTOR * along,
    bearing,
  };
}

function locateByPosition(
  fix: Extract<LandedFix, { method: "position" }>,
  firingPoint: FiringPoint,
): Located {
  const point = { latitude: fix.latitude, longitude: fix.longitude };
  const { distance, bearing } = groundInverse(firingPoint, point, firingPoint.height);
  const each = receiverUncertainty(fix);
  return {
    point,
    covariance: [each * each, 0, each * each],
    mark: distance,
    // The receiver's error is alike in every direction, so along the line too.
    uncertainty: COVERAGE_FACTOR * each,
    bearing,
  };
}

/**
 * Where a shot landed, seen from its firing point; null when it did not land (a foul, a misfire, a burst).
 * First order holds while the mark is large against the receiver's error: nearer to the firing point than
 * about three standard uncertainties a position gives a mark too long.
 */
export function locate(fix: Fix, firingPoint: FiringPoint): Located | null {
  if (fix.outcome !== "landed") return null;
  return fix.method === "position" ? locateByPosition(fix, firingPoint) : locateByBearing(fix, firingPoint);
}
