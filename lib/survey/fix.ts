/** What a judge enters of one shot: where it landed, by either method, or that it did not land fairly. */
import { z } from "zod";

export const FIX_METHODS = ["bearing-distance", "position"] as const;

/** Landed: it counts. Foul: against the rules. Misfire: nothing left. Burst: it broke up before landing. */
export const FIX_OUTCOMES = ["landed", "foul", "misfire", "burst"] as const;
export type FixOutcome = (typeof FIX_OUTCOMES)[number];

/** The farthest landing that is taken for a measurement and not for a slip of the finger, m. */
const FARTHEST = 10_000;

const number = (missing: string) => z.number({ error: missing });

/** Distance and bearing from the firing point. */
export const bearingDistanceFixSchema = z
  .strictObject({
    outcome: z.literal("landed"),
    method: z.literal("bearing-distance"),
    /** Degrees clockwise from north. */
    bearing: number("Enter the bearing in degrees.")
      .min(0, "The bearing lies between 0 and 360 degrees.")
      .max(360, "The bearing lies between 0 and 360 degrees."),
    /** Which north the bearing is counted from. */
    north: z.enum(["true", "magnetic"]).default("true"),
    /** Degrees, east positive, added to a magnetic bearing; needed with one, ignored without. */
    declination: number("Enter the declination in degrees.")
      .min(-180, "The declination lies between −180 and 180 degrees.")
      .max(180, "The declination lies between −180 and 180 degrees.")
      .optional(),
    /** Horizontal, on the ground, m. */
    distance: number("Enter the distance from the firing point.")
      .min(0, "The distance cannot be negative: a throw backwards has its own bearing.")
      .max(FARTHEST, "The distance is more than 10 km: check the number and its unit."),
    /** Standard uncertainty of the distance, m; a taped distance's if left out. */
    distanceUncertainty: number("Enter the uncertainty in metres.")
      .positive("The uncertainty is above zero.")
      .max(1000, "The uncertainty is at most 1 km.")
      .optional(),
    /** Standard uncertainty of the bearing, degrees; a hand compass's if left out. */
    bearingUncertainty: number("Enter the uncertainty in degrees.")
      .positive("The uncertainty is above zero.")
      .max(90, "The uncertainty is at most 90 degrees.")
      .optional(),
  })
  .refine((fix) => fix.north === "true" || fix.declination !== undefined, {
    path: ["declination"],
    message: "A magnetic bearing needs the declination of the place.",
  });

/** Latitude and longitude on WGS 84. */
export const positionFixSchema = z.strictObject({
  outcome: z.literal("landed"),
  method: z.literal("position"),
  latitude: number("Enter the latitude in degrees, south negative.")
    .min(-90, "The latitude lies between −90 and 90 degrees.")
    .max(90, "The latitude lies between −90 and 90 degrees."),
  longitude: number("Enter the longitude in degrees, west negative.")
    .min(-180, "The longitude lies between −180 and 180 degrees.")
    .max(180, "The longitude lies between −180 and 180 degrees."),
  /** Radius in metres that the receiver reports around the point. */
  accuracy: number("Enter the accuracy in metres.")
    .positive("The accuracy is above zero.")
    .max(1000, "The receiver is more than 1 km out: wait for a better position, or measure by tape.")
    .optional(),
  /**
   * How surely the point lies within `accuracy`, percent: 95 as web browsers report it (W3C Geolocation),
   * 68 as many hand-held receivers and Android itself do.
   */
  accuracyLevel: z.union([z.literal(95), z.literal(68)]).default(95),
});

export const notLandedFixSchema = z.strictObject({ outcome: z.enum(["foul", "misfire", "burst"]) });

/** One measurement of a shot. Only what landed has a method. */
export const fixSchema = z.discriminatedUnion(
  "outcome",
  [
    z.discriminatedUnion("method", [bearingDistanceFixSchema, positionFixSchema], {
      error: (issue) =>
        issue.code === "invalid_union" ? "Choose a method: bearing-distance or position." : undefined,
    }),
    notLandedFixSchema,
  ],
  {
    error: (issue) =>
      issue.code === "invalid_union" ? "Choose an outcome: landed, foul, misfire or burst." : undefined,
  },
);

export type FixInput = z.input<typeof fixSchema>;
export type Fix = z.output<typeof fixSchema>;
export type LandedFix = Extract<Fix, { outcome: "landed" }>;
