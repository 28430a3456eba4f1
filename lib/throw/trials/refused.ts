/** Numbers of one throw that its machine cannot have: which, and why. */
import { refusals } from "../check";
import { projectileSchema } from "../contracts/projectile";
import type { HazardRequest } from "../contracts/request";
import { machineKind } from "../machines/registry";
import { knobValue, withValue } from "../tuning/knobs";

/** Another projectile than the declared one, or the mark in the wrong field: times as heavy or as light. */
const OTHER = 4;

export interface RefusedNumber {
  /** The setting, or `mass`. */
  name: string;
  /** What it may at least or at most be, SI and degrees; null where the reason is another. */
  limit: { end: "least" | "most"; value: number } | null;
  /** What to do. */
  message: string;
}

/** @returns the first that is refused */
export function refusedNumber(
  request: HazardRequest,
  settings: Readonly<Record<string, number>>,
  mass: number | null,
): RefusedNumber | null {
  for (const [name, value] of Object.entries(settings)) {
    if (knobValue(request, name) === undefined)
      return { name, limit: null, message: "The machine has no such number." };
    const changed = withValue(request, name, value);
    const parsed = machineKind(request.machine.kind).schema.safeParse(changed.machine);
    if (!parsed.success) {
      const issue = parsed.error.issues[0];
      const message = issue?.message ?? "The machine takes no such number.";
      if (issue?.code === "too_big")
        return { name, limit: { end: "most", value: Number(issue.maximum) }, message };
      if (issue?.code === "too_small")
        return { name, limit: { end: "least", value: Number(issue.minimum) }, message };
      return { name, limit: null, message };
    }
  }
  const together = Object.entries(settings).reduce(
    (made, [name, value]) => withValue(made, name, value),
    request,
  );
  const [refusal] = refusals(together);
  const [first] = Object.keys(settings);
  if (refusal && first) {
    const field = refusal.path.at(-1) ?? "";
    return { name: field in settings ? field : first, limit: null, message: refusal.message };
  }
  if (mass === null) return null;
  const declared = request.projectile.mass;
  if (mass > OTHER * declared || mass < declared / OTHER)
    return {
      name: "mass",
      limit: null,
      message: `It is more than ${OTHER} times ${mass > declared ? "as heavy" : "as light"} as declared. Weigh it again; another projectile is another revision.`,
    };
  const weighed = projectileSchema.safeParse({ ...request.projectile, mass });
  return weighed.success
    ? null
    : { name: "mass", limit: null, message: weighed.error.issues[0]?.message ?? "It cannot be so heavy." };
}
