/** What every file in this folder provides, so that adding a kind touches that file and one registry line. */
import type { z } from "zod";
import type { Carrier } from "../swing/carrier";

/** How a parameter is entered and shown; names of lib/units dimensions. */
export type ParameterDimension = "length" | "mass" | "angle" | "speed" | "inertia" | "ratio";

export interface ParameterInfo {
  /** The API's name. */
  name: string;
  /** What a person calls it, sentence case, no unit. */
  label: string;
  dimension: ParameterDimension;
  required: boolean;
  /** One sentence: from where to where it is measured, and what is taken when it is left empty. */
  help: string;
}

export interface MachineKind<Kind extends string = string, Machine = unknown> {
  kind: Kind;
  title: string;
  /** One sentence by which an owner recognises the machine. */
  summary: string;
  schema: z.ZodType<Machine>;
  parameters: readonly ParameterInfo[];
  /** The constants of its equations of motion; null when only the flight is computed. */
  carrier: ((machine: Machine) => Carrier) | null;
  /** What the model leaves out, for the sheet. */
  notModelled: readonly string[];
  /** An invented machine that works, to start from. */
  example: Machine;
  exampleProjectile: { mass: number; diameter: number };
}
