/** Satellite positions averaged on the spot: sample by sample, or as the receiver's own mean. */
import { z } from "zod";
import { receiverUncertainty } from "../uncertainty";
import { metres, type Warning } from "../warnings";
import type { Placed, SurveyMethod } from "./method";
import {
  accuracy,
  accuracyLevel,
  ask,
  LANDING_FIELD,
  landed,
  metreUncertainty,
  number,
  optional,
  place,
} from "./parts";
import { LEVEL_FIELD } from "./position";
import { averagedShare, RECEIVERS, type ReceiverKind, receiverBias, receiverBudget } from "./receiver";

const seconds = (missing: string) =>
  number(missing).min(0, "The time is not negative.").max(86_400, "The time is at most a day.");

export const positionSamplesFixSchema = z
  .strictObject({
    ...landed,
    method: z.literal("position-samples"),
    receiver: z.enum(RECEIVERS).default("phone"),
    samples: z
      .array(
        z.strictObject({
          ...place,
          accuracy,
          /** Since the first sample. */
          seconds: seconds("Enter the seconds since the first sample."),
        }),
      )
      .min(2, "An average needs two positions or more.")
      .max(600, "At most 600 positions are averaged: send their mean."),
    accuracyLevel,
  })
  .refine(
    ({ samples }) =>
      samples.every(({ seconds: at }, index) => index === 0 || at >= (samples[index - 1]?.seconds ?? 0)),
    { path: ["samples"], message: "The samples stand in the order of their time." },
  );

export const positionMeanFixSchema = z.strictObject({
  ...landed,
  method: z.literal("position-mean"),
  receiver: z.enum(RECEIVERS).default("phone"),
  ...place,
  count: number("Enter how many positions were averaged.")
    .int("The count is a whole number.")
    .min(2, "An average needs two positions or more.")
    .max(100_000, "At most 100 000 positions are averaged."),
  /** From the first to the last position. */
  seconds: seconds("Enter for how long positions were averaged, in seconds."),
  /** Of one position, on average. */
  accuracy,
  accuracyLevel,
  /** Standard deviation of the positions along each axis, m. */
  scatter: metreUncertainty,
});

/** Averaging for less than this is hardly better than one position, s. */
const SHORT = 30;
/** Positions that scatter by more than this many times what the receiver reports. */
const WANDERING = 1.5;
const MOST_TIMES = 1000;

/** `single`, `scatter`: of one position along each axis, m; `share`: of the fading part's variance that is left. */
function averaged(
  kind: ReceiverKind,
  single: number,
  scatter: number,
  share: number,
  time: number,
): Pick<Placed, "budget" | "warnings"> {
  const bias = receiverBias(single, kind);
  const fading = Math.max(single ** 2 - bias ** 2, scatter ** 2, 0);
  const warnings: Warning[] = [];
  if (time < SHORT)
    warnings.push({
      code: "samples-few",
      text: `Averaging over ${time.toFixed(0)} s is hardly better than one position: leave the receiver on the spot for a minute or longer.`,
    });
  if (scatter > WANDERING * single)
    warnings.push({
      code: "samples-scatter",
      text: `The positions wander by ${metres(scatter)}, more than the receiver reports (${metres(single)}): it was moved, or something stands around it. Lay it on the landing point, step back and average again, or measure by tape.`,
    });
  return { budget: receiverBudget(bias, Math.sqrt(fading * share)), warnings };
}

const RECEIVER_FIELD = ask.choice("receiver", "Receiver", "A phone if left empty.", {
  phone: "Phone or hand-held receiver",
  survey: "Surveyor's receiver with corrections",
});

export const positionSamples: SurveyMethod<typeof positionSamplesFixSchema> = {
  method: "position-samples",
  title: "Averaged satellite positions",
  summary:
    "A phone left on the landing point for a minute or longer; better than one position, but not by much.",
  schema: positionSamplesFixSchema,
  fields: [
    RECEIVER_FIELD,
    {
      type: "list",
      name: "samples",
      label: "Positions",
      help: "As the receiver gives them, in the order of their time.",
      required: true,
      fewest: 2,
      most: 600,
      fields: [
        ask.number("latitude", "Latitude", "angle", "On WGS 84, south negative."),
        ask.number("longitude", "Longitude", "angle", "On WGS 84, west negative."),
        ask.number("accuracy", "Accuracy", "distance", "Radius that the receiver reports.", optional),
        ask.number("seconds", "Time", "time", "Since the first position."),
      ],
    },
    LEVEL_FIELD,
    LANDING_FIELD,
  ],
  place({ samples, receiver, accuracyLevel: level }, { plane }) {
    const sigmas = samples.map((sample) => receiverUncertainty(sample.accuracy, level));
    const weights = sigmas.map((sigma) => 1 / sigma ** 2);
    const total = weights.reduce((sum, weight) => sum + weight, 0);
    const places = samples.map((sample) => plane.toPlane(sample));
    const mean = (values: readonly number[]) =>
      values.reduce((sum, value, index) => sum + value * (weights[index] as number), 0) / total;
    const east = mean(places.map((each) => each.east));
    const north = mean(places.map((each) => each.north));
    const squares = mean(places.map((each) => ((each.east - east) ** 2 + (each.north - north) ** 2) / 2));
    const count = samples.length;
    return {
      point: plane.toPoint({ east, north }),
      ...averaged(
        receiver,
        Math.sqrt(count / total),
        Math.sqrt((squares * count) / (count - 1)),
        averagedShare(
          samples.map((sample) => sample.seconds),
          weights,
        ),
        (samples.at(-1)?.seconds ?? 0) - (samples[0]?.seconds ?? 0),
      ),
    };
  },
};

export const positionMean: SurveyMethod<typeof positionMeanFixSchema> = {
  method: "position-mean",
  title: "Mean of satellite positions",
  summary: "A receiver that averages by itself, with how many positions it took and for how long.",
  schema: positionMeanFixSchema,
  fields: [
    RECEIVER_FIELD,
    ask.number("latitude", "Latitude", "angle", "Of the mean on WGS 84, south negative."),
    ask.number("longitude", "Longitude", "angle", "Of the mean on WGS 84, west negative."),
    ask.number("count", "Positions", "ratio", "How many were averaged."),
    ask.number("seconds", "Time", "time", "From the first to the last position."),
    ask.number(
      "accuracy",
      "Accuracy",
      "distance",
      "Radius that the receiver reports of one position.",
      optional,
    ),
    LEVEL_FIELD,
    ask.number(
      "scatter",
      "Scatter",
      "distance",
      "Standard deviation along each axis, if it is told.",
      optional,
    ),
    LANDING_FIELD,
  ],
  place(fix) {
    // Many thousand positions a minute tell no more than some hundreds.
    const count = Math.min(fix.count, MOST_TIMES);
    const times = Array.from({ length: count }, (_, index) => (fix.seconds * index) / (count - 1));
    return {
      point: { latitude: fix.latitude, longitude: fix.longitude },
      ...averaged(
        fix.receiver,
        receiverUncertainty(fix.accuracy, fix.accuracyLevel),
        fix.scatter ?? 0,
        averagedShare(
          times,
          times.map(() => 1),
        ),
        fix.seconds,
      ),
    };
  },
};
