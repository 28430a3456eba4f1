/** Where ordinary throws land, as contours on the ground. They describe; they never make a zone smaller. */
import type { Polygon, Position } from "geojson";
import { nearPlane, unwrapped } from "../earth";
import type { Stand } from "./clear-bearings";
import { rounded } from "./reach";

/** Stands with every contour. */
export const CONTOUR_LABEL = "Normal throws only; never shrinks a zone.";

/** m downrange of the firing point and m to the right of the bearing. */
export interface LandingSpread {
  mean: readonly [distance: number, drift: number];
  /** m² */
  covariance: readonly [distance: number, both: number, drift: number];
}

export interface ChanceContour {
  /** Share of a normal distribution with this mean and covariance that lies inside. */
  share: number;
  geometry: Polygon;
}

const CORNERS = 72;
/** A contour of landings that all but coincide still needs room to be drawn, m. */
const LEAST_AXIS = 0.1;

/**
 * Mean and covariance of landing points, each counted by its weight (all alike without any). Throws RangeError without
 * points or with weights that add up to nothing.
 */
export function landingSpread(
  points: readonly (readonly [number, number])[],
  weights: readonly number[] = points.map(() => 1),
): LandingSpread {
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  if (points.length === 0 || !(total > 0)) throw new RangeError("Contours need landing points that count.");
  const mean = (of: (point: readonly [number, number]) => number) =>
    points.reduce((sum, point, index) => sum + (weights[index] ?? 0) * of(point), 0) / total;
  const [x, z] = [mean(([distance]) => distance), mean(([, drift]) => drift)];
  return {
    mean: [x, z],
    covariance: [
      mean(([distance]) => (distance - x) ** 2),
      mean(([distance, drift]) => (distance - x) * (drift - z)),
      mean(([, drift]) => (drift - z) ** 2),
    ],
  };
}

/**
 * The ellipses that hold these shares (0 to 1, both excluded) of normally distributed landings, on the map: their
 * squared size is the quantile −2 ln(1 − share) of χ² with two degrees of freedom.
 */
export function chanceContours(
  stand: Stand,
  bearing: number,
  { mean, covariance: [xx, xz, zz] }: LandingSpread,
  shares: readonly number[],
): ChanceContour[] {
  const plane = nearPlane(stand, stand.height);
  const middle = (xx + zz) / 2;
  const half = Math.hypot((xx - zz) / 2, xz);
  const turned = 0.5 * Math.atan2(2 * xz, xx - zz);
  return shares.map((share) => {
    if (!(share > 0 && share < 1)) throw new RangeError("A share lies between 0 and 1.");
    const size = Math.sqrt(-2 * Math.log(1 - share));
    const major = Math.max(size * Math.sqrt(middle + half), LEAST_AXIS);
    const minor = Math.max(size * Math.sqrt(Math.max(0, middle - half)), LEAST_AXIS);
    const ring = Array.from({ length: CORNERS }, (_, corner): Position => {
      const angle = (-2 * Math.PI * corner) / CORNERS;
      const [along, across] = [major * Math.cos(angle), minor * Math.sin(angle)];
      const x = mean[0] + along * Math.cos(turned) - across * Math.sin(turned);
      const z = mean[1] + along * Math.sin(turned) + across * Math.cos(turned);
      const point = plane.along(bearing + (Math.atan2(z, x) * 180) / Math.PI, Math.hypot(x, z));
      return [rounded(unwrapped(point.longitude, stand.longitude)), rounded(point.latitude)];
    });
    return { share, geometry: { type: "Polygon", coordinates: [[...ring, ring[0] as Position]] } };
  });
}
