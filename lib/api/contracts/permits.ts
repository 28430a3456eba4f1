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
