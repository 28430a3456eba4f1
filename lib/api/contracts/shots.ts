/** Rounds, shots, fixes, rulings and protests. */
import { z } from "zod";
import { fixSchema, markRuleSchema, WARNING_CODES } from "../../survey";
import { contestSummarySchema, firingPointSchema } from "./contest";
import {
  count,
  DECISIONS,
  endedSchema,
  geometrySchema,
  idSchema,
  instant,
  OUTCOMES,
  reason,
  text,
} from "./parts";
import { controlPointSchema } from "./range-points";
import { roundResultSchema } from "./results";
import { roughPointSchema, sightingSchema } from "./sightings";

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
    /** Who saw it, when it was written on paper first: a role or a post, no person's name. */
    witness: text(1, 80).optional(),
    replacesId: idSchema.optional(),
    reason: reason.optional(),
  })
  .refine((entry) => entry.replacesId === undefined || entry.reason !== undefined, {
    path: ["reason"],
    message: "Say why the earlier entry is corrected.",
  });
export type FixRequest = z.output<typeof fixRequest>;

export const FLAGS = [
  "beyond-worst",
  "twice-last-mark",
  "outside-boundary",
  "another-entry",
  "no-permit",
  ...WARNING_CODES,
] as const;
/** Against the side lines of the landing sector. What lies outside has its mark all the same: a person rules. */
export const inSectorSchema = z.object({
  verdict: z.enum(["inside", "outside", "too-close"]),
  /** To the nearest side line, m, outside negative. */
  aside: z.number(),
  /** Expanded, k = 2, m. */
  uncertainty: z.number(),
});
/** Of an entry that a badge had made before it ended, and that arrived afterwards. */
export const heldSchema = z.object({
  /** It counts nowhere until an official has confirmed it. */
  state: z.enum(["waiting", "confirmed", "rejected"]),
  arrivedAt: instant,
  /** How its badge had ended, and when. */
  ended: endedSchema,
  endedAt: instant,
  /** What an official decided, with the reason; null while it waits. */
  decision: z.object({ by: z.string(), reason: z.string(), at: instant, sequence: count }).nullable(),
});
export const fixAnswerSchema = z.object({
  id: idSchema,
  outcome: z.enum(OUTCOMES),
  method: z.string().nullable(),
  input: fixSchema,
  latitude: z.number().nullable(),
  longitude: z.number().nullable(),
  /** [east-east, east-north, north-north], m². */
  covariance: z.tuple([z.number(), z.number(), z.number()]).nullable(),
  /** m, by the contest's mark rule, rounded down to its unit. */
  mark: z.number().nullable(),
  /** Expanded, k = 2, m. */
  uncertainty: z.number().nullable(),
  /** True, from where the mark counts, degrees. */
  bearing: z.number().nullable(),
  /** Null without a sector. */
  sector: inSectorSchema.nullable(),
  /** What looked odd; kept, never refused. */
  flags: z.array(z.object({ code: z.enum(FLAGS), text: z.string() })),
  observedAt: instant,
  createdAt: instant,
  /** Label of the badge that entered it. */
  by: z.string(),
  witness: z.string().nullable(),
  replacesId: z.string().nullable(),
  reason: z.string().nullable(),
  /** Null for what a badge in force entered. */
  held: heldSchema.nullable(),
});
export type FixAnswer = z.infer<typeof fixAnswerSchema>;

export const heldDecisionRequest = z.strictObject({
  decision: z.enum(["confirmed", "rejected"]),
  reason,
});
export type HeldDecisionRequest = z.infer<typeof heldDecisionRequest>;

const OF_SHOT: readonly string[] = ["foul", "stands", "re-throw"];
const OF_PROTEST: readonly string[] = ["upheld", "dismissed"];
export const rulingRequest = z
  .strictObject({
    entrantId: idSchema.optional(),
    shotId: idSchema.optional(),
    /** The protest that this answers. */
    protestId: idSchema.optional(),
    /** With "stands": the entry that counts alone. */
    fixId: idSchema.optional(),
    /** Of an entrant: dns, dnf, competing. Of a shot: foul, stands, re-throw. Of a protest alone: upheld, dismissed. */
    decision: z.enum(DECISIONS),
    reason,
  })
  .refine(
    ({ entrantId, shotId, protestId }) =>
      entrantId === undefined ? (shotId ?? protestId) !== undefined : shotId === undefined,
    { path: ["entrantId"], message: "Rule on one entrant, on one shot, or on a protest alone." },
  )
  .refine(
    ({ decision, entrantId, shotId }) =>
      OF_SHOT.includes(decision)
        ? shotId !== undefined
        : OF_PROTEST.includes(decision)
          ? entrantId === undefined && shotId === undefined
          : entrantId !== undefined,
    {
      path: ["decision"],
      message:
        "An entrant is dns, dnf or competing; a shot is a foul, stands or is a re-throw; a protest alone is upheld or dismissed.",
    },
  )
  .refine(({ fixId, decision }) => fixId === undefined || decision === "stands", {
    path: ["fixId"],
    message: "Only with a shot that stands can one entry be named that counts.",
  });
export const rulingSchema = z.object({
  id: idSchema,
  entrantId: z.string().nullable(),
  shotId: z.string().nullable(),
  protestId: z.string().nullable(),
  fixId: z.string().nullable(),
  decision: z.enum(DECISIONS),
  reason: z.string(),
  by: z.string(),
  sequence: count,
  createdAt: instant,
});
export type RulingInfo = z.infer<typeof rulingSchema>;

