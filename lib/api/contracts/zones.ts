/** Keep-out zones on the map. */
import { z } from "zod";
import { airSchema, policySchema } from "../../throw/contracts";
import { SHEET_STATES } from "./machines";
import { SITE_FEATURE_KINDS } from "./parts";

export const zoneConflictSchema = z.object({
  featureId: z.string(),
  kind: z.enum(SITE_FEATURE_KINDS),
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
  /** Against the rule of its kind: touched, or nearer than its stand-off. */
  inConflict: z.boolean(),
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
  apex: z.number().nullable(),
  /** Of every feature not retired, the worst first. */
  conflicts: z.array(zoneConflictSchema),
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
          coordinates: z.array(z.array(z.tuple([z.number(), z.number()]))),
        })
        .nullable(),
      properties: zonePropertiesSchema,
    }),
  ),
  /** What stands beside every zone. */
  caution: z.string(),
  policy: policySchema,
  air: airSchema,
  firingPointIds: z.array(z.string()),
  featureIds: z.array(z.string()),
});
export type Zones = z.infer<typeof zonesSchema>;
