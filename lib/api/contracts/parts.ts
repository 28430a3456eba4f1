/** What the contracts of all routes share. */
import { z } from "zod";
import { hazardRequestSchema } from "../../throw/contracts";
import { FEATURE_KIND_NAMES, FEATURE_RULES } from "../../zones/kinds";
import { SITE_LATITUDE, SITE_LATITUDE_WORDS } from "../../zones/latitude";

export const ROLES = ["organiser", "safety-officer", "judge", "team"] as const;
export const roleSchema = z.enum(ROLES);
export type Role = z.infer<typeof roleSchema>;

/** What each kind means, and its default stand-off, is in lib/zones. */
export const SITE_FEATURE_KINDS = FEATURE_KIND_NAMES;
/** What each asks for is in lib/zones. */
export const SITE_FEATURE_RULES = FEATURE_RULES;

export const OUTCOMES = ["landed", "foul", "misfire", "burst"] as const;
export const DECISIONS = [
  "dns",
  "dnf",
  "competing",
  "foul",
  "stands",
  "re-throw",
  "upheld",
  "dismissed",
] as const;

/** SQLite cuts a text at a zero character and PostgreSQL refuses it; half of a surrogate pair comes back as another. */
const isStorable = (given: string) => !given.includes("\0") && !/\p{Surrogate}/u.test(given);
export const text = (least: number, most: number) =>
  z
    .string()
    .trim()
    .min(least)
    .max(most)
    .refine(isStorable, "This holds a character that cannot be kept: type it again.");
export const name = text(1, 80);
/** Why something official was changed: stands in the scorebook for good. */
export const reason = text(3, 500);
export const idSchema = z.string().min(1).max(64);
/** Of a place of the site. */
export const latitude = z
  .number()
  .min(-SITE_LATITUDE, SITE_LATITUDE_WORDS)
  .max(SITE_LATITUDE, SITE_LATITUDE_WORDS);
export const longitude = z.number().min(-180).max(180);
/** Of the ground above the ellipsoid, m. */
export const height = z.number().min(-500).max(6000);
/** Degrees true, clockwise from north. */
export const bearingSchema = z.number().min(0).lt(360);
export const instant = z.iso.datetime({ offset: true });
/** How a badge came to act no more: revoked; past its end; or another device took this one's place on it. */
export const endedSchema = z.enum(["revoked", "past-end", "replaced"]);
export type Ended = z.infer<typeof endedSchema>;
export const day = z.iso.date();
export const count = z.number().int().min(0);
export const slugSchema = z
  .string()
  .regex(/^[a-z0-9]+(-[a-z0-9]+)*$/, "Use small letters, digits and single hyphens, such as harvest-fair.")
  .min(2)
  .max(60);

/** What a position from a handheld receiver is good to, m (common practice, no source). */
export const HANDHELD = 5;

/** Longitude before latitude, as in RFC 7946. */
export const position = z.tuple([longitude, latitude]);
export const ring = z
  .array(position)
  .min(4)
  .max(2000)
  .refine((points) => {
    const first = points[0];
    const last = points.at(-1);
    return first?.[0] === last?.[0] && first?.[1] === last?.[1];
  }, "Close the ring: its last position must equal its first.");
export const geometrySchema = z.discriminatedUnion("type", [
  z.strictObject({ type: z.literal("Point"), coordinates: position }),
  z.strictObject({ type: z.literal("LineString"), coordinates: z.array(position).min(2).max(2000) }),
  z.strictObject({ type: z.literal("Polygon"), coordinates: z.array(ring).min(1).max(50) }),
]);
export type SiteGeometry = z.infer<typeof geometrySchema>;

/** The policy as a hazard request takes it, with its rules across fields. */
export const contestPolicySchema = hazardRequestSchema.shape.policy.unwrap();

/** RFC 9457. `errors` names each field by its path in the body, `fix.distance`; "" is the body as a whole. */
export const problemSchema = z.looseObject({
  type: z.string(),
  title: z.string(),
  status: z.number().int(),
  /** A sentence that says what to do. */
  detail: z.string(),
  /** Stable word for programs, such as "already-corrected". */
  code: z.string(),
  errors: z.array(z.object({ field: z.string(), message: z.string() })).optional(),
});
export type Problem = z.infer<typeof problemSchema>;
