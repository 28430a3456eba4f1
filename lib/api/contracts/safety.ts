/** The safety plan as it stands, and the safety file that freezes it with the range, the sheets and the consents. */
import { z } from "zod";
import { airSchema, policySchema } from "../../throw/contracts";
import { barrierInfoSchema } from "./barriers";
import { consentSchema } from "./consents";
import { contestSummarySchema, featureSchema, firingPointSchema } from "./contest";
import { count, idSchema, instant, latitude, longitude, text } from "./parts";
import { controlPointSchema } from "./range-points";
import { zoneConflictSchema, zonePropertiesSchema, zonesSchema } from "./zones";

// ---------------------------------------------------------------- the plan

const clock = z.string().regex(/^([01]\d|2[0-3]):[0-5]\d$/, "Give a time of day such as 09:30.");
const words = (most = 2000) => text(0, most).default("");

/** A place in words and, where somebody knows it, by its position. */
const placeSchema = z
  .strictObject({
    words: words(500),
    at: z.strictObject({ latitude, longitude }).nullable().default(null),
  })
  .prefault({});

/**
 * Roles and posts, never names of people: the plan is printed and handed on. Every default is common practice, no
 * source: the safety officer and the emergency services decide.
 */
export const safetyPlanSchema = z.strictObject({
  emergency: z.strictObject({ number: words(60), whatToSay: words() }).prefault({}),
  /** Where somebody meets them and leads them in. */
  ambulance: placeSchema,
  fireService: placeSchema,
  firstAid: placeSchema,
  /** The nearest hospital and the way to it. */
  hospital: words(),
  /** Who stops the range (a role) and by what. */
  stop: z
    .strictObject({ who: words(300), horn: words(300), flag: words(300), radio: words(300) })
    .prefault({}),
  fireEquipment: words(),
  lightning: z
    .strictObject({
      /** Stop when thunder follows a flash within this, s. */
      flashToBang: z.number().int().min(5).max(120).default(30),
      /** Wait after the last thunder, s. */
      wait: z.number().int().min(300).max(7200).default(1800),
    })
    .prefault({}),
  light: z
    .strictObject({
      /** Local time of day; null until the officer sets it. */
      earliest: clock.nullable().default(null),
      latest: clock.nullable().default(null),
      /** Least distance at which a person must still be seen, m. */
      visibility: z.number().min(10).max(20_000).nullable().default(null),
    })
    .prefault({}),
  /** What to do about insects, animals on the ground, and dry grass. */
  nature: z.strictObject({ insects: words(1000), animals: words(1000), dryGrass: words(1000) }).prefault({}),
  briefing: z
    .strictObject({ officials: words(4000), crews: words(4000), spectators: words(4000) })
    .prefault({}),
  /** Who is to be briefed, by role or team, and when; each gets a line to sign on paper. */
  briefed: z
    .array(z.strictObject({ who: text(1, 120), when: text(0, 120).default("") }))
    .max(60)
    .default([]),
});
export type SafetyPlan = z.output<typeof safetyPlanSchema>;

export const safetyPlanRequest = z.strictObject({
  plan: safetyPlanSchema,
  /** `updatedAt` of the plan that was changed, null when there was none: refused when somebody was faster. Left out,
   * whatever stands is replaced. */
  replaces: instant.nullable().optional(),
});
export const safetyPlanAnswerSchema = z.object({
  plan: safetyPlanSchema,
  /** Null while nobody has saved one: then these are the defaults. */
  updatedAt: instant.nullable(),
});
export type SafetyPlanAnswer = z.infer<typeof safetyPlanAnswerSchema>;

// ---------------------------------------------------------------- the range plan

const outline = zonesSchema.shape.features.element.shape.geometry;

