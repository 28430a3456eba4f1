/** What is kept of one practice throw: what was done, what came of it, and what was changed in it since. Pure. */
import { z } from "zod";
import { FOUND_PLACES, FOUND_THINGS } from "@/lib/throw";

export const RESULTS = ["landed", "backwards", "straight-up", "no-release", "misfire", "broke"] as const;
export type Result = (typeof RESULTS)[number];
/** How a distance was measured. */
export const MEANS = ["tape", "wheel", "laser", "phone", "paces"] as const;
export const PARTS = ["sling", "arm", "pivot", "hanger", "stop", "chamber"] as const;
export const MOST_PIECES = 12;
export const MOST_TRACES = 200;

const finite = z.number();
const told = z.strictObject({ value: finite, uncertainty: finite.min(0) });
const text = (most: number) => z.string().max(most);

/** SI units; angles in degrees. */
const pieceSchema = z.strictObject({
  /** Which part it is of; null when nobody can tell. */
  part: z.enum(PARTS).nullable(),
  found: z.enum(FOUND_THINGS),
  place: z.enum(FOUND_PLACES),
  distance: finite.min(0).max(20_000),
  /** Clockwise from the bearing. */
  direction: finite.min(-360).max(360),
  uncertainty: finite.min(0.05).max(500),
  note: text(300),
});

/** Time of day where it was thrown: YYYY-MM-DDTHH:MM. */
const moment = z
  .string()
  .refine((at) => /^\d{4}-\d\d-\d\dT\d\d:\d\d$/.test(at), {
    message: "Give date and time as 2031-05-03 14:20.",
    abort: true,
  })
  .refine((at) => !Number.isNaN(Date.parse(at)), "There is no such date or time.");

/** What a correction may change. */
const numbersSchema = z.strictObject({
  at: moment,
  /** By parameter: the first setting of the machine, and what else was changed. */
  settings: z.record(text(60), finite),
  wind: z
    .strictObject({
      speed: finite.min(0).max(60),
      direction: finite.min(-360).max(360),
      height: finite.min(0.5).max(100),
      by: text(80),
    })
    .nullable(),
  /** Of that throw, K and Pa at the place itself; null where nobody read them: as declared then. */
  air: z
    .strictObject({
      temperature: finite.min(230).max(330).nullable(),
      pressure: finite.min(50_000).max(110_000).nullable(),
    })
    .optional(),
  mass: finite.min(0.001).max(5000).nullable(),
  result: z.enum(RESULTS),
  /** Along the bearing, m; positive in the direction of the result. Null where nothing landed. */
  distance: finite.positive().max(20_000).nullable(),
  /** To the right of the bearing, m. */
  aside: finite.min(-20_000).max(20_000).nullable(),
  /** Standard, m. */
  uncertainty: finite.min(0).max(100).nullable(),
  /** Nobody said, where it is left out. */
  means: z.enum(MEANS).optional(),
  note: text(500),
});

/** How bad a throw was found to be: beyond what the others make likely, or beyond the worst that is computed. */
export const RANKS = ["alarm", "hold"] as const;

const traceSchema = z.strictObject({
  /** When it was done, by the clock of the device. */
  at: moment,
  /** Struck: it stays in sight and counts no more. Answered: it called STOP, and somebody said why that no longer stands. */
  did: z.enum(["corrected", "struck", "restored", "answered"]),
  reason: text(500),
  /** Before a correction: what was changed by it. */
  was: numbersSchema.partial().optional(),
  /** What was answered. */
  rank: z.enum(RANKS).optional(),
});

export const throwSchema = numbersSchema.extend({
  id: text(60).min(1),
  /** Of the log's machines. */
  machine: text(60),
  pieces: z.array(pieceSchema).max(MOST_PIECES),
  /** Read off a film. */
  film: z.strictObject({ speed: told, launchAngle: told, slingAngle: told.nullable() }).nullable(),
  /** In the order in which it was done; left out while nothing was. */
  trace: z.array(traceSchema).max(MOST_TRACES).optional(),
});

export type Throw = z.output<typeof throwSchema>;
export type Numbers = z.output<typeof numbersSchema>;
export type Trace = z.output<typeof traceSchema>;
export type Piece = Throw["pieces"][number];
export type Rank = (typeof RANKS)[number];
export const NUMBERS = Object.keys(numbersSchema.shape) as (keyof Numbers)[];
