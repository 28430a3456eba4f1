/** Walls and nets that the safety officer signs for. */
import { z } from "zod";
import { idSchema, instant, name, position, reason } from "./parts";

const line = z.strictObject({
  type: z.literal("LineString"),
  coordinates: z.array(position).min(2).max(100),
});

export const barrierRequest = z.strictObject({
  name,
  /** Its foot, from end to end. */
  geometry: line.extend({
    coordinates: line.shape.coordinates.refine(
      ([first, ...rest]) => rest.some((end) => end[0] !== first?.[0] || end[1] !== first?.[1]),
      "A barrier needs two ends at different places: these are one place, so it stops nothing.",
    ),
  }),
  /** Of its top above the ground it stands on, m. */
  height: z.number().min(0.5).max(50),
  /** What it is made of, what it holds, how that was tested. */
  reason,
});
/** A barrier is not changed: retire it and sign for another. */
export const barrierRetirement = z.strictObject({ retired: z.literal(true), reason });
export const barrierInfoSchema = z.object({
  id: idSchema,
  name: z.string(),
  geometry: line,
  height: z.number(),
  reason: z.string(),
  /** The badge that signed. */
  signedBy: z.string(),
  signedAt: instant,
  retired: z.boolean(),
});
export type BarrierInfo = z.infer<typeof barrierInfoSchema>;
