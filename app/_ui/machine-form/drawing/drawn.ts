/** What the labelled drawing shows of the form as it stands. Pure. */
import { type Drawing, type Machine, machineKind } from "@/lib/throw";
import { formatQuantity } from "@/lib/units";
import { type FieldSpec, machineFields, startingValues, tablesOf } from "../form/fields";
import { requestBody } from "../form/request";
import { at, place } from "../form/specs";
import { cellsOf, type FormState, isAsked, quantityAt, startingForm } from "../form/state";
import { type PlacedMark, type Projection, placeMark, project } from "./projection";

export const parameterOf = ({ path }: { path: string }): string => path.slice("machine.".length);

/** The machine as entered; where a required number is missing, the example's. */
export function drawnMachine(form: FormState): Machine {
  const { machine } = requestBody(form) as { machine: Record<string, unknown> };
  const start = startingValues(form.kind);
  const cells = tablesOf(form.kind).flatMap((table) => cellsOf(form, table).flat());
  const required = machineFields(form.kind).filter((spec) => !spec.optional && isAsked(form, spec));
  for (const { path } of [...required, ...cells]) {
    const missing = at({ machine }, path) === undefined;
    if (missing && start[path] !== undefined) place({ machine }, path, start[path]);
  }
  return machine as unknown as Machine;
}

export interface Placed {
  drawing: Drawing;
  projection: Projection;
  placed: readonly PlacedMark[];
}

const heightFor = (width: number) => Math.round(width < 480 ? width * 0.95 : Math.min(620, width * 0.86));

export function placeAll(machine: Machine, width: number): Placed {
  const drawing = machineKind(machine.kind).drawing(machine);
  const projection = project(drawing, width, heightFor(width), width < 480 ? 40 : 66);
  return { drawing, projection, placed: drawing.marks.map((mark) => placeMark(mark, projection)) };
}

export interface Arrangement {
  /** Beside the drawing, by where their letters are. */
  left: readonly FieldSpec[];
  right: readonly FieldSpec[];
  /** Asked for at once but without a place on the drawing. */
  below: readonly FieldSpec[];
  /** What most machines leave empty. */
  more: readonly FieldSpec[];
  letters: Readonly<Record<string, string>>;
}

/** Whether the example has a number here that is not what is taken when nothing is entered. */
function isTold(example: FormState, spec: FieldSpec): boolean {
  const { value } = quantityAt(example, spec.path);
  const shape: Readonly<Record<string, unknown>> = machineKind(example.kind).schema.shape;
  const taken = (
    shape[parameterOf(spec)] as { safeParse(value: unknown): { data?: unknown } } | undefined
  )?.safeParse(undefined).data;
  return value !== null && value !== 0 && value !== taken;
}

/**
 * Which field stands where, and in which order: by where its letter is on the kind's example. Fixed for the kind and
 * its choices, so that no field moves while its number is typed. What the example leaves out is folded away.
 */
export function arrange(form: FormState): Arrangement {
  const start = startingForm(form.system, form.kind);
  const example: FormState = { ...start, choices: form.choices };
  const { placed } = placeAll(drawnMachine(example), 600);
  const spots = new Map(placed.map((each) => [each.mark.parameter, each.letter]));
  const fields = machineFields(form.kind).filter((spec) => isAsked(form, spec));
  const first = fields.filter((spec) => !spec.optional || isTold(start, spec));
  const spotOf = (spec: FieldSpec) => spots.get(parameterOf(spec)) as readonly [number, number];
  const pointed = first.filter((spec) => spots.has(parameterOf(spec)));
  const byX = [...pointed].sort((a, b) => spotOf(a)[0] - spotOf(b)[0]);
  const byY = (a: FieldSpec, b: FieldSpec) => spotOf(a)[1] - spotOf(b)[1];
  const middle = Math.ceil(byX.length / 2);
  const [left, right] = [byX.slice(0, middle).sort(byY), byX.slice(middle).sort(byY)];
  const below = first.filter((spec) => !spots.has(parameterOf(spec)));
  const more = fields.filter((spec) => !first.includes(spec));
  const lettered = [...left, ...right, ...more.filter((spec) => spots.has(parameterOf(spec)))];
  const tables = tablesOf(form.kind).filter(({ name }) => spots.has(name));
  const names = [...tables.map(({ name }) => name), ...lettered.map(parameterOf)];
  const letters = Object.fromEntries(names.map((name, index) => [name, String.fromCharCode(65 + index)]));
  return { left, right, below, more, letters };
}

/** Which choices decide the arrangement, as one word. */
export const arrangementKey = (form: FormState): string =>
  `${form.kind} ${Object.entries(form.choices[form.kind] ?? {}).join(" ")}`;

/** The entered numbers with their units, by parameter; of a choice what was chosen. */
export function numbersBeside(form: FormState): Record<string, string> {
  const numbers: Record<string, string> = {};
  for (const spec of machineFields(form.kind)) {
    const { value } = quantityAt(form, spec.path);
    if (value !== null) numbers[parameterOf(spec)] = formatQuantity(value, spec.dimension, form.system);
  }
  for (const table of tablesOf(form.kind)) {
    const [first] = table.columns;
    const lengths = cellsOf(form, table).map(([cell]) => (cell && quantityAt(form, cell.path).value) ?? 0);
    if (first && lengths.length > 0) {
      numbers[table.name] = formatQuantity(Math.max(...lengths), first.dimension, form.system);
    }
  }
  return numbers;
}
