/** The picture underneath: a photo or scan of the site, pinned to known coordinates. */
import { z } from "zod";
import { PICTURE_MODELS } from "../../earth/picture-models";
import { count, idSchema, instant, latitude, longitude, name, text } from "./parts";

/** Pixels a side, at most: a phone must be able to show it. */
export const PICTURE_SIDE = 4096;
/** Bytes, at most, as it is stored. */
export const PICTURE_BYTES = 12 * 1024 * 1024;
export const PICTURE_TYPES = ["image/jpeg", "image/png", "image/webp"] as const;

const pixel = z
  .number()
  .min(-PICTURE_SIDE)
  .max(2 * PICTURE_SIDE);
export const picturePinSchema = z.strictObject({
  /** Pixels, right and down from the top left corner. */
  x: pixel,
  y: pixel,
  latitude,
  longitude,
  /** What is there: "control point Oak". */
  label: text(0, 80).default(""),
});
const pins = z.array(picturePinSchema).max(40);
/** null takes the better conditioned one. */
const model = z.enum(PICTURE_MODELS).nullable();
const opacity = z.number().min(0.05).max(1);

export const aerialPictureRequest = z.strictObject({
  name,
  /** The file in base64: JPEG, PNG or WebP without position data, at most 4096 pixels a side. */
  content: z
    .string()
    .min(40)
    .refine(
      (content) => content.length % 4 === 0 && !/[^A-Za-z0-9+/=]/.test(content),
      "Send the file's bytes in base64.",
    )
    .max(
      Math.ceil(PICTURE_BYTES / 3) * 4,
      "The picture is larger than 12 MB: make it smaller or compress it more.",
    ),
  /** None yet, or at least two that fit. It is drawn once it is pinned. */
  pins: pins.default([]),
  model: model.default(null),
  opacity: opacity.default(0.7),
});
export const aerialPictureChange = z
  .strictObject({
    name: name.optional(),
    pins: pins.optional(),
    model: model.optional(),
    opacity: opacity.optional(),
    /** Whether maps draw it at first; every reader may switch it. */
    shown: z.boolean().optional(),
    /** A retired picture is drawn nowhere and no longer served. */
    retired: z.boolean().optional(),
  })
  .refine((change) => Object.keys(change).length > 0, "Say what is to change.");
export const aerialPictureSchema = z.object({
  id: idSchema,
  name: z.string(),
  mediaType: z.enum(PICTURE_TYPES),
  width: count,
  height: count,
  /** Of the content, hexadecimal. */
  sha256: z.string(),
  pins: z.array(picturePinSchema.extend({ label: z.string() })),
  model,
  opacity: z.number(),
  shown: z.boolean(),
  retired: z.boolean(),
  createdAt: instant,
});
export type AerialPictureInfo = z.infer<typeof aerialPictureSchema>;
