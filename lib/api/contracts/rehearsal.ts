/** A played day in the demo contest, for officials to practise hold, and what came of it. */
import { z } from "zod";
import { SURPRISES } from "../../rehearsal/script";
import { count, idSchema, instant } from "./parts";

export const TURNS_MOST = 40;

export const rehearsalRequest = z
  .strictObject({
    turns: z.number().int().min(1).max(TURNS_MOST).default(8),
    /** From one step of a turn to the next, s. */
    pace: z.number().min(0.2).max(30).default(5),
    /** What goes wrong, each once. */
    surprises: z
      .array(z.enum(SURPRISES))
      .min(1, "Choose at least one thing that goes wrong.")
      .default([...SURPRISES]),
    /** Played by people on their own pages; the program plays everybody else. */
    people: z
      .strictObject({
        /** Hot, cold and the lift of a hold. */
        safetyOfficer: z.boolean().default(true),
        posts: z.array(idSchema).max(100).default([]),
      })
      .default({ safetyOfficer: true, posts: [] }),
  })
  .refine(({ surprises }) => new Set(surprises).size === surprises.length, {
    path: ["surprises"],
    message: "Each goes wrong once: name it once.",
  })
  .refine(({ turns, surprises }) => turns >= surprises.length, {
    path: ["turns"],
    message: "Play at least one turn for each thing that goes wrong.",
  });
export type RehearsalRequest = z.output<typeof rehearsalRequest>;

const cueResultSchema = z.object({
  surprise: z.enum(SURPRISES),
  at: instant,
  machine: z.string(),
  post: z.string(),
  /** Until the first person pressed hold, s; null: nobody did while it was played. */
  after: z.number().nullable(),
  by: z.string().nullable(),
  /** Until the program held the range by itself, s. */
  programAfter: z.number().nullable(),
  others: z.array(z.string()),
});

const runSchema = z.object({
  id: idSchema,
  startedAt: instant,
  /** Null: it is played, or was cut off when the program stopped. */
  endedAt: instant.nullable(),
  turns: count,
  cues: z.array(cueResultSchema),
  /** Holds that people called while nothing was shown. */
  unprompted: count,
});
export type RehearsalRun = z.infer<typeof runSchema>;

export const rehearsalSchema = z.object({
  /** Only the demo contest is played. */
  possible: z.boolean(),
  playing: z.boolean(),
  /** Who may be played by people. */
  posts: z.array(z.object({ id: idSchema, name: z.string() })),
  /** The newest first. */
  runs: z.array(runSchema),
  sequence: count,
});
export type Rehearsal = z.infer<typeof rehearsalSchema>;
