/** Keep-out zones on the map. */
import { z } from "zod";
import { airSchema, policySchema } from "../../throw/contracts";
import { SHEET_STATES } from "./machines";
import { day, SITE_FEATURE_KINDS, SITE_FEATURE_RULES } from "./parts";

const agreedSchema = z.object({ expiresOn: day.nullable() });
const mapPosition = z.tuple([z.number(), z.number()]);

export const zoneConflictSchema = z.object({
  featureId: z.string(),
  kind: z.enum(SITE_FEATURE_KINDS),
  /** The rule that holds for it: its own or its kind's. */
  rule: z.enum(SITE_FEATURE_RULES),
  name: z.string(),
  touches: z.boolean(),
  /** m² of the feature inside the zone; of a boundary, of the zone outside; 0 for lines and points. */
  overlapArea: z.number(),
  /** m of a line inside the zone. */
  overlapLength: z.number(),
  /** GeoJSON of that part, for the map; null when there is none. */
  overlap: z.object({ type: z.string(), coordinates: z.array(z.any()) }).nullable(),
  /** m from the zone; of a boundary, from the zone to its edge; 0 when it touches. */
  distance: z.number(),
  /** m that this feature must stay away. */
  standOff: z.number(),
  /** Against its rule, touched or nearer than its stand-off, and no written agreement is on file. */
  inConflict: z.boolean(),
  /** Against its rule, but agreed in writing by the line's owner or for the road's closure, until when. */
  agreed: agreedSchema.nullable(),
});
export const standClearSchema = z.object({
  what: z.enum(["firing-point", "feature"]),
  id: z.string(),
  /** Of a feature; null of a firing point. */
  kind: z.enum(SITE_FEATURE_KINDS).nullable(),
  name: z.string(),
  /** The other machines that stand on the firing point. */
  machines: z.array(z.object({ machineId: z.string(), machineName: z.string() })),
  /** m from the deepest place of it to the nearest way out of the zone. */
  depth: z.number(),
  /** m of a line inside the zone, m² of an area; else 0. */
  length: z.number(),
  area: z.number(),
});
export const zonePropertiesSchema = z.object({
  machineId: z.string(),
  machineName: z.string(),
  kind: z.string().nullable(),
  entrantId: z.string(),
  entrantNumber: z.number(),
  entrantName: z.string(),
  firingPointId: z.string(),
  firingPointNumber: z.number(),
  bearing: z.number(),
  revision: z.number().nullable(),
  state: z.enum(SHEET_STATES),
  reason: z.string().nullable(),
  sheetId: z.string().nullable(),
  /** First-impact distance as meant, m; null when the loop never slips. */
  nominal: z.number().nullable(),
  worst: z.object({ forward: z.number(), backward: z.number() }).nullable(),
  exclusion: z.object({ forward: z.number(), backward: z.number(), side: z.number() }).nullable(),
  /** Of the highest throw: m above the firing point's ground, and m above the ellipsoid. */
  apex: z.number().nullable(),
  top: z.number().nullable(),
  /** How far the machine may stand from its firing point, m: the zone is wider by as much. */
  accuracy: z.number(),
  /** Of every feature not retired, the worst first. */
  /** Every feature that the zone touches, comes too near to or is agreed about, and the 25 nearest of the others. */
  conflicts: z.array(zoneConflictSchema),
  /** Who moves, or stays under cover, when this machine fires; the deepest first. */
  standClear: z.array(standClearSchema),
  assumptions: z.array(z.string()),
  warnings: z.array(z.object({ code: z.string(), text: z.string() })),
  notModelled: z.array(z.string()),
});
export type ZoneProperties = z.infer<typeof zonePropertiesSchema>;
/**
 * RFC 7946, but that a zone across the antimeridian runs on past ±180. A zone whose sheet is not there yet has null geometry and says so in `state`.
 */
export const zonesSchema = z.object({
  type: z.literal("FeatureCollection"),
  features: z.array(
    z.object({
      type: z.literal("Feature"),
      id: z.string(),
      geometry: z
        .object({
          type: z.literal("Polygon"),
          coordinates: z.array(z.array(mapPosition)),
        })
        .nullable(),
      properties: zonePropertiesSchema,
    }),
  ),
  /** Placed machines whose zone is missing here and in the union, each with a sentence that says why. */
  without: z.array(
    z.object({
      machineId: z.string(),
      machineName: z.string(),
      state: z.enum(SHEET_STATES),
      reason: z.string(),
    }),
  ),
  /** What stands beside every zone. */
  caution: z.string(),
  policy: policySchema,
  air: airSchema,
  /** The contest's first day and its last: an agreement must hold on both. */
  day,
  lastDay: day,
  /** All zones that are drawn as one; ground that they enclose on all sides counts as zone. */
  union: z.object({
    geometry: z
      .discriminatedUnion("type", [
        z.object({ type: z.literal("Polygon"), coordinates: z.array(z.array(mapPosition)) }),
        z.object({ type: z.literal("MultiPolygon"), coordinates: z.array(z.array(z.array(mapPosition))) }),
      ])
      .nullable(),
    /** m² */
    area: z.number(),
    /** How many such enclosed places there are. */
    filled: z.number(),
  }),
  /** The highest throw of all machines, for the local aerodrome: m above its ground, m above the ellipsoid. */
  highest: z
    .object({ machineId: z.string(), machineName: z.string(), apex: z.number(), top: z.number() })
    .nullable(),
  firingPointIds: z.array(z.string()),
  featureIds: z.array(z.string()),
});
export type Zones = z.infer<typeof zonesSchema>;

/** GeoJSON of where ordinary throws of one machine land. */
export const landingContoursSchema = z.object({
  type: z.literal("FeatureCollection"),
  features: z.array(
    z.object({
      type: z.literal("Feature"),
      geometry: z.object({ type: z.literal("Polygon"), coordinates: z.array(z.array(mapPosition)) }),
      properties: z.object({
        /** Of normally distributed landings, the share inside. */
        share: z.number(),
        label: z.string(),
      }),
    }),
  ),
  /** Stands with every contour: normal throws only, and never shrinks a zone. */
  label: z.string(),
  draws: z.number(),
  landed: z.number(),
  assumptions: z.array(z.string()),
});
export type LandingContours = z.infer<typeof landingContoursSchema>;
