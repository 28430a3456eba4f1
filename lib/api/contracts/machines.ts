/** Machines, their revisions and hazard sheets. */
import { z } from "zod";
import { airSchema, declarationSchema, hazardSheetSchema, terrainSchema } from "../../throw/contracts";
import { bearingSchema, count, idSchema, instant, name, text } from "./parts";

/** Of a revision's note, signs. */
export const LONGEST_NOTE = 300;

export const machineRequest = z.strictObject({
  entrantId: idSchema,
  name,
  /** Makes revision 1 at once. */
  declaration: declarationSchema.optional(),
  /** Of revision 1; "As entered" if left out. */
  note: text(0, LONGEST_NOTE).optional(),
});
export const revisionRequest = z.strictObject({
  declaration: declarationSchema,
  /** What changed. */
  note: text(0, LONGEST_NOTE).default(""),
});
export const machineChange = z
  .strictObject({
    name: name.optional(),
    /** It does not throw any more, and leaves the firing line. Refused while it has a turn to throw. */
    retired: z.boolean().optional(),
  })
  .refine((change) => Object.keys(change).length > 0, "Say what is to change.");
export const placementRequest = z.strictObject({
  /** Null takes the machine off the firing line. */
  firingPointId: idSchema.nullable(),
  bearing: bearingSchema.nullable(),
  /** Whether the plan of all machines leaves it there; as it was if left out. */
  pinned: z.boolean().optional(),
});
export const machineSchema = z.object({
  id: idSchema,
  entrantId: z.string(),
  name: z.string(),
  kind: z.string().nullable(),
  firingPointId: z.string().nullable(),
  bearing: z.number().nullable(),
  /** The plan of all machines leaves it where it is. */
  pinned: z.boolean(),
  /** It does not throw any more. */
  retired: z.boolean(),
  /** Number of the newest revision; null before the first. */
  revision: z.number().int().nullable(),
});
export const revisionSchema = z.object({
  id: idSchema,
  number: count,
  note: z.string(),
  declaration: declarationSchema,
  createdAt: instant,
});
/** "none": no revision yet. "computing": ask again, or wait for the live event. "failed": `reason` says why. */
export const SHEET_STATES = ["current", "computing", "failed", "none"] as const;
/** Why there is no sheet, as a sentence. */
export const lackOfSheet = ({
  state,
  reason,
}: {
  state: (typeof SHEET_STATES)[number];
  reason: string | null;
}): string =>
  reason ?? (state === "computing" ? "Its hazard sheet is still being computed." : "It has no hazard sheet.");
export const sheetAnswerSchema = z.object({
  state: z.enum(SHEET_STATES),
  reason: z.string().nullable(),
  machineId: z.string(),
  revision: z.number().int().nullable(),
  sheetId: z.string().nullable(),
  inputHash: z.string().nullable(),
  codeVersion: z.string().nullable(),
  createdAt: instant.nullable(),
  /** While it is being computed: how much of it is done, 0 to 1. */
  progress: z.number().nullable(),
  /** What the engine was given: the air, or the stronger wind that was measured, and the ground; null while there is no sheet. */
  air: airSchema.nullable(),
  /** Null on level ground. */
  terrain: terrainSchema.nullable(),
  /** What was taken for granted of the ground and of the wind, one sentence each. */
  given: z.array(z.string()),
  sheet: hazardSheetSchema.nullable(),
});
export type SheetAnswer = z.infer<typeof sheetAnswerSchema>;
