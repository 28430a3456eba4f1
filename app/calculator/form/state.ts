/** What the calculator's form holds, and every way it changes. Pure. */
import { type Quantity, quantityOf } from "@/app/_ui/quantity-field";
import { asUnitSystem, type UnitSystem } from "@/app/_ui/units-cookie";
import { defaultPolicy, GROUND_FIRMNESS, PROJECTILE_SHAPES } from "@/lib/throw";
import {
  allFields,
  type FieldSpec,
  KINDS,
  type Kind,
  ownFields,
  sharedFields,
  startingValues,
} from "./fields";

export interface Options {
  shape: (typeof PROJECTILE_SHAPES)[number];
  ground: (typeof GROUND_FIRMNESS)[number];
  hangUp: boolean;
  hangUpReason: string;
}

type Quantities = Readonly<Record<string, Quantity>>;

export interface FormState {
  kind: Kind;
  /** The units the texts are written in. */
  system: UnitSystem;
  own: Readonly<Partial<Record<Kind, Quantities>>>;
  shared: Quantities;
  options: Options;
}

export type FormAction =
  | { type: "kind"; kind: Kind }
  | { type: "quantity"; path: string; quantity: Quantity }
  | { type: "option"; option: Partial<Options> }
  | { type: "units"; system: UnitSystem }
  | { type: "example" }
  | { type: "replace"; state: FormState };

const startingOptions: Options = {
  shape: "smooth-sphere",
  ground: defaultPolicy.ground,
  hangUp: true,
  hangUpReason: "",
};

const filled = (
  fields: readonly FieldSpec[],
  values: Readonly<Record<string, number>>,
  system: UnitSystem,
): Quantities =>
  Object.fromEntries(
    fields.map(({ path, dimension }) => [path, quantityOf(values[path], dimension, system)]),
  );

export function startingForm(system: UnitSystem, kind: Kind = "hinged-counterweight"): FormState {
  return {
    kind,
    system,
    own: { [kind]: filled(ownFields(kind), startingValues(kind), system) },
    shared: filled(sharedFields, startingValues(kind), system),
    options: startingOptions,
  };
}

const isOwn = (path: string) => /^(machine|projectile|tolerances)\./.test(path);

export const quantityAt = (state: FormState, path: string): Quantity =>
  (isOwn(path) ? state.own[state.kind]?.[path] : state.shared[path]) ?? { text: "", value: null };

export function changeForm(state: FormState, action: FormAction): FormState {
  switch (action.type) {
    case "kind": {
      const { kind } = action;
      const own = state.own[kind] ?? filled(ownFields(kind), startingValues(kind), state.system);
      return { ...state, kind, own: { ...state.own, [kind]: own } };
    }
    case "quantity":
      return isOwn(action.path)
        ? {
            ...state,
            own: { ...state.own, [state.kind]: { ...state.own[state.kind], [action.path]: action.quantity } },
          }
        : { ...state, shared: { ...state.shared, [action.path]: action.quantity } };
    case "option":
      return { ...state, options: { ...state.options, ...action.option } };
    case "units":
      return inUnits(state, action.system);
    case "example":
      return startingForm(state.system, state.kind);
    case "replace":
      return action.state;
  }
}

/** The same form written in other units: values stay, texts that mean nothing yet stay as typed. */
function inUnits(state: FormState, system: UnitSystem): FormState {
  if (state.system === system) return state;
  const rewrite = (fields: readonly FieldSpec[], quantities: Quantities | undefined): Quantities =>
    Object.fromEntries(
      fields.map(({ path, dimension }) => {
        const quantity = quantities?.[path] ?? { text: "", value: null };
        return [path, quantity.value === null ? quantity : quantityOf(quantity.value, dimension, system)];
      }),
    );
  const own = Object.fromEntries(
    KINDS.filter((kind) => state.own[kind]).map((kind) => [kind, rewrite(ownFields(kind), state.own[kind])]),
  );
  return { ...state, system, own, shared: rewrite(sharedFields, state.shared) };
}