export const protestRequest = z.strictObject({
  /** The shot it is against; the standings if left out. */
  shotId: idSchema.optional(),
  /** Whose protest it is; a team's own if left out. */
  entrantId: idSchema.optional(),
  text: text(3, 2000),
  /** Why an official takes it in after the deadline. */
  lateReason: reason.optional(),
});
export const protestSchema = z.object({
  id: idSchema,
  entrantId: idSchema,
  shotId: z.string().nullable(),
  text: z.string(),
  lateReason: z.string().nullable(),
  by: z.string(),
  sequence: count,
  createdAt: instant,
  /** The newest that answers it; null while it is open. */
  ruling: rulingSchema.nullable(),
});
export type ProtestInfo = z.infer<typeof protestSchema>;
/** Newest first. */
export const protestsSchema = z.object({ protests: z.array(protestSchema) });

/** What a shot comes to by its entries and the mark rule, before any foul is ruled. */
export const shotResultSchema = z.object({
  /** None yet; one entry; several combined by weight; one that was ruled to count; several that disagree. */
  how: z.enum(["none", "one", "combined", "ruled", "disagree"]),
  /** Null before the first entry and while entries disagree. */
  outcome: z.enum(OUTCOMES).nullable(),
  mark: z.number().nullable(),
  /** Expanded, k = 2, m. */
  uncertainty: z.number().nullable(),
  bearing: z.number().nullable(),
  latitude: z.number().nullable(),
  longitude: z.number().nullable(),
  sector: inSectorSchema.nullable(),
  /** The entries that count, or that disagree. */
  fixIds: z.array(idSchema),
  /** Thrown while no firing permit stood: it counts only by a ruling that it stands. */
  unpermitted: z.boolean(),
  /** What there is to do about it. */
  text: z.string().nullable(),
});
export type ShotResult = z.infer<typeof shotResultSchema>;

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
  /** The newest entry that counts; null before the first and after a re-throw was ruled. */
  fix: fixAnswerSchema.nullable(),
  /** What all entries that count come to. */
  result: shotResultSchema,
  /** The newest ruling on this shot. */
  ruling: rulingSchema.nullable(),
  /** How many entries of it wait to be confirmed; they are not in the result. */
  toConfirm: count,
  /** The newest of each post; none from before a re-throw. */
  sightings: z.array(sightingSchema),
  /** Where they cross; null while fewer than two posts have seen it. */
  rough: roughPointSchema.nullable(),
});
export type ShotInfo = z.infer<typeof shotSchema>;
/** The round that is being thrown, or the newest, if none is named. */
export const shotsQuery = z.strictObject({ round: z.coerce.number().int().min(1).optional() });
export const shotsSchema = z.object({ round: count.nullable(), shots: z.array(shotSchema) });

/** The shots that were sighted last, the newest first. */
export const splashesSchema = z.object({ shots: z.array(shotSchema) });

/** All of one shot: newest fix first. */
export const shotHistorySchema = z.object({
  shot: shotSchema,
  firingPoint: firingPointSchema,
  fixes: z.array(fixAnswerSchema),
  /** What waits to be confirmed or was rejected, newest first. What was written with it only officials see. */
  held: z.array(fixAnswerSchema),
  rulings: z.array(rulingSchema),
  protests: z.array(protestSchema),
  /** Of its round: until when it may be protested, and whether it was reopened. */
  results: roundResultSchema,
});
export type ShotHistory = z.infer<typeof shotHistorySchema>;

/** What waits to be confirmed in a contest, oldest first, each with its shot. */
export const heldFixesSchema = z.object({
  waiting: z.array(z.object({ fix: fixAnswerSchema, shot: shotSchema })),
});
export type HeldFixes = z.infer<typeof heldFixesSchema>;

/** How landing points become marks. */
export const markRuleRequest = z.strictObject({
  rule: markRuleSchema,
  /** How long after a round's results protests may be entered; as it was if left out. */
  protestMinutes: z.number().int().min(0).max(10_080).optional(),
  /** Needed once there are entries: their marks are made anew. */
  reason: reason.optional(),
});
export const markingSchema = z.object({
  rule: markRuleSchema,
  /** The arc's centre where it was when the rule was set. */
  centre: z
    .object({
      name: z.string(),
      latitude: z.number(),
      longitude: z.number(),
      height: z.number(),
      uncertainty: z.number().optional(),
    })
    .nullable(),
  protestMinutes: count,
  /** Landing points entered so far. */
  entries: count,
});
export type MarkingInfo = z.infer<typeof markingSchema>;

/** What a judge's phone needs of one round. */
export const judgeViewSchema = z.object({
  contest: contestSummarySchema,
  round: count.nullable(),
  rounds: z.array(count),
  /** The first without an entry that is not out; null when the round is done. */
  upId: z.string().nullable(),
  shots: z.array(
    shotSchema.extend({
      firingPoint: firingPointSchema,
      /** The entrant's mark in its last measured shot before this round, m. */
      lastMark: z.number().nullable(),
      /** The worst throw of the current sheet, m. */
      worstForward: z.number().nullable(),
      worstBackward: z.number().nullable(),
      /** By a ruling its team does not compete: nobody waits for it. */
      out: z.boolean(),
    }),
  ),
  boundary: z.array(geometrySchema),
  /** What landing points are measured from, retired ones left out. */
  controlPoints: z.array(controlPointSchema),
  markRule: markingSchema.pick({ rule: true, centre: true }),
});
export type JudgeView = z.infer<typeof judgeViewSchema>;
