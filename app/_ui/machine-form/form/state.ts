/** What the calculator's form holds, and every way it changes. Pure. */
import { type Quantity, quantityOf } from "@/app/_ui/quantity-field";
import type { UnitSystem } from "@/app/_ui/units-cookie";
import { defaultPolicy, type GROUND_FIRMNESS, type PROJECTILE_SHAPES } from "@/lib/throw";
import {
  type ChoiceSpec,
  cell,
  choicesOf,
  everyField,
  type FieldSpec,
  type Kind,
  ownFields,
  sharedFields,
  startingChoices,
  startingValues,
  type TableSpec,
  tablesOf,
} from "./fields";
import type { Condition } from "./specs";

export interface Options {
  shape: (typeof PROJECTILE_SHAPES)[number];
  ground: (typeof GROUND_FIRMNESS)[number];
  hangUp: boolean;
  hangUpReason: string;
}

export type Quantities = Readonly<Record<string, Quantity>>;
export type Choices = Readonly<Record<string, string>>;

export interface FormState {
  kind: Kind;
  /** The units the texts are written in. */
  system: UnitSystem;
  own: Readonly<Partial<Record<Kind, Quantities>>>;
  choices: Readonly<Partial<Record<Kind, Choices>>>;
  shared: Quantities;
  options: Options;
}

export type FormAction =
  | { type: "kind"; kind: Kind }
  | { type: "quantity"; path: string; quantity: Quantity }
  | { type: "choice"; path: string; value: string }
  | { type: "add-row"; table: TableSpec }
  | { type: "remove-row"; table: TableSpec; row: number }
  | { type: "option"; option: Partial<Options> }
  | { type: "units"; system: UnitSystem }
  | { type: "example" }
  | { type: "replace"; state: FormState };

export const startingOptions: Options = {
  shape: "smooth-sphere",
  ground: defaultPolicy.ground,
  hangUp: true,
  hangUpReason: "",
};

const EMPTY: Quantity = { text: "", value: null };

const filled = (
  fields: readonly FieldSpec[],
  values: Readonly<Record<string, number>>,
  system: UnitSystem,
): Quantities =>
  Object.fromEntries(
    fields.map(({ path, dimension }) => [path, quantityOf(values[path], dimension, system)]),
  );

/** Fields of a kind and, where there are values for them, cells of its tables. */
export function filledOwn(
  kind: Kind,
  values: Readonly<Record<string, number>>,
  system: UnitSystem,
): Quantities {
  const plain = new Set(ownFields(kind).map(({ path }) => path));
  const fields = everyField(kind).filter(({ path }) => plain.has(path) || (path in values && isOwn(path)));
  return filled(fields, values, system);
}

export const filledShared = (values: Readonly<Record<string, number>>, system: UnitSystem): Quantities =>
  filled(sharedFields, values, system);

export function startingForm(system: UnitSystem, kind: Kind = "hinged-counterweight"): FormState {
  return {
    kind,
    system,
    own: { [kind]: filledOwn(kind, startingValues(kind), system) },
    choices: { [kind]: startingChoices(kind) },
    shared: filledShared(startingValues(kind), system),
    options: startingOptions,
  };
}

const isOwn = (path: string) => /^(machine|projectile|tolerances|strengths)\./.test(path);

export const quantityAt = (state: FormState, path: string): Quantity =>
  (isOwn(path) ? state.own[state.kind]?.[path] : state.shared[path]) ?? EMPTY;

export const choiceAt = (state: FormState, { path, options }: ChoiceSpec): string =>
  state.choices[state.kind]?.[path] ?? options[0]?.value ?? "";

/** Whether something is asked for as the choices stand, those it depends on in their turn. */
export function isAsked(state: FormState, { when }: { when?: readonly Condition[] }): boolean {
  return (when ?? []).every(({ choice, is }) => {
    const spec = choicesOf(state.kind).find(({ path }) => path === choice);
    return spec !== undefined && isAsked(state, spec) && is.includes(choiceAt(state, spec));
  });
}

