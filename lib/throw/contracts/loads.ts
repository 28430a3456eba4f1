/** What the machine's parts bear, and what room it sweeps. SI units; angles in degrees; times from the trigger. */
import { z } from "zod";

/** A load against what was declared to bear it. */
export const reserveSchema = z.object({
  /** The largest load, in the unit of `strength`. */
  load: z.number(),
  /** What bears it, derated; null when nothing was declared. */
  strength: z.number().nullable(),
  /** strength / load; null when nothing was declared or nothing loads it. */
  reserve: z.number().nullable(),
  /** The usual design factor: a reserve below it is warned of. */
  designFactor: z.number(),
  verdict: z.enum(["unknown", "breaks", "below-design-factor", "meets-design-factor"]),
  /** How the strength was taken, or what to declare. */
  explanation: z.string(),
});

/** The largest of something, and when. */
export const peakSchema = z.object({
  /** N, N·m or Pa as the field says. */
  value: z.number(),
  /** s */
  time: z.number(),
});

/** A load in the three lives of a machine: the throw as meant, what follows it, and a hang-up. */
const livesOf = <Entry extends z.ZodType>(entry: Entry) =>
  z.object({
    /** From the trigger until the loop slips; to the end of the swing when it never does. */
    throw: entry.nullable(),
    /** The machine swinging on unloaded after the loop has slipped; null when it never slips. */
    after: entry.nullable(),
    /** From the instant at which the loop should have slipped, the projectile whirling on. */
    hangUp: entry.nullable(),
  });

export const jerkSchema = z.object({
  /** s */
  time: z.number(),
  /** Whether it falls after the loop should have slipped. */
  hangUp: z.boolean(),
  /** N·s along the sling. */
  impulse: z.number(),
  /** Speed with which projectile and tip move apart when the sling comes taut, m/s. */
  speed: z.number(),
  /** Estimated peak of the tension with the sling as a spring of `stiffness`, N. */
  peakForce: z.number(),
  /** Bending moment that this peak puts on the arm at its worst station, N·m. */
  moment: z.number(),
});

export const slingLoadsSchema = z.object({
  /** Tension, N. */
  tension: z.object({ throw: peakSchema.nullable(), hangUp: peakSchema.nullable() }),
  /** The hardest jerks before and after the loop should have slipped; empty when the sling never goes slack. */
  jerks: z.array(jerkSchema),
  /** Taken for the jerks' peak force, N/m, and from where it was taken. */
  stiffness: z.number(),
  stiffnessFrom: z.string(),
  /** Of the throw, jerks included. */
  reserve: reserveSchema,
  /** Of a hang-up, jerks included; null without one. */
  hangUpReserve: reserveSchema.nullable(),
});

export const armStationSchema = z.object({
  /** From the pivot towards the tip, m; negative on the short arm. */
  station: z.number(),
  /** Largest bending moment in the throw and after it, N·m. */
  moment: z.number(),
  /** Largest when the projectile hangs up, jerks included, N·m. */
  hangUpMoment: z.number(),
  /** moment / section modulus, Pa; null without a declared section. */
  stress: z.number().nullable(),
});

const momentPeakSchema = z.object({
  /** N·m */
  value: z.number(),
  /** s */
  time: z.number(),
  /** From the pivot towards the tip, m. */
  station: z.number(),
});

export const armLoadsSchema = z.object({
  moment: livesOf(momentPeakSchema),
  /** The whole arm from short end to tip. */
  envelope: z.array(armStationSchema),
  /** Stress at the worst station against the material, Pa; the load is N·m when no section is declared. */
  reserve: reserveSchema,
  hangUpReserve: reserveSchema.nullable(),
});

const pivotPeakSchema = z.object({
  /** N, on the frame. */
  value: z.number(),
  /** s */
  time: z.number(),
  /** Where it pushes the frame, degrees above downrange. */
  direction: z.number(),
  /** Largest level part downrange and uprange, largest lifting part, N; 0 when nothing pushes that way. */
  downrange: z.number(),
  uprange: z.number(),
  upward: z.number(),
});

export const stabilitySchema = z.object({
  /** Least moment that holds the frame down about the front and the rear edge of its base, N·m; negative tips it. */
  front: z.number(),
  rear: z.number(),
  /** When the lesser of the two occurs, s. */
  time: z.number(),
  /** Friction coefficient without which the base slides; null when the frame lifts. */
  friction: z.number().nullable(),
  tips: z.boolean(),
  /** Whether it slides on the declared friction; null without one. */
  slides: z.boolean().nullable(),
});

export const loadsSchema = z.object({
  /** Null for machines without a sling whose tension is computed. */
  sling: slingLoadsSchema.nullable(),
  arm: armLoadsSchema.nullable(),
  /** What the moving parts push the frame with: at the pivot, or at both tracks of a floating arm together. */
  pivot: z.object({ force: livesOf(pivotPeakSchema), reserve: reserveSchema }).nullable(),
  /** Pull of the counterweight on hinge and hanger, N. */
  hanger: z.object({ force: livesOf(peakSchema), reserve: reserveSchema }).nullable(),
  /** Null when the frame's mass and footprint are unknown. */
  stability: stabilitySchema.nullable(),
  stabilityNote: z.string(),
  /** Left in the machine when the loop slips, above the least that it can reach, J; null when it never slips. */
  energyLeft: z.number().nullable(),
  /** Spinning arm: pull at the hub (N) of the projectile and of the arm itself; null when the arm's mass is unknown. */
  spin: z.object({ projectilePull: z.number(), armPull: z.number().nullable() }).nullable(),
  /** Tension machine: peak draw force (N) and stored energy (J). */
  draw: z.object({ peakForce: z.number(), storedEnergy: z.number() }).nullable(),
  /** Air cannon: gas force on the bore's area (N), and the chamber's gauge pressure against its rating (Pa). */
  chamber: z.object({ capForce: z.number(), reserve: reserveSchema }).nullable(),
  /** What was taken for granted, for the sheet. */
  assumptions: z.array(z.string()),
  warnings: z.array(z.object({ code: z.string(), text: z.string() })),
});

/** The farthest of one thing each way, m: `forward` downrange and `backward` uprange of the firing point. */
export const extentSchema = z.object({ height: z.number(), forward: z.number(), backward: z.number() });

/** What arm, sling, projectile, counterweight and hanger reach, m; to 1 cm. */
export const sweepSchema = z.object({
  /** To the horizon: held on, or swinging on unloaded after the loop has slipped or from the trigger. */
  all: extentSchema,
  /** Until the loop slips; null when it never does. */
  untilRelease: extentSchema.nullable(),
  /** Of `all`, what reaches highest, farthest downrange and farthest uprange. */
  by: z.object({ height: z.string(), forward: z.string(), backward: z.string() }),
});

export type Reserve = z.infer<typeof reserveSchema>;
export type Peak = z.infer<typeof peakSchema>;
export type Jerk = z.infer<typeof jerkSchema>;
export type Loads = z.infer<typeof loadsSchema>;
export type SlingLoads = z.infer<typeof slingLoadsSchema>;
export type ArmLoads = z.infer<typeof armLoadsSchema>;
export type Stability = z.infer<typeof stabilitySchema>;
export type Extent = z.infer<typeof extentSchema>;
export type Sweep = z.infer<typeof sweepSchema>;
