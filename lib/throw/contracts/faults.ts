/** What may break, and where its pieces go. SI units; angles in degrees; times from the trigger. */
import { z } from "zod";

export const FAULT_CODES = [
  "sling-tears",
  "dry-fire",
  "carriage-leaves-track",
  "arm-breaks",
  "counterweight-drops",
  "counterweight-strikes",
  "machine-tips",
  "projectile-bursts",
  "limb-breaks",
  "chamber-bursts",
  "cap-ejected",
  "barrel-ejected",
] as const;

/** m from the firing point along and across the bearing. */
const reachSchema = z.object({ forward: z.number(), backward: z.number(), side: z.number() });

/** The flight of one piece that decides how far a fault reaches one way. */
export const pieceSchema = z.object({
  name: z.string(),
  /** kg; null where only its speed matters. */
  mass: z.number().nullable(),
  /** Which way this flight is the farthest of its fault. */
  way: z.enum(["forward", "backward", "side"]),
  /** When it comes free, s; null when that does not matter. */
  time: z.number().nullable(),
  /** When the sling had torn before, s; null when it had not. */
  tornAt: z.number().nullable(),
  /** Of the arm: where it breaks, from the pivot towards the tip, m. */
  station: z.number().nullable(),
  /** m/s */
  speed: z.number(),
  /** Degrees above the horizontal, downrange 0, uprange 180. */
  angle: z.number(),
  /** m above the firing point when it comes free. */
  height: z.number(),
  /** First impact in its way, m from the firing point. */
  distance: z.number(),
  /** What it bounces and rolls on after that, m, by the policy's ground. */
  runOut: z.number(),
  /** Kinetic energy at first impact, J; null without a mass. */
  energy: z.number().nullable(),
});

/** One number of a failure; null when it does not happen or cannot be told. */
export const figureSchema = z.object({
  code: z.string(),
  label: z.string(),
  value: z.number().nullable(),
  unit: z.enum(["J", "N", "N·m", "m", "m/s", "s", "ratio", "kg", "rad/s", "Pa"]),
});

export const faultSchema = z.object({
  code: z.enum(FAULT_CODES),
  title: z.string(),
  /** What it takes for granted. */
  assumptions: z.array(z.string()),
  /** What the numbers mean for the people around. */
  notes: z.array(z.string()),
  figures: z.array(figureSchema),
  pieces: z.array(pieceSchema),
  /** Farthest first impact of any piece, or what a falling machine and a blast reach, m; no margin, no run-out. */
  reach: reachSchema,
  /** Farthest that a piece comes to rest: first impact and its own run-out, without the policy's margin, m. */
  rest: reachSchema,
  /** Whether the pieces may go towards any azimuth: then the largest of `reach` counts all round. */
  allRound: z.boolean(),
});

export type FaultCode = (typeof FAULT_CODES)[number];
export type Fault = z.infer<typeof faultSchema>;
export type Piece = z.infer<typeof pieceSchema>;
export type Figure = z.infer<typeof figureSchema>;
export type Reach = z.infer<typeof reachSchema>;
