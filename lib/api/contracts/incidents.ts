/** Incidents: what failed, where pieces went, what is written of it. Officials' alone, never public. */
import { z } from "zod";
import { fixSchema } from "../../survey";
import { FOUND_PLACES, FOUND_THINGS, replaySchema } from "../../throw/contracts";
import { count, day, idSchema, instant, text } from "./parts";
import { permitSchema } from "./permits";
import { standClearSchema, zoneConflictSchema } from "./zones";

/** What failed, as far as anybody can tell at once. */
export const INCIDENT_PARTS = [
  "unknown",
  "sling-or-cord",
  "arm-or-limb",
  "counterweight",
  "frame",
  "trigger",
  "winch-or-cable",
  "chamber",
  "projectile",
  "nothing-broke",
] as const;
export type IncidentPart = (typeof INCIDENT_PARTS)[number];
export const HURT = ["nobody", "somebody", "unknown"] as const;
/** An account of what happened; what happened to one person; why a report was corrected. */
export const WORDS_KINDS = ["account", "person", "reason"] as const;

const seen = {
  /** When it was seen; now if left out. */
  observedAt: instant.optional(),
  /** Who saw it, of what was written on paper first: a role or a post, no person's name. */
  witness: text(1, 80).optional(),
};

export const pieceRequest = z.strictObject({
  found: z.enum(FOUND_THINGS),
  place: z.enum(FOUND_PLACES).default("rest"),
  /** By any way to measure a landing point, from the firing point or the pegs; null takes back the one that is named. */
  fix: fixSchema
    .refine(({ outcome }) => outcome === "landed", {
      path: ["outcome"],
      message: "Give where it came down: the outcome of a place is landed.",
    })
    .nullable(),
  /** The one that is corrected. */
  replacesId: idSchema.optional(),
  ...seen,
});
export type PieceRequest = z.output<typeof pieceRequest>;

const happened = { part: z.enum(INCIDENT_PARTS), hurt: z.enum(HURT) };

export const incidentRequest = z.strictObject({
  machineId: idSchema,
  ...happened,
  ...seen,
  /** May name people: it stays out of the scorebook, and can be erased. */
  account: text(1, 4000).optional(),
  piece: pieceRequest.omit({ replacesId: true, observedAt: true, witness: true }).optional(),
});
export type IncidentRequest = z.output<typeof incidentRequest>;

/** A correction; `observedAt` and `witness` stay as they were where they are left out. */
export const incidentReportRequest = z.strictObject({ ...happened, ...seen, reason: text(3, 500) });

export const incidentWordsRequest = z.strictObject({
  kind: z.enum(WORDS_KINDS).exclude(["reason"]),
  /** Of the person. */
  name: text(1, 120).optional(),
  text: text(1, 4000),
  /** The last day on which it is kept; three years after the contest if left out. */
  keepUntil: day.optional(),
});

export const inZoneSchema = z.object({
  /** unsure: not inside with all of its uncertainty, which counts as outside. */
  verdict: z.enum(["inside", "unsure", "outside"]),
  /** From the zone's edge, m; negative outside. */
  inside: z.number(),
  distance: z.number(),
  /** Degrees clockwise from the bearing, −180 to 180. */
  azimuth: z.number(),
  /** Of the zone on that azimuth, m. */
  reach: z.number(),
  /** By how much the zone's reach would have to be longer; null when no zone would do. */
  factor: z.number().nullable(),
});

/** What a piece comes to; nothing of people in it. */
export const pieceVerdictSchema = z.object({
  id: idSchema,
  /** Null when no point came out of what was measured. */
  latitude: z.number().nullable(),
  longitude: z.number().nullable(),
  /** How far it may be off, any way: the longer half axis of the ellipse that holds it with 95 %, m. */
  uncertainty: z.number().nullable(),
  /** Null without a point or without a zone: that counts as outside. */
  zone: inZoneSchema.nullable(),
  /** Counts as outside its zone: the range holds. */
  outside: z.boolean(),
  /** The farthest first impact, or place of rest, that the sheet foresaw for such a thing that way, m. */
  foreseen: z.number().nullable(),
  beyondModel: z.boolean(),
  warnings: z.array(z.string()),
});

