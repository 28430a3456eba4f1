/** Rounds, shots, fixes and rulings. */
import { z } from "zod";
import { fixSchema } from "../../survey";
import { contestSummarySchema, firingPointSchema } from "./contest";
import { count, DECISIONS, geometrySchema, idSchema, instant, OUTCOMES, reason } from "./parts";

export const roundRequest = z.strictObject({
  /** The next round if left out. An existing round takes in who is missing, at its end. */
  round: z.number().int().min(1).max(50).optional(),
  /** The firing order; by entrant number, starting one later every round, if left out. */
  machineIds: z.array(idSchema).min(1).max(200).optional(),
});
/** A first entry, or a correction, which names the fix it replaces and why. */
export const fixRequest = z
  .strictObject({
    fix: fixSchema,
    /** When it was seen; now if left out. */
    observedAt: instant.optional(),
    replacesId: idSchema.optional(),
    reason: reason.optional(),
  })
  .refine((entry) => entry.replacesId === undefined || entry.reason !== undefined, {
    path: ["reason"],
    message: "Say why the earlier entry is corrected.",
  });
export type FixRequest = z.output<typeof fixRequest>;

export const FLAGS = ["beyond-worst", "twice-last-mark", "outside-boundary"] as const;
export const fixAnswerSchema = z.object({
  id: idSchema,
  outcome: z.enum(OUTCOMES),
  method: z.string().nullable(),
  input: fixSchema,
  latitude: z.number().nullable(),
  longitude: z.number().nullable(),
  /** [east-east, east-north, north-north], m². */
  covariance: z.tuple([z.number(), z.number(), z.number()]).nullable(),
  /** m, rounded down to the centimetre. */
  mark: z.number().nullable(),
  /** Expanded, k = 2, m. */
  uncertainty: z.number().nullable(),
  /** What looked odd; kept, never refused. */
  flags: z.array(z.object({ code: z.enum(FLAGS), text: z.string() })),
  observedAt: instant,
  createdAt: instant,
  /** Label of the badge that entered it. */
  by: z.string(),
  replacesId: z.string().nullable(),
  reason: z.string().nullable(),
});
export type FixAnswer = z.infer<typeof fixAnswerSchema>;

export const rulingRequest = z
  .strictObject({
    entrantId: idSchema.optional(),
    shotId: idSchema.optional(),
    /** Of an entrant: dns, dnf, competing. Of a shot: foul, stands. */
    decision: z.enum(DECISIONS),
    reason,
  })
  .refine((ruling) => (ruling.entrantId === undefined) !== (ruling.shotId === undefined), {
    path: ["entrantId"],
    message: "Rule on one entrant or on one shot.",
  })
  .refine(
    (ruling) =>
      ["foul", "stands"].includes(ruling.decision)
        ? ruling.shotId !== undefined
        : ruling.entrantId !== undefined,
    { path: ["decision"], message: "An entrant is dns, dnf or competing; a shot is a foul or stands." },
  );
export const rulingSchema = z.object({
  id: idSchema,
  entrantId: z.string().nullable(),
  shotId: z.string().nullable(),
  decision: z.enum(DECISIONS),
  reason: z.string(),
  by: z.string(),
  sequence: count,
  createdAt: instant,
});
export type RulingInfo = z.infer<typeof rulingSchema>;

export const shotSchema = z.object({
  id: idSchema,
  round: count,
  position: count,
  entrantId: z.string(),
  entrantNumber: count,
  entrantName: z.string(),
  divisionId: z.string(),
  machineId: z.string(),
  machineName: z.string(),
  revision: count,
  firingPointId: z.string(),
  firingPointNumber: count,
  bearing: z.number(),
  /** The fix that counts; null before the first entry. */
  fix: fixAnswerSchema.nullable(),
  /** The newest ruling on this shot. */
  ruling: rulingSchema.nullable(),
});
export type ShotInfo = z.infer<typeof shotSchema>;
/** The newest round if none is named. */
export const shotsQuery = z.strictObject({ round: z.coerce.number().int().min(1).optional() });
export const shotsSchema = z.object({ round: count.nullable(), shots: z.array(shotSchema) });

/** All of one shot: newest fix first. */
export const shotHistorySchema = z.object({
  shot: shotSchema,
  firingPoint: firingPointSchema,
  fixes: z.array(fixAnswerSchema),
  rulings: z.array(rulingSchema),
});
export type ShotHistory = z.infer<typeof shotHistorySchema>;

/** What a judge's phone needs of one round. */
export const judgeViewSchema = z.object({
  contest: contestSummarySchema,
  round: count.nullable(),
  rounds: z.array(count),
  /** The first without an entry; null when the round is done. */
  upId: z.string().nullable(),
  shots: z.array(
    shotSchema.extend({
      firingPoint: firingPointSchema,
      /** The entrant's mark in its last measured shot before this round, m. */
      lastMark: z.number().nullable(),
      /** The worst throw of the current sheet, m. */
      worstForward: z.number().nullable(),
      worstBackward: z.number().nullable(),
    }),
  ),
  boundary: z.array(geometrySchema),
});
export type JudgeView = z.infer<typeof judgeViewSchema>;
