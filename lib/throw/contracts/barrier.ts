/** Walls and nets that the safety officer signs for. */
import { z } from "zod";
import { finite } from "./numbers";

const far = finite.min(-5000).max(5000);

/**
 * It stops what flies lower than it, and nothing else: throws that pass over it, and thrown pieces of a machine, reach
 * as far as without it. Whether it holds what it stops is for the safety officer to know.
 */
export const barrierSchema = z.strictObject({
  name: z.string().trim().max(80).default(""),
  /** Of its top above the ground it stands on, m. */
  height: finite.min(0.5).max(50),
  /** Its foot, from end to end: m along the bearing from the firing point, and to the right of it. */
  line: z
    .array(z.strictObject({ downrange: far, aside: far }))
    .min(2)
    .max(100),
  /** How far the machine may stand from where the line is measured from, m. */
  accuracy: finite.min(0).max(50).default(0),
});

export type Barrier = z.output<typeof barrierSchema>;
