/** Standings, scorebook and the live feed. */
import { z } from "zod";
import { LANDINGS } from "../../survey";
import { MARK_UNITS } from "../../units";
import { count, idSchema, instant, OUTCOMES } from "./parts";

export const standingRowSchema = z.object({
  /** Shared by those that nothing splits; null without a mark. Who did not finish keeps what was thrown. */
  rank: z.number().int().nullable(),
  entrantId: z.string(),
  number: count,
  name: z.string(),
  divisionId: z.string(),
  divisionName: z.string(),
  /** NM: shots, but no mark. Waiting: no shot entered yet. DNS and DNF: an official's ruling. */
  status: z.enum(["ranked", "waiting", "NM", "DNS", "DNF"]),
  /** m */
  best: z.number().nullable(),
  /** One for every round made, in order; outcome null before the first entry. */
  marks: z.array(
    z.object({
      round: count,
      shotId: z.string().nullable(),
      /** After rulings. */
      outcome: z.enum(OUTCOMES).nullable(),
      mark: z.number().nullable(),
      /** Whether it takes part in the ranking, and why. */
      counts: z.boolean(),
      why: z.string(),
      /** Expanded, k = 2, m. */
      uncertainty: z.number().nullable(),
      /** Of the landing sector, where the contest has one. */
      sector: z.enum(["inside", "outside", "too-close"]).nullable(),
    }),
  ),
  /** The marks that count, the best first, m. */
  counted: z.array(z.number()),
  /** What split this row from a neighbour with the same best: the first mark, from the best down, to differ. */
  splits: z.array(
    z.object({
      entrantId: z.string(),
      /** 2 for the second best, and so on. */
      place: count,
      own: z.number().nullable(),
      other: z.number().nullable(),
    }),
  ),
});
/** Two places that the measurements cannot tell apart. */
export const closeCallSchema = z.object({
  /** The better placed first. */
  entrantIds: z.tuple([idSchema, idSchema]),
  shotIds: z.tuple([idSchema, idSchema]),
  ranks: z.tuple([count, count]),
  /** m */
  difference: z.number(),
  /** Of the difference, expanded, k = 2, m. */
  uncertainty: z.number(),
  text: z.string(),
});
export const roundResultSchema = z.object({
  round: count,
  /** Every shot has an entry, or its entrant is out. */
  complete: z.boolean(),
  /** Null until it is complete. */
  protestsUntil: instant.nullable(),
  openProtests: count,
  /**
   * Shots with entries of ended badges that wait to be confirmed. They keep no round open and stop no clock: a lost
   * phone could then hold up every result.
   */
  toConfirm: z.array(idSchema),
  /** Changed, or protested by leave of an official, after protests had ended. */
  reopened: z.boolean(),
});
export type RoundResult = z.infer<typeof roundResultSchema>;
export const standingsSchema = z.object({
  /** Sequence of the newest scorebook entry they rest on, and its hash. */
  sequence: count,
  head: z.string(),
  rounds: z.array(count),
  /** To which marks are rounded down. */
  unit: z.enum(MARK_UNITS),
  rule: z.object({
    from: z.enum(["firing-point", "arc"]),
    landing: z.enum(LANDINGS),
    /** Whether there is a landing sector. */
    sector: z.boolean(),
  }),
  divisions: z.array(
    z.object({
      id: idSchema,
      name: z.string(),
      rows: z.array(standingRowSchema),
      closeCalls: z.array(closeCallSchema),
    }),
  ),
  overall: z.array(standingRowSchema),
  /** Shots whose entries disagree: they give no mark until one is corrected or ruled to count. */
  disputes: z.array(z.object({ shotId: idSchema, entrantId: idSchema, round: count, text: z.string() })),
  results: z.array(roundResultSchema),
});
export type Standings = z.infer<typeof standingsSchema>;
export type StandingRow = z.infer<typeof standingRowSchema>;

export const scorebookEntrySchema = z.object({
  sequence: count,
  act: z.string(),
  subjectId: z.string(),
  /** Badge label, or "Fairthrow" for what the program did itself. */
  by: z.string(),
  /** RFC 8785 text, exactly as hashed. */
  body: z.string(),
  previousHash: z.string(),
  /** SHA-256(previousHash + "\n" + body), hexadecimal. */
  hash: z.string(),
  createdAt: instant,
});
export type ScorebookEntryInfo = z.infer<typeof scorebookEntrySchema>;
export const verificationSchema = z.object({
  holds: z.boolean(),
  entries: count,
  head: z.string(),
  /** Sequence of the first entry that does not fit. */
  brokenAt: z.number().int().nullable(),
  reason: z.string().nullable(),
});
export type Verification = z.infer<typeof verificationSchema>;
export const scorebookQuery = z.strictObject({
  /** Entries before this sequence; from the newest if left out. */
  before: z.coerce.number().int().min(1).optional(),
  limit: z.coerce.number().int().min(1).max(200).default(50),
  /** "1" recomputes the whole chain. */
  verify: z.enum(["0", "1"]).default("0"),
});
/** Newest first. */
export const scorebookSchema = z.object({
  entries: z.array(scorebookEntrySchema),
  /** Ask with `before` = this for the next page; null on the last. */
  next: z.number().int().nullable(),
  sequence: count,
  head: z.string(),
  verification: verificationSchema.nullable(),
});
export type Scorebook = z.infer<typeof scorebookSchema>;

/** Events of GET …/live: "change" carries this; "heartbeat" carries only `at`, every few seconds. */
export const LIVE_KINDS = [
  "layout",
  "entry",
  "machine",
  "permit",
  "conditions",
  "sheet",
  "round",
  "fix",
  "sighting",
  "ruling",
  "badge",
  "papers",
  "range",
] as const;
export const liveChangeSchema = z.object({
  sequence: count,
  kind: z.enum(LIVE_KINDS),
  subjectId: z.string(),
  at: instant,
  /** Only when they changed. */
  standings: standingsSchema.optional(),
});
export type LiveChange = z.infer<typeof liveChangeSchema>;
export const liveQuery = z.strictObject({
  /** Sequence that the page was made from; a browser that reconnects sends Last-Event-ID instead. */
  after: z.coerce.number().int().min(0).default(0),
});
