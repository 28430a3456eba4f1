/** The form as text that a browser keeps, and from a link or a declaration. */
import type { Quantity } from "@/app/_ui/quantity-field";
import { asUnitSystem, type UnitSystem } from "@/app/_ui/units-cookie";
import { GROUND_FIRMNESS, PROJECTILE_SHAPES } from "@/lib/throw";
import {
  choicesIn,
  choicesOf,
  everyField,
  KINDS,
  type Kind,
  sharedFields,
  startingValues,
  valuesOf,
} from "./fields";
import {
  type Choices,
  type FormState,
  filledOwn,
  filledShared,
  type Options,
  type Quantities,
  startingForm,
  startingOptions,
} from "./state";

const VERSION = 2;
/** Version 1 had no choices and no tables; what it has means the same. */
const READABLE = [1, VERSION];

export const formToText = (state: FormState): string => JSON.stringify({ version: VERSION, ...state });

/** A form kept earlier; null when the text is not one of ours. Unknown fields are left behind. */
export function formFromText(text: string | null): FormState | null {
  try {
    const kept = JSON.parse(text ?? "null");
    const system = asUnitSystem(kept?.system);
    if (!READABLE.includes(kept?.version) || !system || !KINDS.includes(kept.kind)) return null;
    const start = startingForm(system, kept.kind);
    const own: Partial<Record<Kind, Quantities>> = {};
    const choices: Partial<Record<Kind, Choices>> = {};
    for (const kind of KINDS) {
      if (!kept.own?.[kind]) continue;
      const fresh = startingForm(system, kind);
      own[kind] = readQuantities(everyField(kind), kept.own[kind], fresh.own[kind] as Quantities);
      choices[kind] = readChoices(kind, kept.choices?.[kind], fresh.choices[kind] as Choices);
    }
    return {
      kind: kept.kind,
      system,
      own: { ...start.own, ...own },
      choices: { ...start.choices, ...choices },
      shared: readQuantities(sharedFields, kept.shared, start.shared),
      options: readOptions(kept.options),
    };
  } catch {
    return null;
  }
}

/** What was kept where it can be read; what was never kept as it starts. Points of a table only as they were kept. */
function readQuantities(
  fields: readonly { path: string }[],
  from: Record<string, Quantity> | undefined,
  otherwise: Quantities,
): Quantities {
  const read: Record<string, Quantity> = {};
  for (const { path } of fields) {
    const found = from?.[path];
    const valid =
      typeof found?.text === "string" &&
      (found.value === null || (typeof found.value === "number" && Number.isFinite(found.value)));
    const point = /\.\d+\./.test(path);
    if (valid) read[path] = { text: found.text, value: found.value };
    else if (otherwise[path] && !(point && from)) read[path] = otherwise[path];
  }
  return read;
}

const readChoices = (kind: Kind, from: Choices | undefined, otherwise: Choices): Choices =>
  Object.fromEntries(
    choicesOf(kind).map(({ path, options }) => [
      path,
      options.find(({ value }) => value === from?.[path])?.value ??
        otherwise[path] ??
        options[0]?.value ??
        "",
    ]),
  );

function readOptions(kept: Partial<Options> | undefined): Options {
  return {
    shape: PROJECTILE_SHAPES.find((each) => each === kept?.shape) ?? startingOptions.shape,
    ground: GROUND_FIRMNESS.find((each) => each === kept?.ground) ?? startingOptions.ground,
    hangUp: kept?.hangUp !== false,
    hangUpReason: typeof kept?.hangUpReason === "string" ? kept.hangUpReason.slice(0, 500) : "",
  };
}

/** The form of a link's numbers, SI by path, and of its words: choices and options. */
export function formFromLink(
  kind: Kind,
  values: Readonly<Record<string, number>>,
  words: Readonly<Record<string, string>>,
  system: UnitSystem,
): FormState {
  const options = {
    shape: words.shape as Options["shape"],
    ground: words.ground as Options["ground"],
    hangUp: words.hangUp !== "false",
    hangUpReason: words.hangUpReason ?? "",
  };
  return formOf(kind, values, readChoices(kind, words, {}), readOptions(options), system);
}

/** The form in which a declaration stands, or a whole request with its policy, to go on from. */
export function formFromDeclaration(
  declaration: {
    machine: { kind: Kind };
    projectile: { shape: Options["shape"] };
    policy?: Partial<Omit<Options, "shape">> | undefined;
  },
  system: UnitSystem,
): FormState {
  const { kind } = declaration.machine;
  const options = readOptions({ ...declaration.policy, shape: declaration.projectile.shape });
  return formOf(kind, valuesOf(kind, declaration), choicesIn(kind, declaration), options, system);
}

function formOf(
  kind: Kind,
  values: Readonly<Record<string, number>>,
  choices: Choices,
  options: Options,
  system: UnitSystem,
): FormState {
  const policy = Object.fromEntries(
    Object.entries(startingValues(kind)).filter(([path]) => path.startsWith("policy.")),
  );
  return {
    kind,
    system,
    own: { [kind]: filledOwn(kind, values, system) },
    choices: { [kind]: choices },
    shared: filledShared({ ...policy, ...values }, system),
    options,
  };
}
