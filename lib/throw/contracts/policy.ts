/** What the safety officer sets. */
import { z } from "zod";
import { angle, finite, metres } from "./numbers";

export const GROUND_FIRMNESS = ["soft", "firm", "hard"] as const;

/** Margins and angles: the safety officer's alone. Every default is common practice, no source. */
export const policySchema = z.strictObject({
  /** Multiplies every first-impact distance. */
  margin: finite.min(1).max(5).default(1.2),
  /** Out-of-plane angle that each cause allows, degrees either way. */
  angles: z
    .strictObject({
      /** How well the machine is aimed. */
      aim: angle.default(5),
      /** Lean of the frame, twist of the arm. */
      lean: angle.default(3),
      /** One leg of the sling torn, or the projectile striking the frame. */
      tornSling: angle.default(20),
    })
    .prefault({}),
  /** Nobody nearer than this to the firing point, whatever the throw, m. */
  minimum: z
    .strictObject({
      forward: metres.default(30),
      backward: metres.default(30),
      side: metres.default(20),
    })
    .prefault({}),
  /** Sets bounce and roll after the first impact. */
  ground: z.enum(GROUND_FIRMNESS).default("firm"),
  /** Whether a projectile that hangs up and whirls on counts. Off only with a reason. */
  hangUp: z.boolean().default(true),
  hangUpReason: z.string().trim().max(500).optional(),
});

export const checkedPolicySchema = policySchema.refine((policy) => policy.hangUp || !!policy.hangUpReason, {
  path: ["hangUpReason"],
  message: "Leaving hang-ups out needs a reason, which stands on the sheet.",
});

export type Policy = z.output<typeof policySchema>;
export const defaultPolicy: Policy = policySchema.parse({});
