/** What the safety officer sets. */
import { z } from "zod";
import { angle, finite, metres, range } from "./numbers";

export const GROUND_FIRMNESS = ["soft", "firm", "hard"] as const;

/**
 * What the contest lets a team throw, apart from what it declared: worst throws count all of it. Absent: the declared
 * projectile, whole, within its tolerances.
 */
export const projectileRuleSchema = z
  .strictObject({
    /** Least and largest mass, kg, and diameter, m, that may be brought to the line. */
    mass: range(0.001, 5000).optional(),
    diameter: range(0.002, 5).optional(),
    /**
     * Least share of the mass that may be left in the sling when the load breaks up: all from this share to the
     * whole counts, with the drag and lift of a piece.
     */
    pieceShare: finite.min(0.05).max(1).optional(),
    /** Largest density that somebody might throw instead, kg/m³: the declared masses as smooth balls of it. */
    substituteDensity: finite.min(100).max(20_000).optional(),
  })
  .optional();

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
      /** Pieces of a machine that breaks, to either side of where they are thrown. */
      debris: angle.default(45),
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
  projectiles: projectileRuleSchema,
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
