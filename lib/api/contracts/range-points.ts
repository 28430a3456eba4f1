/** Control points (surveyed pegs) and heights of the ground. */
import { z } from "zod";
import { HANDHELD, height, idSchema, latitude, longitude, name, text } from "./parts";

/** Standard uncertainty of where the peg stands, m. */
const accuracy = z.number().min(0).max(50);
const note = text(0, 500);

/** What is left out: height the contest's, accuracy that of a handheld receiver. */
export const controlPointRequest = z.strictObject({
  /** What stands on the peg; no other of the contest may have it. */
  name,
  latitude,
  longitude,
  height: height.optional(),
  accuracy: accuracy.default(HANDHELD),
  note: note.default(""),
});
export const controlPointChange = z
  .strictObject({
    name: name.optional(),
    latitude: latitude.optional(),
    longitude: longitude.optional(),
    height: height.optional(),
    accuracy: accuracy.optional(),
    note: note.optional(),
    /** A retired peg keeps its name and stays in the record; nothing is measured from it. */
    retired: z.boolean().optional(),
  })
  .refine((change) => Object.keys(change).length > 0, "Say what is to change.");
export const controlPointSchema = z.object({
  id: idSchema,
  name: z.string(),
  latitude: z.number(),
  longitude: z.number(),
  height: z.number(),
  /** False: nobody gave it, it is the contest's own, and it describes no ground. */
  heightGiven: z.boolean(),
  accuracy: z.number(),
  note: z.string(),
  retired: z.boolean(),
});
export type ControlPointInfo = z.infer<typeof controlPointSchema>;

export const spotHeightRequest = z.strictObject({ latitude, longitude, height });
export const spotHeightChange = z
  .strictObject({
    latitude: latitude.optional(),
    longitude: longitude.optional(),
    height: height.optional(),
    /** A retired height describes no ground. */
    retired: z.boolean().optional(),
  })
  .refine((change) => Object.keys(change).length > 0, "Say what is to change.");
export const spotHeightSchema = z.object({
  id: idSchema,
  latitude: z.number(),
  longitude: z.number(),
  height: z.number(),
  retired: z.boolean(),
});
export type SpotHeightInfo = z.infer<typeof spotHeightSchema>;
