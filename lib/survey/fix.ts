/** What a judge enters of one shot: where it landed, by one of the methods, or that it did not land fairly. */
import { z } from "zod";
import { METHODS } from "./methods";
import { bearingDistanceFixSchema } from "./methods/bearing-distance";
import { bearingsFixSchema } from "./methods/bearings";
import { centrelineOffsetFixSchema } from "./methods/centreline-offset";
import { laserFixSchema } from "./methods/laser";
import { mapTapFixSchema } from "./methods/map-tap";
import { positionFixSchema } from "./methods/position";
import { positionMeanFixSchema, positionSamplesFixSchema } from "./methods/position-average";
import { spottersFixSchema } from "./methods/spotters";
import { tapesFixSchema } from "./methods/tapes";
import { twoTapesFixSchema } from "./methods/two-tapes";
import { listed } from "./warnings";

export const FIX_METHODS = METHODS.map(({ method }) => method);

/** Landed: it counts. Foul: against the rules. Misfire: nothing left. Burst: it broke up before landing. */
export const FIX_OUTCOMES = ["landed", "foul", "misfire", "burst"] as const;
export type FixOutcome = (typeof FIX_OUTCOMES)[number];

export const notLandedFixSchema = z.strictObject({ outcome: z.enum(["foul", "misfire", "burst"]) });

/** One measurement of a shot. Only what landed has a method. */
export const fixSchema = z.discriminatedUnion(
  "outcome",
  [
    z.discriminatedUnion(
      "method",
      [
        bearingDistanceFixSchema,
        positionFixSchema,
        centrelineOffsetFixSchema,
        twoTapesFixSchema,
        tapesFixSchema,
        laserFixSchema,
        bearingsFixSchema,
        positionSamplesFixSchema,
        positionMeanFixSchema,
        spottersFixSchema,
        mapTapFixSchema,
      ],
      {
        error: (issue) =>
          issue.code === "invalid_union"
            ? `Choose a method: ${listed(FIX_METHODS).replace(" and ", " or ")}.`
            : undefined,
      },
    ),
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
