/** Signing in and badges. */
import { z } from "zod";
import { count, idSchema, instant, name, roleSchema } from "./parts";

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
      expiresAt: instant,
    })
    .nullable(),
});
export type Me = z.infer<typeof meSchema>;

export const badgeRequest = z
  .strictObject({
    role: roleSchema,
    /** What the scorebook shows, such as "Judge 1": no person's name. */
    label: name,
    /** The team's entrant; for the role team alone. */
    entrantId: idSchema.optional(),
  })
  .refine((badge) => (badge.role === "team") === (badge.entrantId !== undefined), {
    path: ["entrantId"],
    message: "Name the entrant for a team's badge, and for no other.",
  });
export const badgeSchema = z.object({
  id: idSchema,
  role: roleSchema,
  label: z.string(),
  entrantId: z.string().nullable(),
  createdAt: instant,
  revokedAt: instant.nullable(),
  /** How often somebody signed in with it, and the last few times, the newest first. */
  signIns: z.object({ count, last: z.array(z.object({ at: instant, device: z.string() })) }),
});
export type BadgeInfo = z.infer<typeof badgeSchema>;
/** `code` is shown this once and never stored. */
export const newBadgeSchema = badgeSchema.extend({ code: z.string() });
