/** Everything the calculator's form asks for, and what it starts with. */
import { machineKind } from "@/lib/throw";
import { KINDS, machineChoices, machineFields, tablesOf, toleranceFields } from "./machine-specs";
import {
  airFields,
  dragFields,
  policyFields,
  policyValues,
  projectileFields,
  ruleFields,
  terrainFields,
  windFields,
} from "./shared-specs";
import { at, type ChoiceSpec, cell, type FieldSpec, type Kind } from "./specs";
import { strengthChoices, strengthFields } from "./strength-specs";

export { machineChoices, machineFields, tablesOf, toleranceFields } from "./machine-specs";
export * from "./shared-specs";
export { type ChoiceSpec, cell, type FieldSpec, fieldId, type Kind, type TableSpec } from "./specs";
export { strengthChoices, strengthFields } from "./strength-specs";
export { KINDS };

/** Of one kind: these are kept for each kind by itself. Without the cells of tables. */
export const ownFields = (kind: Kind): FieldSpec[] => [
  ...machineFields(kind),
  ...projectileFields,
  ...dragFields,
  ...toleranceFields(kind),
  ...strengthFields(kind),
];

/** The same whatever the machine. */
export const sharedFields: readonly FieldSpec[] = [
  ...airFields,
  ...windFields,
  ...terrainFields,
  ...policyFields,
  ...ruleFields,
];

export const choicesOf = (kind: Kind): ChoiceSpec[] => [...machineChoices(kind), ...strengthChoices(kind)];

/** Every field there may be of a kind, with as many points in its tables as they may have. */
export function everyField(kind: Kind): FieldSpec[] {
  const cells = tablesOf(kind).flatMap((table) =>
    Array.from({ length: table.most }, (_, row) =>
      table.columns.map((column) => cell(table, row, column)),
    ).flat(),
  );
  return [...ownFields(kind), ...cells, ...sharedFields];
}

/** The numbers of a declaration, SI by path: those of its machine's kind that it has. */
export function valuesOf(kind: Kind, declaration: unknown): Record<string, number> {
  const values: Record<string, number> = {};
  for (const { path } of everyField(kind)) {
    const value = at(declaration, path);
    if (typeof value === "number" && Number.isFinite(value)) values[path] = value;
  }
  return values;
}

/** How the choices of a kind stand in a declaration. */
export function choicesIn(kind: Kind, declaration: unknown): Record<string, string> {
  return Object.fromEntries(
    choicesOf(kind).map(({ path, options, reads }) => {
      const found = reads ? reads(declaration) : at(declaration, path);
      return [path, (options.find(({ value }) => value === found) ?? options[0])?.value ?? ""];
    }),
  );
}

const exampleOf = (kind: Kind) => {
  const { example, exampleProjectile } = machineKind(kind);
  return { machine: example, projectile: exampleProjectile };
};

/** What a fresh form holds: the kind's invented example and the policy's defaults. SI by path. */
export const startingValues = (kind: Kind): Record<string, number> => ({
  ...valuesOf(kind, exampleOf(kind)),
  ...policyValues(),
});

export const startingChoices = (kind: Kind): Record<string, string> => choicesIn(kind, exampleOf(kind));