const VERSION = 1;

export const formToText = (state: FormState): string => JSON.stringify({ version: VERSION, ...state });

/** A form kept earlier; null when the text is not one of ours. Unknown fields are left behind. */
export function formFromText(text: string | null): FormState | null {
  try {
    const kept = JSON.parse(text ?? "null");
    const system = asUnitSystem(kept?.system);
    if (kept?.version !== VERSION || !system || !KINDS.includes(kept.kind)) return null;
    const start = startingForm(system, kept.kind);
    const read = (fields: readonly FieldSpec[], from: unknown, otherwise: Quantities): Quantities =>
      Object.fromEntries(
        fields.map(({ path }) => {
          const found = (from as Record<string, Quantity> | undefined)?.[path];
          const valid =
            typeof found?.text === "string" &&
            (found.value === null || (typeof found.value === "number" && Number.isFinite(found.value)));
          return [path, valid ? { text: found.text, value: found.value } : (otherwise[path] as Quantity)];
        }),
      );
    const own = Object.fromEntries(
      KINDS.filter((kind) => kept.own?.[kind]).map((kind) => [
        kind,
        read(ownFields(kind), kept.own[kind], startingForm(system, kind).own[kind] as Quantities),
      ]),
    );
    return {
      kind: kept.kind,
      system,
      own: { ...start.own, ...own },
      shared: read(sharedFields, kept.shared, start.shared),
      options: readOptions(kept.options),
    };
  } catch {
    return null;
  }
}

function readOptions(kept: Partial<Options> | undefined): Options {
  return {
    shape: PROJECTILE_SHAPES.find((each) => each === kept?.shape) ?? startingOptions.shape,
    ground: GROUND_FIRMNESS.find((each) => each === kept?.ground) ?? startingOptions.ground,
    hangUp: kept?.hangUp !== false,
    hangUpReason: typeof kept?.hangUpReason === "string" ? kept.hangUpReason.slice(0, 500) : "",
  };
}

/** Everything entered, in SI by path, short enough for a link. */
export function formToHash(state: FormState): string {
  const values: Record<string, number> = {};
  const start = startingValues(state.kind);
  for (const { path } of allFields(state.kind)) {
    const { value } = quantityAt(state, path);
    if (value !== null && !(path.startsWith("policy.") && value === start[path])) values[path] = value;
  }
  const parameters = new URLSearchParams({ kind: state.kind });
  for (const [path, value] of Object.entries(values)) parameters.set(path, String(value));
  for (const [name, value] of Object.entries(state.options)) {
    if (value !== startingOptions[name as keyof Options]) parameters.set(name, String(value));
  }
  return parameters.toString();
}

/** The form that a shared link describes; null when it describes none. */
export function formFromHash(hash: string, system: UnitSystem): FormState | null {
  const parameters = new URLSearchParams(hash.replace(/^#/, ""));
  const kind = KINDS.find((each) => each === parameters.get("kind"));
  if (!kind) return null;
  const values: Record<string, number> = {};
  for (const { path } of allFields(kind)) {
    const value = Number(parameters.get(path) ?? Number.NaN);
    if (Number.isFinite(value)) values[path] = value;
  }
  const policy = Object.fromEntries(
    Object.entries(startingValues(kind)).filter(([path]) => path.startsWith("policy.")),
  );
  return {
    kind,
    system,
    own: { [kind]: filled(ownFields(kind), values, system) },
    shared: filled(sharedFields, { ...policy, ...values }, system),
    options: readOptions({
      shape: parameters.get("shape") as Options["shape"],
      ground: parameters.get("ground") as Options["ground"],
      hangUp: parameters.get("hangUp") !== "false",
      hangUpReason: parameters.get("hangUpReason") ?? "",
    }),
  };
}
