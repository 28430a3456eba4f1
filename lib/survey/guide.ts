/** The way to a rough point for somebody with a phone: how far, on which bearing, and whether it may be right here. */
import { type GeoPoint, groundInverse } from "../earth";
import { type Covariance, covarianceOf } from "./budget";
import type { Located } from "./locate";
import { RADIANS } from "./site";
import { COVERAGE_FACTOR, circularRadius } from "./uncertainty";

export interface RoughPoint {
  point: GeoPoint;
  covariance: Covariance;
}

/** Where somebody walks to, whatever the firing point's own place. */
export const roughPointOf = ({ point, budget }: Located): RoughPoint => ({
  point,
  covariance: covarianceOf(budget),
});

/** Semi-axes in m; the true bearing of the longer one, degrees from 0 to 180. */
export interface Ellipse {
  major: number;
  minor: number;
  bearing: number;
}

/** Of what an ellipse and a search hold. */
const SHARE = 0.95;

/** The ellipse that holds 95 % of a plane normal distribution. */
export function ellipseOf([ee, en, nn]: Covariance): Ellipse {
  const radius = circularRadius(SHARE);
  const middle = (ee + nn) / 2;
  const spread = Math.hypot((nn - ee) / 2, en);
  const bearing = Math.atan2(2 * en, nn - ee) / 2 / RADIANS;
  return {
    major: radius * Math.sqrt(middle + spread),
    minor: radius * Math.sqrt(Math.max(0, middle - spread)),
    bearing: bearing < 0 ? bearing + 180 : bearing,
  };
}

export interface WayThere {
  /** m on the ground, and degrees true. */
  distance: number;
  bearing: number;
  /** Of the distance, both places counted: expanded, k = 2, m. */
  uncertainty: number;
  /** The point may as well be here: no distance is left that both accuracies together do not explain. */
  here: boolean;
}

/** `accuracy`: radius in m that holds 95 % of the phone's positions; 0 for a known place. `height`: of the ground, m. */
export function wayThere(
  from: GeoPoint,
  accuracy: number,
  { point, covariance }: RoughPoint,
  height: number,
): WayThere {
  const { distance, bearing } = groundInverse(from, point, height);
  const own = (accuracy / circularRadius(SHARE)) ** 2;
  const [ee, en, nn] = [covariance[0] + own, covariance[1], covariance[2] + own];
  const [east, north] = [Math.sin(bearing * RADIANS), Math.cos(bearing * RADIANS)];
  const variance = ee * east * east + 2 * en * east * north + nn * north * north;
  // d²·uᵀC⁻¹u against the chi-square of two degrees of freedom, which is the radius squared.
  const weighted = (nn * east * east - 2 * en * east * north + ee * north * north) / (ee * nn - en * en);
  return {
    distance,
    bearing,
    uncertainty: COVERAGE_FACTOR * Math.sqrt(variance),
    here: distance * distance * weighted <= circularRadius(SHARE) ** 2,
  };
}
