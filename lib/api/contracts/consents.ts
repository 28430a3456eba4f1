/** The register of consents: who agreed to what, until when. What a party is called stays out of the scorebook. */
import { z } from "zod";
import { day, idSchema, text } from "./parts";

export const CONSENT_KINDS = [
  "landowner",
  "neighbour",
  "utility",
  "road",
  "aerodrome",
  "fire-service",
  "insurer",
  "other",
] as const;
export const consentKind = z.enum(CONSENT_KINDS);
export type ConsentKind = z.infer<typeof consentKind>;

/**
 * `missing`: asked for, not given. `not-yet`: given from a day after the contest's first. `expired`: it ended before today.
 * `too-short`: it ends before the contest's last day is over.
 */
export const CONSENT_STATES = ["missing", "expired", "too-short", "not-yet", "holds"] as const;

const fields = {
  /** Who gives it. May name a person: open to officials only. */
  party: text(1, 200),
  /** Where the paper is: a file, a letter's number. */
  reference: text(0, 200),
  /** The site feature it is about, such as the overhead line; null when it is about the whole site. */
  featureId: idSchema.nullable(),
  /** Null while it is only asked for. */
  givenOn: day.nullable(),
  /** The last day on which it holds; null when it has no end. */
  expiresOn: day.nullable(),
  note: text(0, 1000),
};

export const consentRequest = z.strictObject({
  kind: consentKind,
  party: fields.party,
  reference: fields.reference.default(""),
  featureId: fields.featureId.default(null),
  givenOn: fields.givenOn.default(null),
  expiresOn: fields.expiresOn.default(null),
  note: fields.note.default(""),
});
export const consentChange = z
  .strictObject({
    kind: consentKind.optional(),
    party: fields.party.optional(),
    reference: fields.reference.optional(),
    featureId: fields.featureId.optional(),
    givenOn: fields.givenOn.optional(),
    expiresOn: fields.expiresOn.optional(),
    note: fields.note.optional(),
    /** A retired consent stays in the record and counts for nothing. */
    retired: z.boolean().optional(),
  })
  .refine((change) => Object.keys(change).length > 0, "Say what is to change.");

export const consentSchema = z.object({
  id: idSchema,
  kind: consentKind,
  ...fields,
  /** What that feature is called. */
  featureName: z.string().nullable(),
  retired: z.boolean(),
  state: z.enum(CONSENT_STATES),
});
export type ConsentInfo = z.infer<typeof consentSchema>;

/** One thing to get in order before the contest's day. */
export const consentGapSchema = z.object({
  kind: consentKind,
  /** Null when nothing of this kind, or for this feature, is in the register. */
  consentId: z.string().nullable(),
  featureId: z.string().nullable(),
  text: z.string(),
});
export type ConsentGap = z.infer<typeof consentGapSchema>;

export const consentsSchema = z.object({
  /** The contest's first day and its last: every consent must hold on both. */
  day,
  lastDay: day,
  /** What is missing, expired or ends too soon. */
  gaps: z.array(consentGapSchema),
  /** Those with something to do first, then by kind; retired ones last. */
  consents: z.array(consentSchema),
});
export type Consents = z.infer<typeof consentsSchema>;
