/** Spotters' sightings of a splash, and the rough point where they cross. */
import { z } from "zod";
import { DEFAULT_UNCERTAINTY, sightSchema, WARNING_CODES } from "../../survey";
import { idSchema, instant } from "./parts";

/** By the phone's compass, by a bearing turned or typed, by a touch on the map. */
export const SIGHTING_WAYS = ["compass", "dial", "map"] as const;

/** From one post. Sent again it corrects what that post had sent for the shot. */
export const sightingRequest = sightSchema.omit({ declination: true }).extend({
  /** Null when the post saw nothing, or takes back what it sent. */
  bearing: sightSchema.shape.bearing.nullable(),
  /** Standard, degrees. */
  uncertainty: sightSchema.shape.uncertainty.default(DEFAULT_UNCERTAINTY.spotter),
  way: z.enum(SIGHTING_WAYS),
  /** When it was seen; now if left out. */
  observedAt: instant.optional(),
});
export type SightingRequest = z.output<typeof sightingRequest>;

export const sightingSchema = z.object({
  id: idSchema,
  /** The post, a control point. */
  from: idSchema,
  postName: z.string(),
  /** Degrees, as read; null when this post saw nothing. */
  bearing: z.number().nullable(),
  north: z.enum(["true", "magnetic"]),
  /** The same from true north. */
  trueBearing: z.number().nullable(),
  uncertainty: z.number(),
  way: z.enum(SIGHTING_WAYS),
  observedAt: instant,
  createdAt: instant,
  /** Label of the badge that sent it. */
  by: z.string(),
});
export type SightingInfo = z.infer<typeof sightingSchema>;

export const roughPointSchema = z.object({
  /** Null when the bearings do not cross: the warnings say why. */
  located: z
    .object({
      latitude: z.number(),
      longitude: z.number(),
      /** [east-east, east-north, north-north], m². */
      covariance: z.tuple([z.number(), z.number(), z.number()]),
      /** Holds the splash with 95 %: semi-axes in m, and the true bearing of the longer one. */
      ellipse: z.object({ major: z.number(), minor: z.number(), bearing: z.number() }),
      /** From the firing point: m, and degrees true. */
      distance: z.number(),
      bearing: z.number(),
    })
    .nullable(),
  warnings: z.array(z.object({ code: z.enum(WARNING_CODES), text: z.string() })),
});
export type RoughPointInfo = z.infer<typeof roughPointSchema>;
