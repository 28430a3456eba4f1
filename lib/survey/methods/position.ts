/** One satellite position. */
import { z } from "zod";
import { receiverUncertainty } from "../uncertainty";
import type { SurveyMethod } from "./method";
import { accuracy, accuracyLevel, ask, LANDING_FIELD, landed, optional, place } from "./parts";
import { receiverBudget, SATELLITES } from "./receiver";

/** Latitude and longitude on WGS 84. */
export const positionFixSchema = z.strictObject({
  ...landed,
  method: z.literal("position"),
  ...place,
  accuracy,
  accuracyLevel,
});

export const LEVEL_FIELD = ask.choice(
  "accuracyLevel",
  "Surety of the accuracy",
  "How often the receiver keeps within its accuracy: browsers say 95 %, many receivers 68 %.",
  { "95": "95 %", "68": "68 %" },
);

export const position: SurveyMethod<typeof positionFixSchema> = {
  method: "position",
  title: "Satellite position",
  summary: "A phone or receiver laid on the landing point; good to a few metres.",
  schema: positionFixSchema,
  fields: [
    ask.number("latitude", "Latitude", "angle", "Of the landing point on WGS 84, south negative."),
    ask.number("longitude", "Longitude", "angle", "Of the landing point on WGS 84, west negative."),
    ask.number("accuracy", "Accuracy", "distance", "Radius that the receiver reports.", optional),
    LEVEL_FIELD,
    LANDING_FIELD,
  ],
  place({ latitude, longitude, accuracy: radius, accuracyLevel: level }) {
    const each = receiverUncertainty(radius, level);
    const bias = SATELLITES.biasShare * each;
    return {
      point: { latitude, longitude },
      budget: receiverBudget(bias, Math.sqrt((each - bias) * (each + bias))),
      warnings: [],
    };
  },
};
