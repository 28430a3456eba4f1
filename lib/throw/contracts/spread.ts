/** Dispersion of ordinary throws. SI units; angles in degrees. */
import { z } from "zod";
import { finite } from "./numbers";
import { hazardRequestSchema } from "./request";

export const MOST_DRAWS = 20_000;
/** Landing points that an answer may hold. */
const MOST_POINTS = 2000;
const place = finite.min(-20_000).max(20_000);
/** m downrange of the firing point, m to the right of the bearing. */
const groundPoint = z.tuple([place, place]);

/** What a landing may lie beyond or within. */
export const crossingSchema = z.union([
  z.strictObject({
    name: z.string().trim().max(80).optional(),
    /** m downrange of the firing point: landings beyond it count; uprange of it when negative. */
    beyond: place.refine((distance) => distance !== 0, { message: "Give a distance other than 0." }),
  }),
  z.strictObject({
    name: z.string().trim().max(80).optional(),
    /** Two points of a straight line: landings on the other side of it than the firing point count. */
    line: z
      .tuple([groundPoint, groundPoint])
      .refine(([a, b]) => Math.abs(a[0] * b[1] - a[1] * b[0]) > 1e-6 * Math.hypot(a[0] - b[0], a[1] - b[1]), {
        message:
          "Give two different points whose line does not pass through the firing point: it has no far side.",
      }),
  }),
  z.strictObject({
    name: z.string().trim().max(80).optional(),
    /** Corners of an area, in order: landings inside count. */
    polygon: z.array(groundPoint).min(3).max(500),
  }),
]);

export const dispersionRequestSchema = z.strictObject({
  /** The throw: its tolerances, and its wind from the mean speed to the gust, are what differs between draws. */
  request: hazardRequestSchema,
  draws: z.int().min(100).max(MOST_DRAWS).default(2000),
  /** The same seed gives the same draws. */
  seed: z.int().min(0).max(Number.MAX_SAFE_INTEGER).default(1),
  /** How well the machine is aimed, ± degrees. */
  aim: finite.min(0).max(45).default(0),
  /** How far the wind turns from its mean direction, ± degrees. */
  windTurn: finite.min(0).max(180).default(0),
  /** Share of the landings that the ellipse is to hold. */
  probability: finite.min(0.01).max(0.999).default(0.95),
  crossings: z.array(crossingSchema).max(50).default([]),
  /** How many of the landing points the answer is to list. */
  points: z.int().min(0).max(MOST_POINTS).default(0),
});

const estimate = z.object({ value: z.number(), standardError: z.number() });

export const dispersionSchema = z.object({
  codeVersion: z.string(),
  draws: z.number(),
  seed: z.number(),
  landed: z.number(),
  /** Draws whose loop never slips: they hang up or strike the ground, and land nowhere here. */
  held: z.number(),
  /** Draws within the tolerances that are no machine: a sling that no longer reaches its trough. */
  impossible: z.number(),
  /** Of the landings; null without any. */
  spread: z
    .object({
      /** m downrange and m to the right. */
      mean: z.object({ distance: estimate, drift: estimate }),
      standardDeviation: z.object({ distance: z.number(), drift: z.number() }),
      /** Downrange distance below which that share of the landings lies, m. */
      percentiles: z.array(z.object({ share: z.number(), distance: z.number(), standardError: z.number() })),
      ellipse: z.object({
        probability: z.number(),
        /** Half its length and half its width, m. */
        semiMajor: z.number(),
        semiMinor: z.number(),
        /** Of its length, degrees clockwise from the bearing, 0 to 180. */
        direction: z.number(),
        /** Share of the landings that do lie inside: how well a normal distribution describes them. */
        holds: z.number(),
      }),
    })
    .nullable(),
  crossings: z.array(
    z.object({
      name: z.string().nullable(),
      /** Share of the draws that are machines. */
      chance: z.number(),
      standardError: z.number(),
      /** Two-sided 95 % interval of the chance. */
      interval: z.tuple([z.number(), z.number()]),
    }),
  ),
  points: z.array(groundPoint),
  assumptions: z.array(z.string()),
});

export type Crossing = z.output<typeof crossingSchema>;
export type DispersionRequest = z.output<typeof dispersionRequestSchema>;
export type Dispersion = z.infer<typeof dispersionSchema>;
