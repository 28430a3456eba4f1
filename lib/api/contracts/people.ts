/** Signing in and badges. */
import { z } from "zod";
import { count, endedSchema, idSchema, instant, name, roleSchema } from "./parts";

export const codeField = z.string().trim().min(4).max(80);
export const signInRequest = z.strictObject({ code: codeField });
export const meSchema = z.object({
  badge: z
    .object({
      id: idSchema,
      role: roleSchema,
      label: z.string(),
      contestSlug: z.string(),
      contestName: z.string(),
      entrantId: z.string().nullable(),
      /** When this sign-in ends: the badge's end, unless the browser forgets it before. */
      expiresAt: instant,
      /** Its code signs in again and again. */
      reusable: z.boolean(),
    })
    .nullable(),
  /** Of a session whose badge acts no more: it still delivers what was observed before. */
  ended: z.object({ label: z.string(), contestSlug: z.string(), how: endedSchema, at: instant }).nullable(),
});
export type Me = z.infer<typeof meSchema>;

export const badgeRequest = z
  .strictObject({
    role: roleSchema,
    /** What the scorebook shows, such as "Judge 1": no person's name. */
    label: name,
    /** The team's entrant; for the role team alone. */
    entrantId: idSchema.optional(),
    /**
     * Until when it may act; 36 hours after the contest's last day if left out, at least a week from now. Null, for an
     * organiser alone, makes it an account: it has no end, and its code signs in again and again.
     */
    endsAt: instant.nullable().optional(),
  })
  .refine((badge) => (badge.role === "team") === (badge.entrantId !== undefined), {
    path: ["entrantId"],
    message: "Name the entrant for a team's badge, and for no other.",
  });
export const badgeChange = z.strictObject({ endsAt: instant.nullable() });
/** "replace" ends what its devices may do, as revoking would; "add" lets them go on. */
export const codeRequest = z.strictObject({ devices: z.enum(["replace", "add"]) });
export const badgeSchema = z.object({
  id: idSchema,
  role: roleSchema,
  label: z.string(),
  entrantId: z.string().nullable(),
  createdAt: instant,
  revokedAt: instant.nullable(),
  /** Null: an organiser's account, or made before badges had an end. */
  endsAt: instant.nullable(),
  /** Its code signs in again and again: of an account and of the demo. Otherwise one device, once. */
  reusable: z.boolean(),
  /** When its newest code first signed somebody in. */
  codeUsedAt: instant.nullable(),
  /** How many are signed in with it. */
  devices: count,
  /** How often somebody signed in with it, and the last few times, the newest first. */
  signIns: z.object({ count, last: z.array(z.object({ at: instant, device: z.string() })) }),
});
export type BadgeInfo = z.infer<typeof badgeSchema>;
/** `code` is shown this once and never stored. */
export const newBadgeSchema = badgeSchema.extend({ code: z.string() });

export const signInsQuery = z.strictObject({
  skip: z.coerce.number().int().min(0).max(1_000_000).default(0),
});
/** Newest first. */
export const signInsSchema = z.object({
  signIns: z.array(
    z.object({
      at: instant,
      badgeId: idSchema,
      label: z.string(),
      role: roleSchema,
      /** Such as "Android, Firefox". */
      device: z.string(),
      /** Why a right code opened nothing; null: somebody signed in. */
      refused: z.enum(["used", "revoked", "past-end"]).nullable(),
    }),
  ),
  /** Ask with `skip` = this for the next page; null on the last. */
  next: count.nullable(),
});
export type SignIns = z.infer<typeof signInsSchema>;
