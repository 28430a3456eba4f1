/** A laser range finder with a tilt sensor, and a compass in it or beside it. */
import { z } from "zod";
import { levelled } from "../slope";
import { DEFAULT_UNCERTAINTY } from "../uncertainty";
import type { SurveyMethod } from "./method";
import {
  ask,
  BEARING_FIELDS,
  bearing,
  degreeUncertainty,
  distance,
  elevation,
  FROM_FIELD,
  LANDING_FIELD,
  landed,
  metreUncertainty,
  north,
  optional,
  pegId,
  STAND_FIELDS,
  stand,
} from "./parts";
import { placedByPolar } from "./polar";

export const laserFixSchema = z.strictObject({
  ...landed,
  method: z.literal("laser"),
  /** A control point; the firing point if left out. */
  from: pegId.optional(),
  /** Straight from the instrument to the target, m. */
  range: distance("Enter the range that the laser shows."),
  /** Degrees above the horizontal. */
  inclination: elevation,
  bearing,
  ...north,
  instrumentHeight: stand,
  targetHeight: stand,
  /** Standard uncertainties; those of a hand-held instrument if left out. */
  rangeUncertainty: metreUncertainty,
  inclinationUncertainty: degreeUncertainty,
  bearingUncertainty: degreeUncertainty,
});

export const laser: SurveyMethod<typeof laserFixSchema> = {
  method: "laser",
  title: "Laser range and inclination",
  summary: "A range finder aimed from a peg at somebody or something that stands on the landing point.",
  schema: laserFixSchema,
  fields: [
    FROM_FIELD,
    ask.number("range", "Range", "distance", "Straight to the target, as the laser shows it, not reduced."),
    ask.number("inclination", "Inclination", "angle", "Above the level, downwards negative."),
    ...BEARING_FIELDS,
    ...STAND_FIELDS,
    ask.number(
      "rangeUncertainty",
      "Uncertainty of the range",
      "distance",
      "Standard; 0.5 m if left empty.",
      optional,
    ),
    ask.number(
      "inclinationUncertainty",
      "Uncertainty of the inclination",
      "angle",
      "Standard; 0.25° if left empty.",
      optional,
    ),
    ask.number(
      "bearingUncertainty",
      "Uncertainty of the bearing",
      "angle",
      "Standard; a hand compass's, 1°, if left empty.",
      optional,
    ),
    LANDING_FIELD,
  ],
  place(fix, ground) {
    const { instrumentHeight, targetHeight, inclinationUncertainty: angleUncertainty } = fix;
    const slope = { slope: "elevation", elevation: fix.inclination } as const;
    return placedByPolar(
      ground,
      fix.from,
      fix,
      fix.bearingUncertainty ?? DEFAULT_UNCERTAINTY.compass,
      levelled(fix.range, fix.rangeUncertainty ?? DEFAULT_UNCERTAINTY.laserRange, {
        ...slope,
        instrumentHeight,
        targetHeight,
        angleUncertainty,
      }),
    );
  },
};
