/** From a landing point to the mark by the contest's rule, and whether it lies inside the landing sector. */
import { z } from "zod";
import type { PlanePoint } from "../earth";
import { normalBearing } from "../earth";
import { MARK_UNITS, roundDown } from "../units";
import { along, relativeTo } from "./budget";
import type { Located } from "./locate";
import { LANDINGS, pegId } from "./methods/parts";
import { type Ground, groundOf, RADIANS, type Site } from "./site";
import { COVERAGE_FACTOR } from "./uncertainty";
import { metres, Unplaceable, type Warning } from "./warnings";

const sectorSchema = z.strictObject({
  /** Of its middle line, true, degrees. */
  bearing: z
    .number()
    .min(0, "The bearing lies between 0 and 360 degrees.")
    .max(360, "The bearing lies between 0 and 360 degrees."),
  /** From the middle line to either side line, degrees. */
  halfAngle: z
    .number()
    .positive("The sector opens by more than zero.")
    .max(180, "The sector's half angle is at most 180 degrees."),
});

const rest = {
  landing: z.enum(LANDINGS),
  /** Its side lines run from the firing point, or from the arc's centre. */
  sector: sectorSchema.nullable(),
  /** To which marks are rounded down. */
  unit: z.enum(MARK_UNITS),
};

/** How a contest turns landing points into marks. */
export const markRuleSchema = z.discriminatedUnion("from", [
  z.strictObject({ from: z.literal("firing-point"), ...rest }),
  z.strictObject({
    from: z.literal("arc"),
    /** The control point that the arc is drawn about. */
    centre: pegId,
    /** m */
    radius: z
      .number()
      .positive("The arc's radius is above zero.")
      .max(10_000, "The arc's radius is at most 10 km."),
    ...rest,
  }),
]);
export type MarkRule = z.output<typeof markRuleSchema>;

export type Verdict = "inside" | "outside" | "too-close";

export interface InSector {
  verdict: Verdict;
  /** To the nearest side line, m, outside negative. */
  aside: number;
  /** Expanded (k = 2), of that, m. */
  uncertainty: number;
}

export interface Mark {
  /** m, rounded down to the rule's unit; null when the fix measured another place than the rule asks for. */
  mark: number | null;
  /** The same before rounding. */
  distance: number;
  /** Expanded (k = 2), m. */
  uncertainty: number;
  /** True from the firing point; from the arc's centre, in the site's plane. Degrees. */
  bearing: number;
  /** Null without a sector. What lies outside has its mark all the same: the ruling is a person's. */
  sector: InSector | null;
  warnings: Warning[];
}

/** Throws RangeError when the rule's arc is about a control point that the site does not have. */
export function markOf(located: Located, rule: MarkRule, site: Site): Mark {
  const ground = groundOf(site);
  const origin = originOf(rule, ground);
  const there = ground.plane.toPlane(located.point);
  const [east, north] = [there.east - origin.at.east, there.north - origin.at.north];
  const far = Math.hypot(east, north);
  const direct = rule.from === "firing-point";
  const bearing = direct
    ? located.bearing
    : normalBearing((Math.atan2(east, north) - origin.convergence) / RADIANS);
  const budget = relativeTo(located.budget, origin.budget);
  const warnings: Warning[] = [];

  const beyond = rule.from === "arc" ? far - rule.radius : located.mark;
  if (beyond < 0)
    warnings.push({
      code: "inside-arc",
      text: `The landing point lies ${metres(-beyond)} inside the measuring arc, which gives no more than 0: check the peg and the numbers.`,
    });
  const counted = located.landing === undefined || located.landing === rule.landing;
  if (!counted)
    warnings.push({
      code: "other-landing",
      text:
        rule.landing === "first-impact"
          ? "This is where it came to rest, and this contest counts the first impact: measure that too."
          : "This is the first impact, and this contest counts where it came to rest: measure that too.",
    });
  const sector = rule.sector && sectorOf(rule.sector, { east, north }, origin.convergence, budget);
  if (sector?.verdict === "too-close")
    warnings.push({
      code: "sector-too-close",
      text: `The landing point lies ${metres(Math.abs(sector.aside))} ${sector.aside < 0 ? "outside" : "inside"} the sector's side line, and is known to ${metres(sector.uncertainty)} (k = 2): too close to call. Tape its distance to the side line.`,
    });
  const distance = Math.max(0, beyond);
  return {
    mark: counted ? roundDown(distance, rule.unit) : null,
    distance,
    uncertainty: direct
      ? located.uncertainty
      : COVERAGE_FACTOR * along(budget, far > 0 ? east / far : 0, far > 0 ? north / far : 1),
    bearing,
    sector,
    warnings,
  };
}

function originOf(rule: MarkRule, ground: Ground) {
  try {
    return ground.station(rule.from === "arc" ? rule.centre : undefined);
  } catch (error) {
    if (error instanceof Unplaceable)
      throw new RangeError("The measuring arc's centre is no control point of this site.");
    throw error;
  }
}

/** `at` from the sector's apex; a side line is a ray, so behind the apex the apex itself is nearest. */
function sectorOf(
  { bearing, halfAngle }: NonNullable<MarkRule["sector"]>,
  at: PlanePoint,
  convergence: number,
  budget: Located["budget"],
): InSector {
  const direction = Math.atan2(at.east, at.north);
  const middle = bearing * RADIANS + convergence;
  const off = Math.abs(Math.atan2(Math.sin(direction - middle), Math.cos(direction - middle)));
  const inside = off <= halfAngle * RADIANS;
  const [nearest] = [middle - halfAngle * RADIANS, middle + halfAngle * RADIANS]
    .map((side) => {
      const ray = { east: Math.sin(side), north: Math.cos(side) };
      const reach = Math.max(0, at.east * ray.east + at.north * ray.north);
      const [east, north] = [at.east - reach * ray.east, at.north - reach * ray.north];
      const distance = Math.hypot(east, north);
      // On the line itself the direction across it.
      return distance > 1e-9
        ? { distance, east: east / distance, north: north / distance }
        : { distance: 0, east: ray.north, north: -ray.east };
    })
    .sort((a, b) => a.distance - b.distance) as [{ distance: number; east: number; north: number }];
  const aside = halfAngle === 180 ? Math.hypot(at.east, at.north) : nearest.distance;
  const uncertainty = COVERAGE_FACTOR * along(budget, nearest.east, nearest.north);
  const certain = halfAngle === 180 || aside > uncertainty;
  return {
    verdict: certain ? (inside ? "inside" : "outside") : "too-close",
    aside: inside ? aside : -aside,
    uncertainty,
  };
}