/** Answer to every write: kept with its key, so nothing about people stands in it. */
export const incidentReceiptSchema = z.object({
  id: idSchema,
  number: count,
  machineName: z.string(),
  /** Of its scorebook entry. */
  sequence: count,
  piece: pieceVerdictSchema.nullable(),
  /** Whether the range was put on hold for it. */
  held: z.boolean(),
});
export type IncidentReceipt = z.infer<typeof incidentReceiptSchema>;

const reportSchema = z.object({
  ...happened,
  observedAt: instant,
  witness: z.string().nullable(),
  by: z.string(),
  sequence: count,
  createdAt: instant,
});

export const incidentSummarySchema = reportSchema.extend({
  id: idSchema,
  number: count,
  machineId: idSchema,
  machineName: z.string(),
  entrantNumber: count,
  entrantName: z.string(),
  /** Places that count, and those of them that count as outside the zone. */
  pieces: count,
  outside: count,
});
export type IncidentSummary = z.infer<typeof incidentSummarySchema>;
export const incidentsSchema = z.object({ incidents: z.array(incidentSummarySchema) });

export const incidentPieceSchema = pieceVerdictSchema.extend({
  found: z.enum(FOUND_THINGS),
  place: z.enum(FOUND_PLACES),
  /** As entered; null where the one before was taken back. */
  fix: z.unknown(),
  replacesId: idSchema.nullable(),
  /** A later one took its place. */
  replaced: z.boolean(),
  observedAt: instant,
  witness: z.string().nullable(),
  by: z.string(),
  createdAt: instant,
});
export type IncidentPieceInfo = z.infer<typeof incidentPieceSchema>;

export const incidentWordsSchema = z.object({
  id: idSchema,
  kind: z.enum(WORDS_KINDS),
  name: z.string().nullable(),
  /** Null once it is erased. */
  text: z.string().nullable(),
  keepUntil: day,
  erasedAt: instant.nullable(),
  by: z.string(),
  createdAt: instant,
});
export type IncidentWordsInfo = z.infer<typeof incidentWordsSchema>;

const distances = z.object({ forward: z.number(), backward: z.number(), side: z.number() });
/** GeoJSON, longitude before latitude; across the antimeridian it runs on past ±180, as zones do. */
const outline = z.object({
  type: z.literal("Polygon"),
  coordinates: z.array(z.array(z.tuple([z.number(), z.number()]))),
});

export const incidentSchema = incidentSummarySchema.extend({
  /** The newest first; it counts. */
  reports: z.array(reportSchema),
  words: z.array(incidentWordsSchema),
  /** How the machine stood then; null where it stood at no firing point. */
  stood: z
    .object({
      revision: count,
      kind: z.string(),
      firingPointId: idSchema,
      firingPointNumber: count,
      latitude: z.number(),
      longitude: z.number(),
      height: z.number(),
      accuracy: z.number(),
      bearing: z.number(),
      sheetId: idSchema.nullable(),
      inputHash: z.string().nullable(),
      margin: z.number().nullable(),
      /** Of the zone as it was drawn. */
      exclusion: distances.nullable(),
      reach: z.array(z.number()).nullable(),
      zone: outline.nullable(),
    })
    .nullable(),
  pieceList: z.array(incidentPieceSchema),
  /** What the zone would have to be to hold every piece; null when the one that was drawn does, or none would. */
  needed: z
    .object({
      factor: z.number(),
      exclusion: distances,
      zone: outline,
      conflicts: z.array(zoneConflictSchema),
      standClear: z.array(standClearSchema),
    })
    .nullable(),
  /** Whether a piece went beyond what the model foresees: then the other machines of the kind rest on the same. */
  beyondModel: z.boolean(),
  sameKind: z.array(
    z.object({
      machineId: idSchema,
      machineName: z.string(),
      entrantNumber: count,
      entrantName: z.string(),
      permit: permitSchema.shape.state.nullable(),
      permitNumber: count.nullable(),
    }),
  ),
  caution: z.string(),
});
export type IncidentInfo = z.infer<typeof incidentSchema>;

/** What the model says of each place that counts; the reason in words where it says nothing. */
export const incidentReplaysSchema = z.object({
  replays: z.array(
    z.object({ pieceId: idSchema, replay: replaySchema.nullable(), reason: z.string().nullable() }),
  ),
});
export type IncidentReplays = z.infer<typeof incidentReplaysSchema>;
