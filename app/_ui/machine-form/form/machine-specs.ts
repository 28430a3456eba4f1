/** What a kind of machine asks for, from the kind's own file. */
import { type ChoiceInfo, MACHINE_KINDS, machineKind, type ParameterInfo } from "@/lib/throw";
import {
  at,
  type ChoiceSpec,
  type Condition,
  type FieldSpec,
  field,
  type Kind,
  type TableSpec,
} from "./specs";

export const KINDS: readonly Kind[] = MACHINE_KINDS.map((each) => each.kind);

const has = (kind: Kind, name: string) => name in machineKind(kind).schema.shape;

export const parametersOf = (kind: Kind): readonly ParameterInfo[] => machineKind(kind).parameters;

const conditionOf = ({ when }: ParameterInfo): Condition[] | undefined =>
  when && [{ choice: `machine.${when.choice}`, is: [when.is] }];

const onWheels: readonly Condition[] = [{ choice: "machine.base", is: ["wheels"] }];

const baseFields: readonly FieldSpec[] = [
  {
    ...field(
      "machine.base.frameMass",
      "Frame mass",
      "mass",
      "Of all that rolls but the arm, the counterweight and the carriage.",
      false,
    ),
    when: onWheels,
  },
  {
    ...field(
      "machine.base.footprint",
      "Wheelbase",
      "length",
      "Along the throw, from the first point on the ground to the last.",
      false,
    ),
    when: onWheels,
  },
];

const baseChoice: ChoiceSpec = {
  path: "machine.base",
  label: "Base",
  help: "A frame that can roll may throw much farther, above all backwards: held and rolling are both computed.",
  options: [
    { value: "fixed", label: "Fixed to the ground" },
    { value: "wheels", label: "On wheels, or free to slide" },
  ],
  writes: { fixed: {}, wheels: {} },
  reads: (declaration) => (typeof at(declaration, "machine.base") === "object" ? "wheels" : "fixed"),
};

/** Tables hold what is a list: a parameter of that name is shown as its table. */
export function machineFields(kind: Kind): FieldSpec[] {
  const tables = new Set(tablesOf(kind).map(({ path }) => path));
  const own = parametersOf(kind).map((parameter): FieldSpec => {
    const { name, label, dimension, help, required } = parameter;
    const when = conditionOf(parameter);
    return { ...field(`machine.${name}`, label, dimension, help, !required), ...(when ? { when } : {}) };
  });
  return [...own.filter(({ path }) => !tables.has(path)), ...(has(kind, "base") ? baseFields : [])];
}

const choiceOf = ({ name, label, help, options, writes, reads }: ChoiceInfo): ChoiceSpec => ({
  path: `machine.${name}`,
  label,
  help,
  options,
  ...(writes
    ? {
        writes: Object.fromEntries(
          Object.entries(writes).map(([option, values]) => [
            option,
            Object.fromEntries(Object.entries(values).map(([path, value]) => [`machine.${path}`, value])),
          ]),
        ),
      }
    : {}),
  ...(reads
    ? { reads: (declaration) => reads((at(declaration, "machine") ?? {}) as Record<string, unknown>) }
    : {}),
});

/** The kind's own choices; how it stands comes last. */
export function machineChoices(kind: Kind): ChoiceSpec[] {
  const own = (machineKind(kind).choices ?? []).map(choiceOf);
  return has(kind, "base") ? [...own, baseChoice] : own;
}

export const tablesOf = (kind: Kind): TableSpec[] =>
  (machineKind(kind).tables ?? []).map((table) => ({ ...table, path: `machine.${table.name}` }));

/** The ± of each number, in its own unit. */
export function toleranceFields(kind: Kind): FieldSpec[] {
  const own = parametersOf(kind).map((parameter): FieldSpec => {
    const when = conditionOf(parameter);
    const spec = field(`tolerances.${parameter.name}`, `${parameter.label} ±`, parameter.dimension, "");
    return when ? { ...spec, when } : spec;
  });
  return [
    ...own,
    field("tolerances.mass", "Projectile mass ±", "mass", ""),
    field("tolerances.diameter", "Projectile diameter ±", "length", ""),
  ];
}
