/** The site in and out of files: what a preview says, what an import takes, what an export may be asked for. */
import { z } from "zod";
import { FORMATS, LIMITS, type SiteItem, WHATS } from "../../exchange/items";
import { featureRequest, firingPointRequest } from "./contest";
import { count, geometrySchema, HANDHELD, idSchema, SITE_FEATURE_KINDS, SITE_FEATURE_RULES } from "./parts";
import { controlPointRequest, spotHeightRequest } from "./range-points";

/** Bytes of the file that a preview reads. */
export const IMPORT_FILE_BYTES = LIMITS.file;
/** Bytes of an import's JSON: what a file of that size comes to. */
export const IMPORT_JSON_BYTES = 4 * LIMITS.file;

/** The file itself is the body. */
export const importPreviewQuery = z.strictObject({
  /** The file's name, for what its ending promises. */
  name: z.string().max(300).default(""),
  /** Exchange latitude and longitude. */
  swap: z.enum(["0", "1"]).default("0"),
});

/** new; the same name and kind is there already; the very same is there already, so it would be there twice. */
export const FATES = ["new", "same-name", "identical"] as const;

export const previewItemSchema = z.object({
  /** Where it stands in the file. */
  where: z.string(),
  what: z.enum(WHATS),
  /** Of a feature; null where a person must choose. */
  kind: z.enum(SITE_FEATURE_KINDS).nullable(),
  name: z.string(),
  geometry: geometrySchema.nullable(),
  /** m, of points. */
  height: z.number().nullable(),
  heightFrom: z.enum(["ellipsoid", "sea-level"]),
  standOff: z.number().nullable(),
  rule: z.enum(SITE_FEATURE_RULES).nullable(),
  number: z.number().nullable(),
  accuracy: z.number().nullable(),
  /** Degrees true, of a firing point in a practice yard's file; a contest aims each machine by itself. */
  bearing: z.number().nullable(),
  note: z.string(),
  /** What was repaired or looks odd. */
  warnings: z.array(z.string()),
  /** Why it cannot be brought in; null when it can. */
  problem: z.string().nullable(),
  fate: z.enum(FATES),
});
export type PreviewItem = z.infer<typeof previewItemSchema>;
export const importPreviewSchema = z.object({
  format: z.enum(FORMATS),
  /** What holds for the file as a whole. */
  notes: z.array(z.string()),
  /** With latitude and longitude exchanged, more of it would lie at the site. */
  swapHelps: z.boolean(),
  items: z.array(previewItemSchema),
});
export type ImportPreview = z.infer<typeof importPreviewSchema>;

/** Each as its own route would take it. */
export const importItem = z.discriminatedUnion("what", [
  featureRequest.extend({ what: z.literal("feature") }),
  firingPointRequest.extend({ what: z.literal("firing-point") }),
  controlPointRequest.extend({ what: z.literal("control-point") }),
  spotHeightRequest.extend({ what: z.literal("spot-height") }),
]);
export type ImportItem = z.output<typeof importItem>;
/** All or nothing. */
export const importRequest = z.strictObject({ items: z.array(importItem).min(1).max(LIMITS.items) });
export const importAnswerSchema = z.object({
  features: count,
  firingPoints: count,
  controlPoints: count,
  spotHeights: count,
});
export type ImportAnswer = z.infer<typeof importAnswerSchema>;

/**
 * What an import takes of an item as it stands: what is not known is left out, so that the defaults count. Where machines
 * are to stand by a file that gives no accuracy, somebody held a receiver.
 */
export function importItemOf(item: Omit<SiteItem, "where" | "warnings" | "problem">): unknown {
  const { what, kind, name, geometry, standOff, rule, number, accuracy, height, note } = item;
  if (what === "feature") return { what, kind, name, geometry, standOff, rule };
  const [longitude, latitude] = geometry?.type === "Point" ? geometry.coordinates : [];
  const known = <K extends string>(key: K, value: number | null) => (value === null ? {} : { [key]: value });
  const place = { what, latitude, longitude, ...known("height", height) };
  if (what === "spot-height") return place;
  const point = {
    ...place,
    name,
    ...known("accuracy", accuracy ?? (what === "firing-point" ? HANDHELD : null)),
  };
  return what === "firing-point" ? { ...point, ...known("number", number) } : { ...point, note };
}

/** `pegs`: the list of pegs to set out, as CSV. */
export const EXPORTS = [...FORMATS, "pegs"] as const;
export const pegsQuery = z.strictObject({
  /** m at most between two pegs along the edge of a zone. */
  every: z.coerce.number().min(1).max(1000).default(25),
  /** Control point or firing point that bearings and distances count from; the first if left out. */
  from: idSchema.optional(),
});
export const exportQuery = pegsQuery.extend({ format: z.enum(EXPORTS) });
