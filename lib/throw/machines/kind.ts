/**
 * What every file in this folder provides, so that adding a kind touches that file, one registry line and its
 * tests.
 */
import type { z } from "zod";
import type { Dimension } from "../../units";
import type { Instant, Releases } from "../release";
import type { Carrier } from "../swing/carrier";
import type { Drawing } from "./drawing";

export interface ParameterInfo {
  /** The API's name. */
  name: string;
  /** What a person calls it, sentence case, no unit. */
  label: string;
  /** How it is entered and shown. */
  dimension: Dimension;
  required: boolean;
  /** One sentence: from where to where it is measured, and what is taken when it is left empty. */
  help: string;
  /** The default ±: `share` of the value and `plus`, in the parameter's unit. Exact without it. Common practice, no source. */
  tolerance?: { share?: number; plus?: number };
  /** Of what decides only the throw as meant: the parameter whose value is its ± when none is declared. */
  toleranceFrom?: string;
  /** What is taken when it is left empty and follows from the other parameters. */
  derived?: (machine: Record<string, unknown>) => number;
  /** Decides only when the projectile is meant to leave: every instant counts for the worst, whatever it is. */
  onlyNominal?: boolean;
  /** Asked for only while a choice of the kind stands so; `name` is then a path such as "valve.openingTime". */
  when?: { choice: string; is: string };
}

/** A parameter that is one of a few words, or that decides which others are asked for. */
export interface ChoiceInfo {
  /** The API's name, or one of the form's own when `writes` says what each option means in the API. */
  name: string;
  label: string;
  help: string;
  options: readonly { value: string; label: string }[];
  /** What an option puts into the machine, by path; the option's value at `name` for options not listed. */
  writes?: Readonly<Record<string, Readonly<Record<string, unknown>>>>;
  /** Which option a declared machine stands for; the value at `name` without it. */
  reads?: (machine: Record<string, unknown>) => string | undefined;
}

/** A parameter that is a list of measured points. */
export interface TableInfo {
  name: string;
  label: string;
  help: string;
  /** The fields of a point, in the API's names. */
  columns: readonly { name: string; label: string; dimension: Dimension }[];
  fewest: number;
  most: number;
}

/** Whether a parameter means anything on a machine whose choices stand as they do. */
export function isAskedFor(
  { when }: ParameterInfo,
  choices: readonly ChoiceInfo[] | undefined,
  machine: Record<string, unknown>,
): boolean {
  if (!when) return true;
  const choice = choices?.find(({ name }) => name === when.choice);
  return (choice?.reads ? choice.reads(machine) : machine[when.choice]) === when.is;
}

/** What a kind whose releases follow from formulas is given. */
export interface Conditions {
  /** kg and m. */
  projectile: { mass: number; diameter: number };
  /** m/s² */
  gravity: number;
  /** Of the air around, Pa. */
  pressure: number;
  /** Of the air around, K; 288.15 (ISO 2533) without it. */
  temperature?: number;
  /** Declared tolerances by parameter, in the parameter's unit. */
  tolerances: Readonly<Record<string, number>>;
}

/** What may break or pull on a kind by formula, for its loads and faults (SI): each kind has some of it. */
export interface FormulaParts {
  armLength?: number | undefined;
  armMass?: number | undefined;
  /** rad/s */
  spinRate?: number | undefined;
  plane?: "vertical" | "horizontal" | undefined;
  launchHeight?: number | undefined;
  draw?: readonly { length: number; force: number }[] | undefined;
  drawForceScale?: number | undefined;
  movingMass?: number | undefined;
  /** Of cords, springs or limbs themselves. */
  limbMass?: number | undefined;
  chamberVolume?: number | undefined;
  chamberPressure?: number | undefined;
  boreDiameter?: number | undefined;
  muzzleHeight?: number | undefined;
  ratedPressure?: number | undefined;
  capMass?: number | undefined;
}

/**
 * How a projectile moves until it leaves as meant: instants in the order of time, the last one when it leaves. What
 * turns steadily gives one turn with its `period`, s, and goes on so when the projectile is gone.
 */
export interface Way {
  instants: readonly Instant[];
  period?: number;
}

/** The most that energy allows: speed of the projectile (m/s), and the highest and farthest point it can leave from (m). */
export interface EnergyBound {
  speed: number;
  height: number;
  reach: number;
}

export interface MachineKind<Schema extends z.ZodObject = z.ZodObject, Machine = z.output<Schema>> {
  kind: Machine extends { kind: infer Kind } ? Kind : never;
  title: string;
  /** One sentence by which an owner recognises the machine. */
  summary: string;
  schema: Schema;
  parameters: readonly ParameterInfo[];
  choices?: readonly ChoiceInfo[];
  tables?: readonly TableInfo[];
  /** Where the parts of the cocked machine are and what each parameter measures on them. */
  drawing: (machine: Machine) => Drawing;
  /** Either the constants of its equations of motion, or formulas that lead straight to the releases. */
  motion:
    | { by: "swing"; carrier: (machine: Machine) => Carrier }
    | {
        by: "formula";
        releases: (machine: Machine, conditions: Conditions) => Releases;
        ceiling: (machine: Machine, conditions: Conditions) => EnergyBound;
        /** For loads and faults. */
        parts?: (machine: Machine) => FormulaParts;
        /** For the film; nothing is known of the way to the release without it. */
        way?: (machine: Machine, conditions: Conditions) => Way;
      };
  /** What makes one impossible though every number is in range: the field, and what to do. */
  refusals?: (machine: Machine, conditions: Conditions) => { field: string; message: string }[];
  /**
   * What nobody may declare though it can be computed: the field's path, and what to do. A tolerance may reach
   * beyond, and the worst case counts that.
   */
  limits?: (machine: Machine, conditions: Conditions) => { path: string[]; message: string }[];
  /** What the model leaves out, for the sheet. */
  notModelled: readonly string[];
  /** An invented machine that works, to start from. */
  example: Machine;
  exampleProjectile: { mass: number; diameter: number };
}
