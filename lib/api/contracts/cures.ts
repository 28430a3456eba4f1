/** What would make a machine fit its ground: cures, the largest strength that fits, clear bearings, and a place for all. */
import { z } from "zod";
import { SHEET_STATES } from "./machines";
import { bearingSchema, geometrySchema, idSchema, latitude, longitude } from "./parts";

const zoneGeometry = z.object({
  type: z.literal("Polygon"),
  coordinates: z.array(z.array(z.tuple([z.number(), z.number()]))),
});
const featureName = z.object({ featureId: z.string(), name: z.string(), kind: z.string() });
/** First-impact distance as meant, m; null where the loop never slips. */
const nominal = z.number().nullable();

// ---------------------------------------------------------------- fit

/** What of a machine is made less or more; `dimension` is one of lib/units. */
export const strengthSchema = z.object({
  parameter: z.string(),
  title: z.string(),
  dimension: z.enum(["mass", "gauge", "ratio", "speed", "rate"]),
  /** As declared, SI. */
  declared: z.number(),
});
export const fitTestSchema = z.object({
  value: z.number(),
  /** Of the declared value. */
  share: z.number(),
  fits: z.boolean(),
  nominal,
  /** m; null where no sheet could be computed. */
  forward: z.number().nullable(),
  backward: z.number().nullable(),
  /** What its zone touches or comes too near to. */
  blockers: z.array(featureName),
  /** Why there is no sheet; null when there is one. */
  reason: z.string().nullable(),
});
export type FitTest = z.infer<typeof fitTestSchema>;
export const fitSchema = z.object({
  machineId: z.string(),
  revision: z.number().int(),
  firingPointId: z.string(),
  bearing: z.number(),
  strength: strengthSchema,
  /** The largest of the tested values that fits; null when none does. */
  largest: fitTestSchema.nullable(),
  /** Every value for which an official sheet was computed, the largest first. Nothing is said of those between. */
  tested: z.array(fitTestSchema),
});
export type Fit = z.infer<typeof fitSchema>;

export const standQuery = z.strictObject({
  machine: idSchema,
  /** Where it stands if left out. */
  firingPoint: idSchema.optional(),
  /** On which it aims if left out. */
  bearing: z.coerce.number().pipe(bearingSchema).optional(),
});

// ---------------------------------------------------------------- cures

const common = {
  /** In points, as `costs` states for its kind. */
  cost: z.number(),
  nominalBefore: nominal,
  nominalAfter: nominal,
  /** The zone as it would be. */
  zone: zoneGeometry,
};
const spot = z.object({ latitude, longitude });
export const cureSchema = z.discriminatedUnion("kind", [
  z.object({
    kind: z.literal("turn"),
    ...common,
    /** Degrees, clockwise positive. */
    turn: z.number(),
    bearing: z.number(),
  }),
  z.object({
    kind: z.literal("point"),
    ...common,
    firingPointId: z.string(),
    firingPointNumber: z.number().int(),
    /** m from where it stands. */
    distance: z.number(),
    turn: z.number(),
    bearing: z.number(),
  }),
  z.object({
    kind: z.literal("shift"),
    ...common,
    /** As seen along the bearing. */
    direction: z.enum(["left", "right", "ahead", "back"]),
    distance: z.number(),
    place: spot,
  }),
  z.object({
    kind: z.literal("crowd"),
    ...common,
    moves: z.array(
      z.object({
        ...featureName.shape,
        distance: z.number(),
        /** Degrees true. */
        bearing: z.number(),
        geometry: geometrySchema,
      }),
    ),
  }),
  z.object({ kind: z.literal("strength"), ...common, strength: strengthSchema, value: z.number() }),
  z.object({
    kind: z.literal("barrier"),
    ...common,
    /** Where it would stand, from end to end. */
    line: z.object({
      type: z.literal("LineString"),
      coordinates: z.array(z.tuple([z.number(), z.number()])).length(2),
    }),
    length: z.number(),
    /** Of its top above the ground; the lowest of those tried, m. */
    height: z.number(),
    /** Of its nearer parts from the firing point, m. */
    distance: z.number(),
  }),
]);
export type Cure = z.infer<typeof cureSchema>;
export const CURE_KINDS = ["turn", "point", "shift", "crowd", "strength", "barrier"] as const;

