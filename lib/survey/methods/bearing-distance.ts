/** Bearing and distance from the firing point or any other peg. */
import { z } from "zod";
import { levelled, SLOPES } from "../slope";
import { DEFAULT_UNCERTAINTY, tapeUncertainty } from "../uncertainty";
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
  rise,
  STAND_FIELDS,
  stand,
  zenith,
} from "./parts";
import { placedByPolar } from "./polar";

export const bearingDistanceFixSchema = z
  .strictObject({
    ...landed,
    method: z.literal("bearing-distance"),
    /** A control point; the firing point if left out. */
    from: pegId.optional(),
    bearing,
    ...north,
    /** m; horizontal, on the ground, unless `slope` says otherwise. */
    distance: distance("Enter the distance from the firing point."),
    /** Standard uncertainty of the distance, m; a taped distance's if left out. */
    distanceUncertainty: metreUncertainty,
    /** Standard uncertainty of the bearing, degrees; a hand compass's if left out. */
    bearingUncertainty: degreeUncertainty,
    /** How the slope along which the distance runs was measured; level if left out. */
    slope: z.enum(SLOPES).optional(),
    elevation: elevation.optional(),
    zenith: zenith.optional(),
    rise: rise.optional(),
    instrumentHeight: stand,
    targetHeight: stand,
    angleUncertainty: degreeUncertainty,
    riseUncertainty: metreUncertainty,
  })
  .refine((fix) => fix.north === "true" || fix.declination !== undefined, {
    path: ["declination"],
    message: "A magnetic bearing needs the declination of the place.",
  })
  .refine((fix) => fix.slope !== "elevation" || fix.elevation !== undefined, {
    path: ["elevation"],
    message: "Enter the elevation in degrees, downwards negative.",
  })
  .refine((fix) => fix.slope !== "zenith" || fix.zenith !== undefined, {
    path: ["zenith"],
    message: "Enter the zenith angle in degrees.",
  })
  .refine((fix) => fix.slope !== "rise" || fix.rise !== undefined, {
    path: ["rise"],
    message: "Enter the rise of the ground in metres, a fall negative.",
  });

const by = (is: string) => ({ choice: "slope", is });

export const bearingDistance: SurveyMethod<typeof bearingDistanceFixSchema> = {
  method: "bearing-distance",
  title: "Bearing and distance",
  summary: "One tape or instrument from one peg, and the bearing by compass or theodolite.",
  schema: bearingDistanceFixSchema,
  fields: [
    FROM_FIELD,
    ...BEARING_FIELDS,
    ask.number("distance", "Distance", "distance", "From the peg to the landing point."),
    ask.choice("slope", "Slope", "How the distance is brought to the horizontal; level if left empty.", {
      level: "Measured level",
      elevation: "Elevation angle",
      zenith: "Zenith angle",
      rise: "Rise of the ground",
    }),
    ask.number("elevation", "Elevation", "angle", "From the level at the instrument, downwards negative.", {
      when: by("elevation"),
    }),
    ask.number("zenith", "Zenith angle", "angle", "From straight up at the instrument: 90° is level.", {
      when: by("zenith"),
    }),
    ask.number(
      "rise",
      "Rise",
      "distance",
      "Of the ground from the peg to the landing point, a fall negative.",
      {
        when: by("rise"),
      },
    ),
    ...STAND_FIELDS,
    ask.number(
      "distanceUncertainty",
      "Uncertainty of the distance",
      "distance",
      "Standard; a tape's over grass if left empty.",
      optional,
    ),
    ask.number(
      "bearingUncertainty",
      "Uncertainty of the bearing",
      "angle",
      "Standard; a hand compass's, 1°, if left empty.",
      optional,
    ),
    ask.number(
      "angleUncertainty",
      "Uncertainty of the vertical angle",
      "angle",
      "Standard; 0.25° if left empty.",
      optional,
    ),
    ask.number("riseUncertainty", "Uncertainty of the rise", "distance", "Standard; 0.1 m if left empty.", {
      required: false,
      when: by("rise"),
    }),
    LANDING_FIELD,
  ],
  place: (fix, ground) =>
    placedByPolar(
      ground,
      fix.from,
      fix,
      fix.bearingUncertainty ?? DEFAULT_UNCERTAINTY.compass,
      levelled(fix.distance, fix.distanceUncertainty ?? tapeUncertainty(fix.distance), fix),
    ),
};
