/** A declared revision brought back into the calculator's form, to start the next one from. */

import type { UnitSystem } from "@/app/_ui/units-cookie";
import { allFields } from "@/app/calculator/form/fields";
import { type FormState, formFromHash } from "@/app/calculator/form/state";
import type { Declaration } from "@/lib/throw";

export function formOfDeclaration(declaration: Declaration, system: UnitSystem): FormState | null {
  const { kind } = declaration.machine;
  const parameters = new URLSearchParams({ kind, shape: declaration.projectile.shape });
  for (const { path } of allFields(kind)) {
    const value = at(declaration, path);
    if (typeof value === "number") parameters.set(path, String(value));
  }
  return formFromHash(parameters.toString(), system);
}

function at(from: unknown, path: string): unknown {
  return path
    .split(".")
    .reduce<unknown>(
      (value, step) =>
        value && typeof value === "object" ? (value as Record<string, unknown>)[step] : undefined,
      from,
    );
}