export const curesSchema = z.object({
  machineId: z.string(),
  machineName: z.string(),
  revision: z.number().int(),
  firingPointId: z.string(),
  bearing: z.number(),
  /** Every protected feature touched or nearer than its stand-off. Cures are sought only when there is one. */
  conflicts: z.array(
    featureName.extend({
      touches: z.boolean(),
      distance: z.number(),
      standOff: z.number(),
      overlapArea: z.number(),
      overlapLength: z.number(),
    }),
  ),
  /** Cheapest first. Each one's zone was computed from its official sheet and held against every feature. */
  cures: z.array(cureSchema),
  /** Kinds for which nothing was found, and why. */
  without: z.array(z.object({ kind: z.enum(CURE_KINDS), reason: z.string() })),
  /**
   * What `cost` is made of: points at once, and for each degree of a turn, metre of a move, square metre of a barrier,
   * percent of the distance as meant that a weaker machine loses. A move to another point counts its turn as well.
   */
  costs: z.array(z.object({ kind: z.enum(CURE_KINDS), once: z.number(), each: z.number() })),
});
export type Cures = z.infer<typeof curesSchema>;
export const curesQuery = z.strictObject({ machine: idSchema });

// ---------------------------------------------------------------- clear bearings

const arc = { from: z.number(), to: z.number() };
export const clearBearingsSchema = z.object({
  machineId: z.string(),
  firingPointId: z.string(),
  /** Quarter degrees true, clockwise from `from` to `to`, both included; `to` may pass 360, and a whole turn is 0 to 360. */
  clear: z.array(z.object(arc)),
  /** m, as `reach` of a sheet: what holds whichever way the machine is turned at this point; on falling ground more. */
  reach: z.array(z.number()).length(360),
  blocked: z.array(z.object({ ...arc, by: z.array(featureName) })),
});
export type ClearBearings = z.infer<typeof clearBearingsSchema>;
export const clearBearingsQuery = standQuery.omit({ bearing: true });

// ---------------------------------------------------------------- placing

const placed = z.object({ firingPointId: z.string(), bearing: z.number() });
export const placingMachineSchema = z.object({
  machineId: z.string(),
  machineName: z.string(),
  entrantNumber: z.number(),
  entrantName: z.string(),
  firingPointId: z.string().nullable(),
  bearing: z.number().nullable(),
  pinned: z.boolean(),
  state: z.enum(SHEET_STATES),
  reason: z.string().nullable(),
  /** m, `reach[i]` at i degrees clockwise from the bearing; null without a sheet. */
  reach: z.array(z.number()).length(360).nullable(),
});
export type PlacingMachine = z.infer<typeof placingMachineSchema>;
export const placingSchema = z.object({
  machines: z.array(placingMachineSchema),
  /** Features that a zone may reach by written agreement. */
  agreements: z.array(z.object({ featureId: z.string(), expiresOn: z.string().nullable() })),
});
export type Placing = z.infer<typeof placingSchema>;

export const planQuery = z.strictObject({
  /** How many machines one firing point may hold: they take turns. */
  each: z.coerce.number().int().min(1).max(10).default(1),
  /** Wished for machines that have none; as the others aim if left out. */
  bearing: z.coerce.number().pipe(bearingSchema).optional(),
});
export const planSchema = z.object({
  /** Whether every machine has a place. */
  found: z.boolean(),
  /** Of every machine that the plan could place, pinned ones too. Empty when not all can be placed. */
  placements: z.array(
    z.object({
      machineId: z.string(),
      from: placed.nullable(),
      to: placed,
      pinned: z.boolean(),
      changed: z.boolean(),
    }),
  ),
  /** The smallest set that cannot be placed together, and the firing points that all of it must share. */
  impossible: z
    .object({
      machineIds: z.array(z.string()),
      firingPointIds: z.array(z.string()),
      why: z.array(
        z.object({
          machineId: z.string(),
          firingPointId: z.string(),
          /** Whether it has a clear bearing there. */
          clear: z.boolean(),
          blockers: z.array(featureName),
          /** The pinned machine that keeps the point to itself. */
          heldBy: z.string().nullable(),
        }),
      ),
    })
    .nullable(),
  /** Machines that no plan can count, and why: no declaration, no sheet yet. */
  left: z.array(z.object({ machineId: z.string(), reason: z.string() })),
});
export type Plan = z.infer<typeof planSchema>;

export const placingRequest = z.strictObject({
  placements: z
    .array(
      z.strictObject({
        machineId: idSchema,
        /** Where the plan found it; the whole is refused when somebody has moved it since. */
        from: z.strictObject({ firingPointId: idSchema, bearing: bearingSchema }).nullable(),
        to: z.strictObject({ firingPointId: idSchema, bearing: bearingSchema }),
      }),
    )
    .min(1)
    .max(400),
});
