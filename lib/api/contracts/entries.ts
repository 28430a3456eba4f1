/** Teams enter themselves: the organiser's link, what a team says of itself, its photographs, and what becomes of it. */
import { z } from "zod";
import { airSchema, declarationSchema, hazardSheetSchema } from "../../throw/contracts";
import { LONGEST_NOTE } from "./machines";
import { count, day, idSchema, instant, text } from "./parts";
import { newBadgeSchema } from "./people";

/** Days after the contest's last one for which people's data are kept, unless the link says otherwise. */
export const KEEP_DAYS = 60;

/** What opens an entry: 256 random bits, base64url. Stands in an address behind the #, which goes to no server. */
export const entryToken = z
  .string()
  .regex(/^[A-Za-z0-9_-]{43}$/, "Use the link as the organiser gave it: a part of it is missing.");

const most = z.number().int().min(1).max(500);
export const entryLinkRequest = z.strictObject({
  /** Nobody begins an entry by it afterwards. */
  endsAt: instant,
  /** Entries by it, at most. */
  most: most.default(40),
  keepDays: z.number().int().min(1).max(730).default(KEEP_DAYS),
});
export const entryLinkChange = z
  .strictObject({
    /** Closed, nobody begins an entry by it nor sends one for the first time; what was sent may be completed. */
    open: z.boolean().optional(),
    endsAt: instant.optional(),
    most: most.optional(),
  })
  .refine((change) => Object.keys(change).length > 0, "Say what is to change.");
export const entryLinkSchema = z.object({
  id: idSchema,
  endsAt: instant,
  most: count,
  keepDays: count,
  open: z.boolean(),
  /** Entries by it that stand. */
  used: count,
  createdAt: instant,
});
export type EntryLinkInfo = z.infer<typeof entryLinkSchema>;
/** `token` is shown this once and never stored. */
export const newEntryLinkSchema = entryLinkSchema.extend({ token: z.string() });

export const PHOTOGRAPH_SUBJECTS = ["machine", "insurance"] as const;
/** Of one file as it comes. */
export const PHOTOGRAPH_BYTES = 12 * 1024 * 1024;
/** Pixels that a file may unfold to. */
export const PHOTOGRAPH_PIXELS = 50_000_000;
/** Of one entry. */
export const MOST_PHOTOGRAPHS = 8;
export const photographQuery = z.strictObject({ subject: z.enum(PHOTOGRAPH_SUBJECTS).default("machine") });
export const photographSchema = z.object({
  id: idSchema,
  subject: z.enum(PHOTOGRAPH_SUBJECTS),
  width: count,
  height: count,
  /** Bytes, as it is kept. */
  size: count,
});
export type PhotographInfo = z.infer<typeof photographSchema>;

export const CONSENT_WAYS = ["here", "paper"] as const;
const contact = text(0, 120);
export const entryPersonRequest = z.strictObject({
  /** Made by the page, and the same with every sending. */
  id: z.string().regex(/^[a-z0-9-]{16,40}$/, "Give 16 to 40 small letters and digits."),
  name: text(0, 80),
  /** A telephone number or an address; the captain's must be there. */
  contact: contact.default(""),
  captain: z.boolean().default(false),
  /** Null: not said yet. */
  ofAge: z.boolean().nullable().default(null),
  /** Of a minor. */
  guardianName: text(0, 80).default(""),
  guardianContact: contact.default(""),
  consentWay: z.enum(CONSENT_WAYS).default("here"),
  /** The text that the guardian was shown and ticked here, word for word; null while nobody has. */
  agreedTo: text(1, 4000).nullable().default(null),
});
export const insuranceSchema = z.strictObject({
  insurer: text(0, 120),
  number: text(0, 80),
  validUntil: day.nullable(),
  /** The team has looked: throwing with a machine is covered. */
  coversThrowing: z.boolean(),
});
export type Insurance = z.infer<typeof insuranceSchema>;

const content = {
  /** The team's public name. */
  team: text(0, 80),
  divisionId: idSchema.nullable(),
  machineName: text(0, 80),
  declaration: declarationSchema.nullable(),
  /** Of its first revision, such as STOP that stands on its practice throws. */
  note: text(0, LONGEST_NOTE).default(""),
  /** These were measured on the team's own machine. */
  ownNumbers: z.boolean(),
  insurance: insuranceSchema,
};
export const entryDraft = z.strictObject({
  /** As it was read: refused when somebody else of the team has changed it meanwhile. */
  version: count,
  ...content,
  people: z.array(entryPersonRequest).max(40),
});
export type EntryDraft = z.input<typeof entryDraft>;
/** `secret`: made by the team's page, and its way back; kept hashed. */
export const entryRequest = z.strictObject({ secret: entryToken });

