/**
 * A fix turned into a landing point, its covariance and a mark: first-order propagation (JCGM 100:2008, 5.1 and 5.2).
 * What shifts the firing point and the landing point alike leaves the mark as it is, so the firing point's own error
 * counts only where the measurement was not taken from it.
 */
import { type GeoPoint, groundInverse } from "../earth";
import type { Residual } from "./adjust";
import { along, type Budget, type Covariance, covarianceOf, relativeTo } from "./budget";
import type { Fix, LandedFix } from "./fix";
import { METHODS, type Placed, type SurveyMethod } from "./methods";
import { type FiringPoint, type Ground, groundOf, RADIANS, type Site } from "./site";
import { COVERAGE_FACTOR } from "./uncertainty";
import { metres, Unplaceable, type Warning } from "./warnings";

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
  /** Of the point itself, source by source; `covariance` is this less what the firing point shares. */
  budget: Budget;
  /** What to know before walking away. */
  warnings: Warning[];
  /** Of each observation, where there were more than needed. */
  residuals: Residual[];
  /** Which was measured, if the fix tells. */
  landing: LandedFix["landing"];
}

/** Nearer than this many standard uncertainties a distance comes out too long (JCGM 101:2008, 9.4, has such a case). */
const NEAR = 3;

/** A point with the mark from the firing point that goes with it. */
export function locatedAt(
  { point, budget, warnings, fromFiringPoint, adjustment }: Placed,
  ground: Ground,
  landing: LandedFix["landing"],
): Located {
  const { firingPoint } = ground.site;
  const { distance, bearing } = fromFiringPoint ?? groundInverse(firingPoint, point, firingPoint.height);
  const seen = relativeTo(budget, ground.station().budget);
  const standard = along(seen, Math.sin(bearing * RADIANS), Math.cos(bearing * RADIANS));
  const near = !fromFiringPoint && distance < NEAR * standard;
  return {
    point,
    covariance: covarianceOf(seen),
    mark: distance,
    uncertainty: COVERAGE_FACTOR * standard,
    bearing,
    budget,
    warnings: near
      ? [
          ...warnings,
          {
            code: "near-origin",
            text: `The landing point is ${metres(distance)} from the firing point and known to ${metres(COVERAGE_FACTOR * standard)} (k = 2): so near, the mark comes out too long. Tape it from the firing point.`,
          },
        ]
      : warnings,
    residuals: adjustment && adjustment.degrees > 0 ? adjustment.residuals : [],
    landing,
  };
}

/** What a fix comes to: a landing point, or none with the reason among the warnings. */
export interface Measured {
  /** Null when it did not land, or when no point comes out of what was measured. */
  located: Located | null;
  warnings: Warning[];
}

/** Where a shot landed on a site, with everything to be said about the measurement. Never throws for a valid fix. */
export function measure(fix: Fix, site: Site): Measured {
  if (fix.outcome !== "landed") return { located: null, warnings: [] };
  const ground = groundOf(site);
  // Each method takes the fixes that bear its name.
  const method = METHODS.find((each) => each.method === fix.method) as unknown as SurveyMethod;
  try {
    const located = locatedAt(method.place(fix, ground), ground, fix.landing);
    return { located, warnings: located.warnings };
  } catch (error) {
    if (error instanceof Unplaceable) return { located: null, warnings: [error.warning] };
    throw error;
  }
}

/**
 * Where a shot landed, seen from its firing point; null when it did not land (a foul, a misfire, a burst) or when no
 * point comes out (`measure` has the reason). Measurements from other pegs need the site's.
 */
export function locate(
  fix: Fix,
  firingPoint: FiringPoint,
  site: Omit<Site, "firingPoint"> = {},
): Located | null {
  return measure(fix, { ...site, firingPoint }).located;
}
