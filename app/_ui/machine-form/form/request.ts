/** From the form to the API's request, and from a contract's or the server's errors back to fields. */
import type { z } from "zod";
import { quantityProblem } from "@/app/_ui/quantity-field";
import type { UnitSystem } from "@/app/_ui/units-cookie";
import { type HazardRequest, hazardRequestSchema } from "@/lib/throw";
import { type Dimension, formatQuantity, parseQuantity } from "@/lib/units";
import { type FieldSpec, tablesOf } from "./fields";
import { at, place } from "./specs";
import { askedChoices, choiceAt, type FormState, fieldsOf, quantityAt } from "./state";

/** Sentences by field path; "" is for what belongs to no field. */
export type FieldErrors = Readonly<Record<string, string>>;

export type Reading = { ok: true; request: HazardRequest; body: object } | { ok: false; errors: FieldErrors };

/** The request as the server gets it: only what was entered; the contract fills in its defaults. */
export function requestBody(state: FormState): Record<string, unknown> {
  const body: Record<string, unknown> = { machine: { kind: state.kind }, projectile: {} };
  for (const spec of askedChoices(state)) {
    const value = choiceAt(state, spec);
    const written = spec.writes ? (spec.writes[value] ?? { [spec.path]: value }) : { [spec.path]: value };
    for (const [path, each] of Object.entries(written)) place(body, path, each);
  }
  for (const { path } of fieldsOf(state)) {
    const { value } = quantityAt(state, path);
    if (value !== null) place(body, path, value);
  }
  const sections = at(body, "strengths.arm.sections") as Record<string, { shape: unknown }> | undefined;
  // A tapering arm keeps its shape.
  if (sections?.tip) sections.tip.shape = sections.pivot?.shape;
  place(body, "projectile.shape", state.options.shape);
  place(body, "policy.ground", state.options.ground);
  place(body, "policy.hangUp", state.options.hangUp);
  if (!state.options.hangUp) place(body, "policy.hangUpReason", state.options.hangUpReason);
  return body;
}

export function readForm(state: FormState): Reading {
  const errors: Record<string, string> = {};
  for (const { path, label, dimension, optional } of fieldsOf(state)) {
    const problem = quantityProblem(label, quantityAt(state, path), dimension, state.system, optional);
    if (problem) errors[path] = problem;
  }
  const { value: temperature } = quantityAt(state, "air.temperature");
  if (temperature !== null && temperature < COLDEST) {
    errors["air.temperature"] = (OWN_SENTENCES["air.temperature"] as (system: UnitSystem) => string)(
      state.system,
    );
  }
  const body = requestBody(state);
  const parsed = hazardRequestSchema.safeParse(body);
  if (parsed.success) {
    return Object.keys(errors).length ? { ok: false, errors } : { ok: true, request: parsed.data, body };
  }
  for (const issue of parsed.error.issues) {
    const path = issue.path.join(".");
    const known = placeOf(state, path);
    // What cannot be read is said already, in terms of what was typed.
    const key = known?.path ?? (path === "policy.hangUpReason" ? path : "");
    errors[key] ??= issueSentence(issue, known, state.system);
  }
  return { ok: false, errors };
}

/** Where an error of the contract or the server belongs: a field, or else a choice or a table that holds it. */
type Place = { path: string; label: string } & Partial<Pick<FieldSpec, "dimension">>;

export const placesOf = (state: FormState): Place[] => [
  ...fieldsOf(state),
  ...askedChoices(state),
  ...tablesOf(state.kind),
];

function placeOf(state: FormState, path: string): Place | undefined {
  const places = placesOf(state);
  const exact = places.find((each) => each.path === path);
  if (exact) return exact;
  const around = places.filter((each) => path.startsWith(`${each.path}.`));
  const within = places.filter((each) => each.path.startsWith(`${path}.`));
  return around.sort((a, b) => b.path.length - a.path.length)[0] ?? within[0];
}

function issueSentence(issue: z.core.$ZodIssue, spec: Place | undefined, system: UnitSystem): string {
  if (!spec) return issue.message;
  const own = OWN_SENTENCES[spec.path];
  if (own && issue.code === "custom") return own(system);
  const { dimension } = spec;
  if (dimension === undefined) return named(spec.label, issue.message);
  const bound = (value: number | bigint) => exactly(Number(value), dimension, system);
  if (issue.code === "too_small") {
    const least = issue.inclusive ? `at least ${bound(issue.minimum)}` : `more than ${bound(issue.minimum)}`;
    return `${spec.label}: enter ${least}.`;
  }
  if (issue.code === "too_big") return `${spec.label}: enter at most ${bound(issue.maximum)}.`;
  if (issue.code === "invalid_type") return `${spec.label}: enter a number.`;
  return named(spec.label, issue.message);
}

/** A bound with as many digits as it takes: 0.001 kg must not read as 0 kg. */
function exactly(value: number, dimension: Dimension, system: UnitSystem): string {
  for (let digits = 0; digits < 6; digits++) {
    const text = formatQuantity(value, dimension, system, { digits });
    const read = parseQuantity(text, dimension, system);
    if (read.ok && Math.abs(read.value - value) <= 0.005 * Math.abs(value)) return text;
  }
  return formatQuantity(value, dimension, system);
}

/** Least temperature the form takes, −90 °C in K: what the contract reads as degrees Celsius lies far below. */
const COLDEST = 183.15;

/** Where the contract speaks of the API's units, which the reader of a form never sees. */
const OWN_SENTENCES: Readonly<Record<string, (system: UnitSystem) => string>> = {
  "air.temperature": (system) =>
    `Air temperature: enter at least ${formatQuantity(COLDEST, "temperature", system)}.`,
  "air.pressure": (system) =>
    `Station pressure: enter at least ${formatQuantity(30_000, "pressure", system)}, or 0 for no air at all.`,
};

/** A sentence that names its field, once. */
const named = (label: string, message: string) =>
  message.toLowerCase().includes(label.toLowerCase()) ? message : `${label}: ${message}`;

/** The errors of a problem document (RFC 9457), by field; its detail when it names none. */
export function problemErrors(
  state: FormState,
  problem: { detail?: string; title?: string; errors?: { field: string; message: string }[] },
): FieldErrors {
  const errors: Record<string, string> = {};
  for (const { field, message } of problem.errors ?? []) {
    const spec = placeOf(state, field);
    const key = spec?.path ?? "";
    errors[key] ??= spec ? named(spec.label, message) : field ? `${field}: ${message}` : message;
  }
  if (Object.keys(errors).length === 0) errors[""] = problem.detail ?? problem.title ?? "The server refused.";
  return errors;
}