/** "returned": the organiser says what is missing, and the team goes on. */
export const ENTRY_STATES = ["draft", "sent", "returned", "accepted", "refused"] as const;
export type EntryState = (typeof ENTRY_STATES)[number];

/** In the way of what: "send" and all that follows, or "accept" alone; null: nothing is in the way. */
export const missingSchema = z.object({
  part: z.enum(["team", "people", "insurance", "machine", "photographs"]),
  blocks: z.enum(["send", "accept"]).nullable(),
  text: z.string(),
});
export type Missing = z.infer<typeof missingSchema>;

export const entryPersonSchema = z.object({
  id: idSchema,
  name: z.string(),
  contact: z.string(),
  captain: z.boolean(),
  ofAge: z.boolean().nullable(),
  guardianName: z.string(),
  guardianContact: z.string(),
  consentWay: z.enum(CONSENT_WAYS),
  agreedTo: z.string().nullable(),
  /** When the guardian ticked it here, or an organiser saw the signed form. */
  consentAt: instant.nullable(),
});
export type EntryPerson = z.infer<typeof entryPersonSchema>;

export const entrySummarySchema = z.object({
  id: idSchema,
  state: z.enum(ENTRY_STATES),
  version: count,
  team: z.string(),
  divisionId: z.string().nullable(),
  machineName: z.string(),
  kind: z.string().nullable(),
  people: count,
  minors: count,
  photographs: count,
  missing: z.array(missingSchema),
  sentAt: instant.nullable(),
  updatedAt: instant,
  erasedAt: instant.nullable(),
  /** YYYY-MM-DD: the last day on which its people's data are kept. */
  keptUntil: day,
});
export type EntrySummary = z.infer<typeof entrySummarySchema>;
export const entrySchema = entrySummarySchema.omit({ people: true, photographs: true }).extend({
  ...content,
  declaration: declarationSchema.nullable(),
  people: z.array(entryPersonSchema),
  photographs: z.array(photographSchema),
  /** What the organiser said last. */
  answer: z.string().nullable(),
  /** Once it is accepted. */
  entrantId: z.string().nullable(),
  machineId: z.string().nullable(),
});
export type Entry = z.infer<typeof entrySchema>;

/** What a team's page needs of the contest, and of its link. */
export const invitationSchema = z.object({
  contest: z.object({ slug: z.string(), name: z.string(), place: z.string(), date: day, lastDay: day }),
  divisions: z.array(z.object({ id: idSchema, name: z.string() })),
  endsAt: instant,
  /** Why nobody may begin an entry by it now, as a sentence; null: one may. */
  closed: z.string().nullable(),
  keepDays: count,
  keptUntil: day,
  /** What a minor's guardian agrees to. */
  consentText: z.string(),
});
export type Invitation = z.infer<typeof invitationSchema>;
/** The team's own entry, and the invitation it came by. */
export const ownEntrySchema = z.object({ invitation: invitationSchema, entry: entrySchema });
export type OwnEntry = z.infer<typeof ownEntrySchema>;

/** What a save comes to; people's data are not repeated. */
export const savedEntrySchema = z.object({
  version: count,
  state: z.enum(ENTRY_STATES),
  updatedAt: instant,
});
/** What the machine would do there, by the contest's policy and air. */
export const entrySheetSchema = z.object({
  sheet: hazardSheetSchema,
  air: airSchema,
  /** What was taken for granted, one sentence each. */
  given: z.array(z.string()),
});
export type EntrySheet = z.infer<typeof entrySheetSchema>;

export const acceptanceRequest = z.strictObject({ version: count });
export const entryAnswerRequest = z.strictObject({ version: count, answer: text(3, 1000) });
export const erasureRequest = z.strictObject({
  /** One person of it; everything that is people's if left out. */
  personId: idSchema.optional(),
});
/** The badge's `code` is shown this once. */
export const acceptedSchema = z.object({ entry: entrySchema, badge: newBadgeSchema });
