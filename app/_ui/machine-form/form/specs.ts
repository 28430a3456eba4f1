/** What a form can ask for. Each is keyed by its path in the API's request, so that errors find their way back. */
import type { Machine } from "@/lib/throw";
import type { Dimension } from "@/lib/units";

export type Kind = Machine["kind"];

/** Asked for only while a choice, by its path, stands at one of these options. */
export interface Condition {
  choice: string;
  is: readonly string[];
}

export interface FieldSpec {
  /** In the request: "machine.longArm". */
  path: string;
  label: string;
  dimension: Dimension;
  optional: boolean;
  help: string;
  when?: readonly Condition[];
}

export interface ChoiceSpec {
  /** In the request, or the form's own where `writes` says what each option means there. */
  path: string;
  label: string;
  help: string;
  /** The first is taken until another is chosen. */
  options: readonly { value: string; label: string }[];
  /** What an option puts into the request, by path; the option's value at `path` without it. */
  writes?: Readonly<Record<string, Readonly<Record<string, unknown>>>>;
  /** Which option a declaration stands for; the word at `path` without it. */
  reads?: (declaration: unknown) => string | undefined;
  when?: readonly Condition[];
}

/** A list of measured points; the cells of row 0 are fields at "machine.draw.0.length" and so on. */
export interface TableSpec {
  path: string;
  /** In its machine. */
  name: string;
  label: string;
  help: string;
  columns: readonly { name: string; label: string; dimension: Dimension }[];
  fewest: number;
  most: number;
}

export const field = (
  path: string,
  label: string,
  dimension: Dimension,
  help: string,
  optional = true,
): FieldSpec => ({ path, label, dimension, optional, help });

/** Tolerances are kept by the parameter's whole name, whatever dots it has. */
const stepsOf = (path: string): string[] =>
  path.startsWith("tolerances.") ? ["tolerances", path.slice("tolerances.".length)] : path.split(".");

/** The value at a dotted path; undefined where there is none. */
export const at = (from: unknown, path: string): unknown =>
  stepsOf(path).reduce<unknown>(
    (value, step) =>
      value && typeof value === "object" ? (value as Record<string, unknown>)[step] : undefined,
    from,
  );

/** Puts a value at a dotted path, making objects, and lists for numbered steps, on the way. */
export function place(into: Record<string, unknown>, path: string, value: unknown): void {
  const steps = stepsOf(path);
  let here = into;
  for (const [index, step] of steps.slice(0, -1).entries()) {
    here[step] ??= /^\d+$/.test(steps[index + 1] as string) ? [] : {};
    here = here[step] as Record<string, unknown>;
  }
  here[steps.at(-1) as string] = value;
}

/** The field of one cell of a table. */
export const cell = (table: TableSpec, row: number, column: TableSpec["columns"][number]): FieldSpec =>
  field(
    `${table.path}.${row}.${column.name}`,
    `${table.label}, point ${row + 1}, ${column.label.toLowerCase()}`,
    column.dimension,
    "",
    false,
  );

/** An id for a path: paths have dots, which selectors do not like. */
export const fieldId = (path: string): string => `field-${path.replaceAll(".", "-")}`;
