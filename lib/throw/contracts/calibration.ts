/** What measured throws say of the model. SI units; angles in degrees. */
import { z } from "zod";
import { airSchema, terrainSchema } from "./air";
import { finite } from "./numbers";

/** One throw of this very revision that was measured. */
export const measuredThrowSchema = z.strictObject({
  /** From the firing point to the first impact, m. */
  distance: finite.positive().max(20_000),
  /** Standard uncertainty of the mark, m; 0 counts as not stated: 0.3 m. */
  uncertainty: finite.min(0).max(100).default(0),
  /** As observed at that throw; the request's mean wind without it. */
  wind: z
    .strictObject({
      speed: finite.min(0).max(60),
      direction: finite.min(-360).max(360).default(0),
      height: finite.min(0.5).max(100).default(10),
    })
    .optional(),
  /** The air of that throw, in place of the request's temperature, pressure and altitude. */
  air: airSchema.omit({ wind: true }).optional(),
  /** The ground of that throw, in place of the request's. */
  terrain: terrainSchema.optional(),
  /** Of that throw's projectile, kg; the declared one without it. */
  mass: finite.min(0.001).max(5000).optional(),
  /** Numbers of the machine that stood otherwise at that throw, by parameter: the pin's angle. */
  settings: z.record(z.string().max(60), finite).optional(),
});

export const MARK_VERDICTS = ["unjudged", "expected", "short", "alarm", "model-wrong"] as const;

export const calibrationSchema = z.object({
  throws: z.number(),
  /** Share of the model's energy at release that explains the marks; null when none of them can be. */
  efficiency: z.number().nullable(),
  /** Standard uncertainty of the efficiency; null below two throws. */
  standardError: z.number().nullable(),
  degreesOfFreedom: z.number(),
  /** Standard deviation of one throw about the fit, m; null below two throws. */
  scatter: z.number().nullable(),
  /** The next throw in the request's mean wind, and from where on it is an alarm, m. */
  next: z.object({ distance: z.number(), upper99: z.number().nullable() }).nullable(),
  /** In the order given; each is judged by those before it, the first four by one another. */
  marks: z.array(
    z.object({
      distance: z.number(),
      /** What the model says without any loss, m; null when it does not release. */
      modelled: z.number().nullable(),
      /** Efficiency that explains this mark alone. */
      efficiency: z.number().nullable(),
      /** From the throws that judge it, for the wind of this one, m. */
      predicted: z.number().nullable(),
      /** What 99 of 100 stay below by the throws that judge it; never more than a fifth beyond them. */
      upper99: z.number().nullable(),
      /**
       * Short: as far below what is predicted as the limit lies above it. An alarm: beyond the limit, or a quarter beyond
       * the model without loss. The model is wrong: beyond the worst throw.
       */
      verdict: z.enum(MARK_VERDICTS),
      /** Whether it is one of those that efficiency and scatter are taken from. */
      used: z.boolean(),
      /** What else must be known of this mark: why it cannot be computed, or counts for nothing. */
      remark: z.string().nullable(),
    }),
  ),
  /** A mark lies beyond its limit. */
  alarm: z.boolean(),
  /** A mark lies beyond the worst throw: the model is wrong and the range holds. */
  hold: z.boolean(),
  /** What to do about it, or why nothing could be said. */
  notes: z.array(z.string()),
});

export type MeasuredThrow = z.output<typeof measuredThrowSchema>;
export type Calibration = z.infer<typeof calibrationSchema>;
