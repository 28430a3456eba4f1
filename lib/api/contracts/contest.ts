/** The contest and its range: divisions, entrants, firing points, site features, policy and air. */
import { z } from "zod";
import { airSchema } from "../../throw/contracts";
import {
  contestPolicySchema,
  count,
  day,
  geometrySchema,
  height,
  idSchema,
  latitude,
  longitude,
  name,
  reason,
  SITE_FEATURE_KINDS,
  SITE_FEATURE_RULES,
  slugSchema,
  text,
} from "./parts";
import { codeField, newBadgeSchema } from "./people";

export const contestRequest = z.strictObject({
  slug: slugSchema,
  name,
  place: text(0, 120).default(""),
  date: day,
  units: z.enum(["metric", "us"]).default("metric"),
  /** The site's middle. */
  latitude,
  longitude,
  height: height.default(0),
  /** Degrees, east positive. */
  declination: z.number().min(-180).max(180).default(0),
  rounds: z.number().int().min(1).max(50).default(3),
  policy: contestPolicySchema.prefault({}),
  air: airSchema.prefault({}),
});
export const setupRequest = z.strictObject({ setupCode: codeField, contest: contestRequest });

export const contestSummarySchema = z.object({
  id: idSchema,
  slug: z.string(),
  name: z.string(),
  place: z.string(),
  date: day,
  units: z.enum(["metric", "us"]),
  latitude: z.number(),
  longitude: z.number(),
  height: z.number(),
  declination: z.number(),
  rounds: count,
  demo: z.boolean(),
});
export type ContestSummary = z.infer<typeof contestSummarySchema>;
export const newContestSchema = z.object({
  contest: contestSummarySchema,
  /** Signs in as organiser of the new contest. */
  badge: newBadgeSchema,
});

export const divisionRequest = z.strictObject({ name });
export const divisionSchema = z.object({ id: idSchema, name: z.string(), position: count });

export const entrantRequest = z.strictObject({
  divisionId: idSchema,
  /** The next free number if left out. */
  number: z.number().int().min(1).max(9999).optional(),
  /** The team's public name. */
  name,
});
export const entrantSchema = z.object({
  id: idSchema,
  divisionId: z.string(),
  number: count,
  name: z.string(),
});

export const policyRequest = z.strictObject({ policy: contestPolicySchema, reason });
export const airRequest = z.strictObject({ air: airSchema, reason });

/** How far a machine on it may stand from these coordinates, m: every zone from it grows by this. */
const placeAccuracy = z.number().min(0).max(50);

export const firingPointRequest = z.strictObject({
  number: z.number().int().min(1).max(999).optional(),
  name: text(0, 80).default(""),
  latitude,
  longitude,
  height: height.optional(),
  accuracy: placeAccuracy.default(0),
});
/** Refused once a shot from there has been measured: lay out a new firing point instead. */
export const firingPointMove = z.strictObject({
  latitude,
  longitude,
  height: height.optional(),
  accuracy: placeAccuracy.optional(),
});
export const firingPointSchema = z.object({
  id: idSchema,
  number: count,
  name: z.string(),
  latitude: z.number(),
  longitude: z.number(),
  height: z.number(),
  accuracy: z.number(),
});

const standOff = z.number().min(0).max(2000).nullable();
/** The kind's own if null or left out. Boundaries keep theirs. */
const rule = z.enum(SITE_FEATURE_RULES).exclude(["contains"]).nullable();

export const featureRequest = z.strictObject({
  kind: z.enum(SITE_FEATURE_KINDS),
  name,
  geometry: geometrySchema,
  /** m; the kind's default if null or left out. */
  standOff: standOff.default(null),
  rule: rule.default(null),
});
export const featureChange = z
  .strictObject({
    name: name.optional(),
    geometry: geometrySchema.optional(),
    standOff: standOff.optional(),
    rule: rule.optional(),
    /** A retired feature stays in the record and protects nothing. */
    retired: z.boolean().optional(),
  })
  .refine((change) => Object.keys(change).length > 0, "Say what is to change.");
export const featureSchema = z.object({
  id: idSchema,
  kind: z.enum(SITE_FEATURE_KINDS),
  name: z.string(),
  geometry: geometrySchema,
  standOff: z.number().nullable(),
  rule: z.enum(SITE_FEATURE_RULES).nullable(),
  retired: z.boolean(),
});
