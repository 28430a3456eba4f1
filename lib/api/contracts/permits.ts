/** Firing permits: signing one, and whether it stands. */
import { z } from "zod";
import { FALL_CAUSES } from "../../inspection/permit/falls";
import { permitLimitsSchema } from "../../inspection/permit/limits";
import { bearingSchema, count, idSchema, instant, reason, text } from "./parts";

export const permitRequest = z.strictObject({
  /** What is signed: refused if it is not that any more. */
  revisionId: idSchema,
  firingPointId: idSchema,
  bearing: bearingSchema,
  sheetId: idSchema,
  /** Of this revision: one that did not refuse it. */
  inspectionId: idSchema,
  limits: permitLimitsSchema,
  /** What else must be kept to, in words. */
  conditions: text(0, 1000).default(""),
  /** It was signed on paper first. It counts from now on all the same; what was thrown meanwhile takes a ruling. */
  paper: z.strictObject({ signedAt: instant, /** A post or a role. */ witness: text(1, 80) }).optional(),
});
export const permitWithdrawal = z.strictObject({ reason });

/** "waits": it stands again by itself once what keeps it is over. "fallen": it takes another signature. */
export const PERMIT_STATES = ["stands", "waits", "fallen"] as const;
export const permitSchema = z.object({
  id: idSchema,
  number: count,
  machineId: idSchema,
  machineName: z.string(),
  entrantId: idSchema,
  entrantNumber: count,
  entrantName: z.string(),
  revisionId: idSchema,
  /** Its number. */
  revision: count,
  firingPointId: idSchema,
  firingPointNumber: count,
  bearing: z.number(),
  sheetId: idSchema,
  inspectionId: idSchema,
  limits: permitLimitsSchema,
  conditions: z.string(),
  signedBy: z.string(),
  signedAt: instant,
  paper: z.object({ signedAt: instant, witness: z.string() }).nullable(),
  /** Of its scorebook entry. */
  sequence: count,
  state: z.enum(PERMIT_STATES),
  /** Why it does not stand. */
  falls: z.array(
    z.object({
      cause: z.enum(FALL_CAUSES),
      at: instant.nullable(),
      text: z.string(),
      lasting: z.boolean(),
    }),
  ),
});
export type PermitInfo = z.infer<typeof permitSchema>;
