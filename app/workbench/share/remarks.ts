/** What of a request in a file the form does not take as it stands, each field by its name, and what becomes of it. */
import { everyField } from "@/app/_ui/machine-form/form/fields";
import { placesOf, readForm, requestBody } from "@/app/_ui/machine-form/form/request";
import { askedChoices, type FormState, fieldsOf, quantityAt } from "@/app/_ui/machine-form/form/state";
import { formatQuantity } from "@/lib/units";
import { quoted } from "./file-text";

export interface Remark {
  /** Its label on the page Machine, or its path in the file. */
  field: string;
  becomes: string;
}

/** A request is no deeper; what is cannot be ours. */
const DEEPEST = 6;

const OPTION_LABELS = [
  ["projectile.shape", "Projectile shape"],
  ["policy", "Policy"],
  ["policy.ground", "Ground"],
  ["policy.hangUp", "Hang-ups"],
] as const;

export function remarksOf(request: unknown, form: FormState): Remark[] {
  const given = leavesOf(request);
  const taken = leavesOf(requestBody(form));
  const numbers = new Set(everyField(form.kind).map(({ path }) => path));
  const labels = new Map<string, string>([
    ...OPTION_LABELS,
    ...[...everyField(form.kind), ...placesOf(form)].map(({ path, label }) => [path, label] as const),
  ]);
  const asked = new Set(placesOf(form).map(({ path }) => path));
  const remarks = new Map<string, string>();
  for (const [path, value] of given) {
    const becomes = becomesOf(path, value);
    if (becomes) remarks.set(path, becomes);
  }
  for (const [path, message] of missing()) remarks.set(path, message);
  const reading = readForm(form);
  for (const [path, message] of Object.entries(reading.ok ? {} : reading.errors)) {
    if (remarks.has(path)) continue;
    const { text, value } = quantityAt(form, path);
    const dimension = fieldsOf(form).find((each) => each.path === path)?.dimension;
    const typed = value === null || !dimension ? text : formatQuantity(value, dimension, form.system);
    const said = message.replace(`${labels.get(path)}: `, "");
    remarks.set(
      path,
      `${typed ? `comes in as it stands, ${typed}` : "comes in empty"}. To be put right on the page Machine: ${said}`,
    );
  }
  return [...remarks].map(([path, becomes]) => ({
    field: labels.get(path) ?? (path || "The numbers together"),
    becomes,
  }));

  function becomesOf(path: string, value: unknown): string | null {
    if (taken.has(path)) {
      const instead = taken.get(path);
      return instead === value
        ? null
        : `${quoted(value)} is not understood; ${quoted(instead)} is taken instead.`;
    }
    if (path === "policy.hangUpReason")
      return value === "" ? null : "left out, as hang-ups are reckoned with.";
    if (numbers.has(path))
      return typeof value === "number" && Number.isFinite(value)
        ? `${quoted(value)} is left out: it is not asked for as the machine's choices stand.`
        : `${quoted(value)} is no number: the field stays empty.`;
    if (asked.has(path)) return `${quoted(value)} is not understood and is left out.`;
    return "not known to this program; left out.";
  }

  /** What the form fills in by itself. */
  function missing(): [string, string][] {
    const policy = (request as { policy?: unknown } | null)?.policy;
    const whole = typeof policy === "object" && policy !== null;
    const own: [string, string][] = [...taken]
      .filter(([path]) => !given.has(path) && (whole || !path.startsWith("policy.")))
      .filter(([path]) => path.startsWith("policy.") || path === "projectile.shape" || isChoice(path))
      .map(([path, value]) => [path, `not in the file; ${quoted(value)} is taken.`]);
    return whole ? own : [...own, ["policy", "not in the file; the usual one is taken."]];
  }

  function isChoice(path: string): boolean {
    return askedChoices(form).some((choice) => choice.path === path);
  }
}

/** Single values by path; the names of tolerances have dots of their own. */
function leavesOf(from: unknown): Map<string, unknown> {
  const leaves = new Map<string, unknown>();
  const walk = (value: unknown, path: string, depth: number) => {
    if (typeof value !== "object" || value === null || depth > DEEPEST) {
      if (path) leaves.set(path, value);
      return;
    }
    for (const [name, inner] of Object.entries(value))
      walk(inner, path ? `${path}.${name}` : name, depth + 1);
  };
  walk(from, "", 0);
  return leaves;
}
