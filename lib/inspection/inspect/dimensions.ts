/** Declared numbers as an inspector measures them: with their tolerance, and put right where they are off. SI, degrees. */
import { type Declaration, isAskedFor, machineKind, PROJECTILE_TOLERANCE, toleranceOf } from "../../throw";
import type { Dimension } from "../../units";

export interface DeclaredDimension {
  /** Path into the declaration: "machine.longArm". */
  path: string;
  label: string;
  dimension: Dimension;
  declared: number;
  /** ±; null for what decides only the throw as meant and has none declared: no zone hangs on it. */
  tolerance: number | null;
}

export interface Measured {
  path: string;
  value: number;
}

const at = (holder: unknown, path: string): unknown =>
  path
    .split(".")
    .reduce<unknown>((value, name) => (value as Record<string, unknown> | undefined)?.[name], holder);

/** Every number of a declaration that can be measured, in the order of its form. */
export function dimensionsOf(declaration: Declaration): DeclaredDimension[] {
  const { machine, projectile } = declaration;
  const { parameters, choices } = machineKind(machine.kind);
  const own = parameters.flatMap((parameter): DeclaredDimension[] => {
    const { name, label, dimension, tolerance, onlyNominal } = parameter;
    const declared = at(machine, name);
    if (typeof declared !== "number" || !isAskedFor(parameter, choices, { ...machine })) return [];
    const given = declaration.tolerances?.[name];
    return [
      {
        path: `machine.${name}`,
        label,
        dimension,
        declared,
        tolerance:
          onlyNominal && given === undefined ? null : toleranceOf(declaration, name, declared, tolerance),
      },
    ];
  });
  const thrown = (name: "mass" | "diameter", label: string): DeclaredDimension => ({
    path: `projectile.${name}`,
    label,
    dimension: name === "mass" ? "mass" : "length",
    declared: projectile[name],
    tolerance: toleranceOf(declaration, name, projectile[name], { share: PROJECTILE_TOLERANCE }),
  });
  return [...own, thrown("mass", "Projectile, mass"), thrown("diameter", "Projectile, diameter")];
}

/** Rounding of units, as a share of the declared number. */
const ROUNDING = 1e-9;

/** Whether what was measured is no machine of those that the sheet counted. */
export const isOff = ({ declared, tolerance }: DeclaredDimension, value: number): boolean =>
  tolerance !== null && Math.abs(value - declared) > tolerance + ROUNDING * Math.abs(declared);

/** Those measured numbers that lie outside their tolerance. */
export function offDeclared(declaration: Declaration, measured: readonly Measured[]): DeclaredDimension[] {
  const found = new Map(measured.map(({ path, value }) => [path, value]));
  return dimensionsOf(declaration).filter((dimension) => {
    const value = found.get(dimension.path);
    return value !== undefined && isOff(dimension, value);
  });
}

/** The declaration with the measured numbers in place of those that are off; it is to be checked anew. */
export function asMeasured(declaration: Declaration, measured: readonly Measured[]): unknown {
  const put = structuredClone(declaration);
  const found = new Map(measured.map(({ path, value }) => [path, value]));
  for (const { path } of offDeclared(declaration, measured)) {
    const names = path.split(".");
    const last = names.pop() as string;
    (at(put, names.join(".")) as Record<string, unknown>)[last] = found.get(path);
  }
  return put;
}
