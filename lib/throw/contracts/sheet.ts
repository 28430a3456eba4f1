/** What the throw engine answers: the hazard sheet. SI units; angles in degrees. */
import { z } from "zod";
import { calibrationSchema } from "./calibration";
import { faultSchema } from "./faults";
import { loadsSchema, sweepSchema } from "./loads";
import { dispersionSchema } from "./spread";

/** One throw of the worst case: where it lands and which instant made it. */
export const worstThrowSchema = z.object({
  /** First impact from the firing point, m, positive in its own direction; 0 when nothing goes that way. */
  distance: z.number(),
  /** s from the trigger; null when nothing goes that way. */
  releaseTime: z.number().nullable(),
  releaseSpeed: z.number().nullable(),
  /** Degrees above the horizontal, downrange 0, uprange 180. */
  launchAngle: z.number().nullable(),
  releaseHeight: z.number().nullable(),
  flightTime: z.number().nullable(),
  /** Whether a slack sling or an end stop stood before this release. */
  afterSlack: z.boolean(),
  stop: z.enum(["none", "holds", "fails"]),
  /** Whether the projectile should have left before: the loop did not slip, or it hung in cup or pouch. */
  hangUp: z.boolean(),
  /** Whether the frame was held or rolled on its wheels. */
  frame: z.enum(["held", "rolling"]),
  /** What was thrown: as declared and ruled, a piece of it, or something denser in its place. */
  load: z.enum(["declared", "piece", "substitute"]),
  /** Share by which the distance was stretched for what the search of the tolerances may have missed. */
  allowance: z.number(),
  /** The parameters that differ from the declared ones in the case that made it. */
  corner: z.record(z.string(), z.number()),
});

/** What makes the zone reach as far as it does one way. */
export const causeSchema = z.object({
  /**
   * A throw, a thrown piece of the machine, the policy's least distance, the circle that the machine sweeps, or a
   * barrier that stops what would go farther: the rest then tells of that.
   */
  by: z.enum(["throw", "piece", "minimum", "sweep", "barrier"]),
  /** Degrees clockwise from the bearing of what lands there, before aim and lean turn it. */
  azimuth: z.number(),
  /** Of a throw: s from the trigger, how far a torn sling or a lean turned it out of its plane (degrees), and how it left. */
  releaseTime: z.number().nullable(),
  deflection: z.number().nullable(),
  afterSlack: z.boolean(),
  hangUp: z.boolean(),
  stop: z.enum(["none", "holds", "fails"]),
  /** Of a piece: the code of its fault. */
  fault: z.string().nullable(),
});

export const nominalSchema = z.object({
  /** First impact downrange of the firing point, m; negative when the machine throws backwards. */
  distance: z.number(),
  /** To the right of the bearing, m: the crosswind. */
  drift: z.number(),
  releaseTime: z.number(),
  releaseSpeed: z.number(),
  launchAngle: z.number(),
  releaseHeight: z.number(),
  flightTime: z.number(),
  apex: z.number(),
  impactSpeed: z.number(),
  impactAngle: z.number(),
  impactEnergy: z.number(),
});

export const hazardSheetSchema = z.object({
  kind: z.string(),
  codeVersion: z.string(),
  /** The throw as meant; null when the loop never slips, and `nominalReason` says why. */
  nominal: nominalSchema.nullable(),
  nominalReason: z.string().nullable(),
  worst: z.object({
    forward: worstThrowSchema,
    backward: worstThrowSchema,
    /** Up to the instant the sling's angle has fallen to −90°: without hang-ups. */
    firstPass: z.object({ forward: worstThrowSchema, backward: worstThrowSchema }),
    /** Parameters of which half a percent moves `worst` by more than 3 %. */
    sensitive: z.array(z.object({ parameter: z.string(), change: z.number() })),
  }),
  /** What energy forbids `worst` to exceed; m/s and m. */
  ceiling: z.object({ speed: z.number(), distance: z.number() }),
  /** m from the firing point; `reach[i]` at i degrees clockwise from the bearing, 360 numbers. */
  exclusion: z.object({
    forward: z.number(),
    backward: z.number(),
    side: z.number(),
    reach: z.array(z.number()).length(360),
    /** The same without barriers, where there are any: what counts as soon as the machine is moved or turned. */
    open: z.array(z.number()).length(360).optional(),
    /** Absent on sheets of earlier versions. */
    causes: z.object({ forward: causeSchema, backward: causeSchema, side: causeSchema }).optional(),
  }),
  /** Highest the projectile can go above the ground, m. */
  apex: z.number(),
  /** The throw that goes there. Absent on sheets of earlier versions, as is the next. */
  apexBy: worstThrowSchema.optional(),
  /** Largest energy at first impact against the injury threshold, J. */
  impact: z.object({
    energy: z.number(),
    threshold: z.number(),
    exceeds: z.boolean(),
    by: worstThrowSchema.optional(),
  }),
  search: z.object({
    instants: z.number(),
    flights: z.number(),
    horizon: z.number(),
    /** Relative error of the flights and instants of one exact machine. */
    allowance: z.number(),
    /** Machines inside the tolerances that were tried, and the parameters they vary, those first that matter most. */
    machines: z.number(),
    varied: z.array(
      z.object({ parameter: z.string(), low: z.number(), high: z.number(), change: z.number() }),
    ),
    /** Whether each branch was met on the declared machine. */
    slack: z.boolean(),
    endStop: z.boolean(),
  }),
  assumptions: z.array(z.string()),
  warnings: z.array(z.object({ code: z.string(), text: z.string() })),
  notModelled: z.array(z.string()),
  /** Of the declared machine. Absent on sheets of earlier versions. */
  faults: z.array(faultSchema).optional(),
  loads: loadsSchema.optional(),
  /** Null when nothing is known of the machine's size. */
  sweep: sweepSchema.nullable().optional(),
  /** Ordinary throws only: it never shrinks a zone. */
  dispersion: dispersionSchema.optional(),
  /** Null without measured throws. */
  calibration: calibrationSchema.nullable().optional(),
});

export type WorstThrow = z.infer<typeof worstThrowSchema>;
export type Cause = z.infer<typeof causeSchema>;
export type Nominal = z.infer<typeof nominalSchema>;
export type HazardSheet = z.infer<typeof hazardSheetSchema>;