/** One machine as the paper shows it. */
export const planMachineSchema = zonePropertiesSchema
  .pick({
    kind: true,
    entrantNumber: true,
    entrantName: true,
    firingPointId: true,
    firingPointNumber: true,
    bearing: true,
    revision: true,
    state: true,
    reason: true,
    sheetId: true,
    nominal: true,
    worst: true,
    exclusion: true,
    apex: true,
    top: true,
    standClear: true,
    assumptions: true,
    warnings: true,
    notModelled: true,
  })
  .extend({
    id: idSchema,
    name: z.string(),
    /** Only what is against the rules; what is agreed in writing too, with `agreed`. */
    conflicts: z.array(zoneConflictSchema.omit({ overlap: true, inConflict: true })),
    /** The keep-out zone; null without a sheet. */
    zone: outline,
  });
export type PlanMachine = z.infer<typeof planMachineSchema>;

/** All that the range plan draws and says: what is on the map at one entry of the scorebook. */
export const rangePlanSchema = z.object({
  contest: contestSummarySchema.omit({ id: true, rounds: true }),
  features: z.array(featureSchema),
  /** Signed for and not retired. Absent from files frozen before there were any. */
  barriers: z.array(barrierInfoSchema).optional(),
  firingPoints: z.array(firingPointSchema),
  controlPoints: z.array(controlPointSchema.omit({ note: true, retired: true, heightGiven: true })),
  machines: z.array(planMachineSchema),
  /** All zones together. */
  union: zonesSchema.shape.union,
  /** Machines that stand nowhere yet and so have no zone. */
  unplaced: z.array(z.object({ id: idSchema, name: z.string(), entrantName: z.string() })),
  policy: policySchema,
  air: airSchema,
  /** Newest scorebook entry that it rests on. */
  scorebook: z.object({ sequence: count, head: z.string() }),
  caution: z.string(),
});
export type RangePlan = z.infer<typeof rangePlanSchema>;

// ---------------------------------------------------------------- the file

/** One thing that is missing from the file. */
export const safetyGapSchema = z.object({
  code: z.enum(["site", "machine", "sheet", "conflict", "policy", "wind", "plan", "consent", "signature"]),
  text: z.string(),
});
export type SafetyGap = z.infer<typeof safetyGapSchema>;

const setBySchema = z.object({ by: z.string(), at: instant, reason: z.string() });

/** What is frozen. It is hashed as canonical JSON (RFC 8785). */
export const safetyFileBodySchema = z.object({
  format: z.literal(1),
  number: count,
  madeAt: instant,
  /** The badge that froze it. */
  madeBy: z.string(),
  note: z.string(),
  missing: z.array(safetyGapSchema),
  range: rangePlanSchema,
  /** Who set them last, by badge; null while they are as the contest was made. */
  policySetBy: setBySchema.nullable(),
  airSetBy: setBySchema.nullable(),
  /** Null when no plan was written. */
  plan: safetyPlanSchema.nullable(),
  /** Not the retired ones. */
  consents: z.array(consentSchema.omit({ retired: true })),
});
export type SafetyFileBody = z.infer<typeof safetyFileBodySchema>;

export const safetyFileRequest = z.strictObject({
  /** Whom it is for, or why it is made. */
  note: text(0, 300).default(""),
});
export const safetyFileSummarySchema = z.object({
  id: idSchema,
  number: count,
  /** SHA-256 of the frozen text, hexadecimal; stands in the scorebook too. */
  hash: z.string(),
  by: z.string(),
  createdAt: instant,
  note: z.string(),
  /** How much was missing when it was frozen. */
  missing: count,
});
export type SafetyFileSummary = z.infer<typeof safetyFileSummarySchema>;
export const safetyFilesSchema = z.object({
  /** Newest first. */
  files: z.array(safetyFileSummarySchema),
  /** What a file frozen now would lack. */
  missing: z.array(safetyGapSchema),
});
export const safetyFileSchema = safetyFileSummarySchema.omit({ missing: true, note: true }).extend({
  /** Whether the stored text still has its hash, and the scorebook the same one. */
  holds: z.boolean(),
  body: safetyFileBodySchema,
  /** Official acts since then that change what it says, oldest first. */
  changedSince: z.array(
    z.object({ sequence: count, act: z.string(), subjectId: z.string(), by: z.string(), at: instant }),
  ),
});
export type SafetyFileAnswer = z.infer<typeof safetyFileSchema>;
