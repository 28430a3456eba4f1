/** Inspections of machine revisions: what was found line by line, what was measured, and what came out. */
import { z } from "zod";
import { FINDINGS, OUTCOMES_OF_INSPECTION } from "../../inspection/inspect/outcome";
import { count, idSchema, instant, text } from "./parts";
import { permitSchema } from "./permits";

/** By path into the declaration, "machine.longArm"; SI. */
const measuredSchema = z.strictObject({ path: z.string().min(1).max(80), value: z.number() });

export const inspectionRequest = z.strictObject({
  /** The newest one: refused if there is another by now. */
  revisionId: idSchema,
  /** One for every line of the checklist of its kind. */
  lines: z
    .array(
      z.strictObject({
        id: z.string().min(1).max(40),
        finding: z.enum(FINDINGS),
        note: text(0, 500).default(""),
      }),
    )
    .max(60),
  measured: z.array(measuredSchema).max(60).default([]),
  outcome: z.enum(OUTCOMES_OF_INSPECTION),
  /** The limits under which it meets it, or why it is refused. */
  limits: text(0, 1000).default(""),
  /** When it was looked at, if it was written on paper first; now if left out. */
  inspectedAt: instant.optional(),
  /** Who saw it then: a role or a post, no person's name. */
  witness: text(1, 80).optional(),
});

/** A new revision with the numbers that were measured outside their tolerance. */
export const measuredRevisionRequest = z.strictObject({
  revisionId: idSchema,
  measured: z.array(measuredSchema).min(1).max(60),
});

/** As kept, in canonical JSON. */
export const inspectionBodySchema = z.object({
  lines: z.array(z.object({ id: z.string(), finding: z.enum(FINDINGS), note: z.string() })),
  measured: z.array(z.object({ path: z.string(), declared: z.number(), value: z.number() })),
});
export const inspectionSchema = inspectionBodySchema.extend({
  id: idSchema,
  machineId: idSchema,
  revisionId: idSchema,
  /** Its number. */
  revision: count,
  outcome: z.enum(OUTCOMES_OF_INSPECTION),
  limits: z.string(),
  inspectedAt: instant,
  witness: z.string().nullable(),
  by: z.string(),
  sequence: count,
  createdAt: instant,
});
export type InspectionInfo = z.infer<typeof inspectionSchema>;

/** Of one machine, each list newest first: the first of each counts. */
export const machineClearanceSchema = z.object({
  inspections: z.array(inspectionSchema),
  permits: z.array(permitSchema),
});
export type MachineClearance = z.infer<typeof machineClearanceSchema>;

/** Every machine that is not retired, in the order of their teams; a team's own only for a team. */
export const clearanceListSchema = z.object({
  machines: z.array(
    z.object({
      machineId: idSchema,
      machineName: z.string(),
      entrantId: idSchema,
      entrantNumber: count,
      entrantName: z.string(),
      firingPointNumber: count.nullable(),
      bearing: z.number().nullable(),
      revision: count.nullable(),
      /** The newest. */
      inspection: inspectionSchema
        .pick({ id: true, revision: true, outcome: true, inspectedAt: true })
        .nullable(),
      permit: permitSchema.nullable(),
    }),
  ),
});
export type ClearanceList = z.infer<typeof clearanceListSchema>;
