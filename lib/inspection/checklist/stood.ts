/** The numbers on which a finding stood, and which of them have changed since. */
import type { Declaration } from "../../throw";

/** By path, "machine.longArm"; what is not declared is not there. */
export type Stood = Readonly<Record<string, string | number | boolean>>;

/** @param parts paths into a declaration: "machine", "strengths.sling" */
export function stoodOn(declaration: Declaration, parts: readonly string[]): Stood {
  const found: Record<string, string | number | boolean> = {};
  const walk = (value: unknown, path: string) => {
    if (typeof value === "number" || typeof value === "string" || typeof value === "boolean")
      found[path] = value;
    else if (typeof value === "object" && value !== null)
      for (const [name, each] of Object.entries(value)) walk(each, `${path}.${name}`);
  };
  for (const part of parts) {
    let value: unknown = declaration;
    for (const name of part.split(".")) value = (value as Record<string, unknown> | undefined)?.[name];
    walk(value, part);
  }
  return found;
}

/** Paths whose numbers are not what they were, in the order of now; empty when it still stands. */
export const changedSince = (before: Stood, now: Stood): string[] => [
  ...Object.keys(now).filter((path) => before[path] !== now[path]),
  ...Object.keys(before).filter((path) => !(path in now)),
];