/** How many points of a table stand in the form. */
export function rowsOf(state: FormState, { path, columns }: TableSpec): number {
  const own = state.own[state.kind] ?? {};
  let rows = 0;
  while (columns.some(({ name }) => `${path}.${rows}.${name}` in own)) rows++;
  return rows;
}

export const cellsOf = (state: FormState, table: TableSpec): FieldSpec[][] =>
  Array.from({ length: rowsOf(state, table) }, (_, row) =>
    table.columns.map((column) => cell(table, row, column)),
  );

/** What the form asks for as it stands. */
export const fieldsOf = (state: FormState): FieldSpec[] => [
  ...ownFields(state.kind).filter((spec) => isAsked(state, spec)),
  ...tablesOf(state.kind).flatMap((table) => cellsOf(state, table).flat()),
  ...sharedFields,
];

export const askedChoices = (state: FormState): ChoiceSpec[] =>
  choicesOf(state.kind).filter((spec) => isAsked(state, spec));

export function changeForm(state: FormState, action: FormAction): FormState {
  const { kind } = state;
  switch (action.type) {
    case "kind": {
      const next = action.kind;
      const own = state.own[next] ?? filledOwn(next, startingValues(next), state.system);
      const choices = state.choices[next] ?? startingChoices(next);
      return {
        ...state,
        kind: next,
        own: { ...state.own, [next]: own },
        choices: { ...state.choices, [next]: choices },
      };
    }
    case "quantity":
      return isOwn(action.path)
        ? withOwn(state, { ...state.own[kind], [action.path]: action.quantity })
        : { ...state, shared: { ...state.shared, [action.path]: action.quantity } };
    case "choice":
      return {
        ...state,
        choices: { ...state.choices, [kind]: { ...state.choices[kind], [action.path]: action.value } },
      };
    case "add-row": {
      const { table } = action;
      const row = rowsOf(state, table);
      if (row >= table.most) return state;
      const cells = table.columns.map((column) => [cell(table, row, column).path, EMPTY]);
      return withOwn(state, { ...state.own[kind], ...Object.fromEntries(cells) });
    }
    case "remove-row":
      return withOwn(state, withoutRow(state, action.table, action.row));
    case "option":
      return { ...state, options: { ...state.options, ...action.option } };
    case "units":
      return inUnits(state, action.system);
    case "example":
      return startingForm(state.system, kind);
    case "replace":
      return action.state;
  }
}

const withOwn = (state: FormState, own: Quantities): FormState => ({
  ...state,
  own: { ...state.own, [state.kind]: own },
});

/** The points after a removed one move up. */
function withoutRow(state: FormState, table: TableSpec, row: number): Quantities {
  const own: Record<string, Quantity> = { ...state.own[state.kind] };
  const cells = cellsOf(state, table);
  cells.forEach((line, index) => {
    line.forEach(({ path }, column) => {
      const below = cells[index + 1]?.[column];
      if (index < row) return;
      if (below) own[path] = own[below.path] ?? EMPTY;
      else delete own[path];
    });
  });
  return own;
}

/** The same form written in other units: values stay, texts that mean nothing yet stay as typed. */
function inUnits(state: FormState, system: UnitSystem): FormState {
  if (state.system === system) return state;
  const rewrite = (fields: readonly FieldSpec[], quantities: Quantities): Quantities => {
    const dimensions = new Map(fields.map(({ path, dimension }) => [path, dimension]));
    return Object.fromEntries(
      Object.entries(quantities).map(([path, quantity]) => {
        const dimension = dimensions.get(path);
        return [
          path,
          dimension === undefined || quantity.value === null
            ? quantity
            : quantityOf(quantity.value, dimension, system),
        ];
      }),
    );
  };
  const own = Object.fromEntries(
    (Object.entries(state.own) as [Kind, Quantities][]).map(([kind, quantities]) => [
      kind,
      rewrite(everyField(kind), quantities),
    ]),
  );
  return { ...state, system, own, shared: rewrite(sharedFields, state.shared) };
}
