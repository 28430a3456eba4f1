/** What every file of this folder provides, so that a way to measure is one file, one line of the list and its tests. */
import type { z } from "zod";
import type { GeoPoint } from "../../earth";
import type { Dimension } from "../../units";
import type { Adjustment } from "../adjust";
import type { Budget } from "../budget";
import type { Ground } from "../site";
import type { Warning } from "../warnings";

interface Asked {
  /** The API's name. */
  name: string;
  /** What a person calls it, sentence case, no unit. */
  label: string;
  /** One sentence: what it is, and what is taken when it is left empty. */
  help: string;
  required: boolean;
  /** Asked for only while a choice of the same form stands so. */
  when?: { choice: string; is: string };
}

export type Field =
  | (Asked & { type: "number"; dimension: Dimension })
  | (Asked & { type: "choice"; options: readonly { value: string; label: string }[] })
  /** A control point's id, or "firing-point". */
  | (Asked & { type: "peg" })
  /** A few rows of the same fields. */
  | (Asked & { type: "list"; fewest: number; most: number; fields: readonly Field[] });

export interface Placed {
  point: GeoPoint;
  /** Of the point itself; what it shares with the firing point is in it. */
  budget: Budget;
  warnings: Warning[];
  /** Distance (m) and true bearing, when they were measured from the firing point and need no working out. */
  fromFiringPoint?: { distance: number; bearing: number };
  adjustment?: Adjustment;
}

export interface SurveyMethod<Schema extends z.ZodType = z.ZodType, Entry = z.output<Schema>> {
  method: Entry extends { method: infer Method } ? Method : never;
  title: string;
  /** One sentence: what is needed, and what it is worth. */
  summary: string;
  /** A last resort: to find the place, not to rank by. */
  coarse?: true;
  schema: Schema;
  fields: readonly Field[];
  /** Throws Unplaceable when no point comes out. */
  place(entry: Entry, ground: Ground): Placed;
}
