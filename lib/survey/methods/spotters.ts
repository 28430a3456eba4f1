/** Spotters at known posts, each with the bearing of the splash: enough to walk there. */
import { z } from "zod";
import { DEFAULT_UNCERTAINTY } from "../uncertainty";
import type { SurveyMethod } from "./method";
import { LANDING_FIELD, landed } from "./parts";
import { placedBySights, sightFields, sightSchema } from "./sighted";

/** As many posts as a field may have. */
const MOST = 12;

export const spottersFixSchema = z.strictObject({
  ...landed,
  method: z.literal("spotters"),
  bearings: z
    .array(sightSchema)
    .min(2, "Two spotters or more, each at a post.")
    .max(MOST, `At most ${MOST} spotters.`),
});

export const spotters: SurveyMethod<typeof spottersFixSchema> = {
  method: "spotters",
  title: "Two spotters or more",
  summary: "Phones at known posts pointed at the splash: a rough point to walk to.",
  coarse: true,
  schema: spottersFixSchema,
  fields: [
    {
      type: "list",
      name: "bearings",
      label: "Spotters' bearings",
      help: "One from each post.",
      required: true,
      fewest: 2,
      most: MOST,
      fields: sightFields("The spotter's post", "Standard; 2°, of a phone pointed by eye, if left empty."),
    },
    LANDING_FIELD,
  ],
  place: (fix, ground) =>
    placedBySights(fix.bearings, ground, DEFAULT_UNCERTAINTY.spotter, [
      {
        code: "coarse",
        text: "Spotters' bearings are a rough place to walk to: measure the landing point there, and keep this only if nothing is found.",
      },
    ]),
};
