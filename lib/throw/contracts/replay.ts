/** Which release, fault and tolerances explain where something landed. SI units; angles in degrees. */
import { z } from "zod";
import { FAULT_CODES } from "./faults";
import { finite } from "./numbers";
import { hazardRequestSchema } from "./request";

const far = finite.min(-20_000).max(20_000);

/** What was found: the projectile whole, a piece of it, a part of the machine, or nobody can tell. */
export const FOUND_THINGS = ["projectile", "piece", "machine", "unknown"] as const;
/** Its first impact, or where it came to rest. */
export const FOUND_PLACES = ["impact", "rest"] as const;

/** From the firing point: either distance and direction, or downrange and aside. */
export const landingSchema = z
  .strictObject({
    /** m over the ground from the firing point. */
    distance: finite.min(0).max(20_000).optional(),
    /** Degrees clockwise from the bearing: 0 straight ahead, 90 to the right, 180 straight behind. */
    direction: finite.min(-360).max(360).optional(),
    /** m along the bearing, negative behind the firing point. */
    downrange: far.optional(),
    /** m to the right of the bearing, negative to the left. */
    aside: far.optional(),
    /** How far the place may be off at most, ± m. */
    uncertainty: finite.min(0.05).max(500).default(1),
  })
  .superRefine((landing, context) => {
    const { distance, direction, downrange, aside } = landing;
    const issue = (field: string, message: string) =>
      context.addIssue({ code: "custom", path: [field], message });
    const polar = distance !== undefined || direction !== undefined;
    const plane = downrange !== undefined || aside !== undefined;
    if (polar && plane)
      issue(
        "distance",
        "Give either distance and direction, or downrange and aside: both at once may contradict each other.",
      );
    else if (plane) {
      if (downrange === undefined)
        issue("downrange", "Give the metres along the bearing too, negative behind.");
      if (aside === undefined) issue("aside", "Give the metres to the right of the bearing too; 0 is on it.");
    } else {
      if (distance === undefined) issue("distance", "Give the distance from the firing point.");
      if (direction === undefined)
        issue("direction", "Give the direction, in degrees clockwise from the bearing.");
    }
  });

export const replayRequestSchema = z.strictObject({
  /** The machine as declared, with the day's air, the ground and the policy's angles. */
  request: hazardRequestSchema,
  landing: landingSchema,
  found: z.enum(FOUND_THINGS).default("unknown"),
  place: z.enum(FOUND_PLACES).default("impact"),
});

const spot = z.object({ downrange: z.number(), aside: z.number() });

/** Astray: at another speed or in another direction than meant, where no time tells early from late. */
export const REPLAY_CAUSES = ["as-meant", "early", "late", "astray", "hang-up", "fault"] as const;
/** What turns a flight out of its plane: how well it is aimed, a torn sling leg, pieces that scatter, any azimuth. */
export const TURNS = ["none", "aim", "torn-sling", "debris", "all-round"] as const;

export const explanationSchema = z.object({
  cause: z.enum(REPLAY_CAUSES),
  /** Of a piece of the machine; null for a throw. */
  fault: z.enum(FAULT_CODES).nullable(),
  /** What flew. */
  piece: z.string(),
  /** Of the arm: where it breaks, from the pivot towards the tip, m. */
  station: z.number().nullable(),
  /** When it came free, s from the trigger; null where that does not matter. */
  time: z.number().nullable(),
  /** s after the throw as meant, negative before; null where there is none or it does not matter. */
  delay: z.number().nullable(),
  /** When the sling had torn before, s; null when it had not. */
  tornAt: z.number().nullable(),
  afterSlack: z.boolean(),
  stop: z.enum(["none", "holds", "fails"]),
  frame: z.enum(["held", "rolling"]),
  load: z.enum(["declared", "piece", "substitute"]),
  /** m/s; degrees above the horizontal, downrange 0, uprange 180; m. */
  speed: z.number(),
  angle: z.number(),
  height: z.number(),
  /** Degrees out of the plane of the throw, to the right positive as seen along the bearing. */
  turn: z.number(),
  turnBy: z.enum(TURNS),
  /** How the air stood: its name, and how far it is from the mean wind at nominal drag, 0 to 1. */
  air: z.object({
    name: z.enum(["mean", "low-drag", "high-drag", "lift", "sink", "gust", "worst"]),
    share: z.number(),
  }),
  /** The largest share of any tolerance that it uses up, 0 to 1, and the parameters that differ then. */
  tolerance: z.object({ share: z.number(), corner: z.record(z.string(), z.number()) }),
  from: spot,
  impact: spot,
  /** Where bounce and roll end; null when the first impact was asked for. */
  rest: spot.nullable(),
  /** From the place that was found, m; `fits` when that is within its uncertainty. */
  miss: z.number(),
  fits: z.boolean(),
  /** How much has to have gone wrong; the list stands in this order. No probability. */
  need: z.number(),
  /** All of it in one sentence, in SI units. */
  text: z.string(),
});

export const replaySchema = z.object({
  codeVersion: z.string(),
  target: spot.extend({
    distance: z.number(),
    /** Degrees clockwise from the bearing, −180 to 180. */
    direction: z.number(),
    uncertainty: z.number(),
  }),
  /** Nothing that was tried comes within the uncertainty: the model or the declaration is wrong. */
  verdict: z.enum(["explained", "unexplained"]),
  /** The range holds until somebody knows why. */
  hold: z.boolean(),
  /** What the verdict means and what to do. */
  text: z.string(),
  /** Those that fit first, by what they need; then the nearest that do not. */
  explanations: z.array(explanationSchema),
  /**
   * First impacts of the worst case, m, positive each in its direction. Null when a throw of the declared machine
   * explains the place: then nobody looked.
   */
  worst: z.object({ forward: z.number(), backward: z.number() }).nullable(),
  tried: z.object({ machines: z.number(), flights: z.number() }),
  notes: z.array(z.string()),
});

export type Landing = z.output<typeof landingSchema>;
export type ReplayRequest = z.output<typeof replayRequestSchema>;
export type Explanation = z.infer<typeof explanationSchema>;
export type Replay = z.infer<typeof replaySchema>;
