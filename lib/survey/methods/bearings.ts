/** Two bearings or more, from pegs: an intersection. */
import { z } from "zod";
import { DEFAULT_UNCERTAINTY } from "../uncertainty";
import type { SurveyMethod } from "./method";
import { LANDING_FIELD, landed } from "./parts";
import { placedBySights, sightFields, sightSchema } from "./sighted";

export const bearingsFixSchema = z.strictObject({
  ...landed,
  method: z.literal("bearings"),
  bearings: z
    .array(sightSchema)
    .min(2, "Two bearings or more, from different pegs.")
    .max(12, "At most twelve bearings."),
});

export const bearings: SurveyMethod<typeof bearingsFixSchema> = {
  method: "bearings",
  title: "Two bearings or more",
  summary: "Bearings from pegs to a landing point that nobody can reach; with three they check each other.",
  schema: bearingsFixSchema,
  fields: [
    {
      type: "list",
      name: "bearings",
      label: "Bearings",
      help: "From pegs that see the landing point from different sides.",
      required: true,
      fewest: 2,
      most: 12,
      fields: sightFields("The peg under the instrument", "Standard; a hand compass's, 1°, if left empty."),
    },
    LANDING_FIELD,
  ],
  place: (fix, ground) => placedBySights(fix.bearings, ground, DEFAULT_UNCERTAINTY.compass),
};
