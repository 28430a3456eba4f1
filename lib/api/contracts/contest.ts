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

const place = text(0, 120);
const units = z.enum(["metric", "us"]);
/** Degrees, east positive. */
const declination = z.number().min(-180).max(180);
const rounds = z.number().int().min(1).max(50);

export const contestRequest = z.strictObject({
  slug: slugSchema,
  name,
  place: place.default(""),
  /** The first day. */
  date: day,
  /** Null or left out: there is one day. */
  lastDate: day.nullable().default(null),
  units: units.default("metric"),
  /** The site's middle. */
  latitude,
  longitude,
  height: height.default(0),
  declination: declination.default(0),
  rounds: rounds.default(3),
  policy: contestPolicySchema.prefault({}),
  air: airSchema.prefault({}),
});
/** What may still be put right later: its address and where it is stay. */
export const contestChange = z
  .strictObject({
    name: name.optional(),
    place: place.optional(),
    date: day.optional(),
    lastDate: day.nullable().optional(),
    units: units.optional(),
    height: height.optional(),
    declination: declination.optional(),
    rounds: rounds.optional(),
  })
  .refine((change) => Object.keys(change).length > 0, "Say what is to change.");
export const setupRequest = z.strictObject({ setupCode: codeField, contest: contestRequest });

export const contestSummarySchema = z.object({
  id: idSchema,
  slug: z.string(),
  name: z.string(),
  place: z.string(),
  date: day,
  /** Null: there is one day. Absent from safety files frozen before there could be more. */
  lastDate: day.nullable().optional(),
  units,
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
/** A new place is refused once a shot from there has been measured: lay out a new firing point instead. */
export const firingPointChange = z
  .strictObject({
    name: text(0, 80).optional(),
    latitude: latitude.optional(),
    longitude: longitude.optional(),
    height: height.optional(),
    accuracy: placeAccuracy.optional(),
    /** Refused while a machine stands on it. */
    retired: z.boolean().optional(),
  })
  .refine((change) => Object.keys(change).length > 0, "Say what is to change.");
export const firingPointSchema = z.object({
  id: idSchema,
  number: count,
  name: z.string(),
  latitude: z.number(),
  longitude: z.number(),
  height: z.number(),
  /** False: nobody gave it, and it is the contest's own. Absent from older safety files. */
  heightGiven: z.boolean().optional(),
  accuracy: z.number(),
  /** Nothing stands there any more. Absent from safety files frozen before one could be retired. */
  retired: z.boolean().optional(),
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
/**
 * The safety officer lets a feature be protected less than its kind is by itself, or takes that back. What is allowed is
 * repeated as it was read: refused when somebody has changed it meanwhile.
 */
export const featureAllowance = z.discriminatedUnion("allowed", [
  z.strictObject({ allowed: z.literal(true), rule, standOff, geometry: geometrySchema, reason }),
  z.strictObject({ allowed: z.literal(false), reason }),
]);
export const featureSchema = z.object({
  id: idSchema,
  kind: z.enum(SITE_FEATURE_KINDS),
  name: z.string(),
  geometry: geometrySchema,
  standOff: z.number().nullable(),
  rule: z.enum(SITE_FEATURE_RULES).nullable(),
  /**
   * Why the safety officer lets it be protected less than its kind. Null: nobody has, and its kind's rule and stand-off
   * hold at the least. Absent from safety files frozen before that was asked.
   */
  allowance: z.string().nullable().optional(),
  retired: z.boolean(),
});
