/** From the form to the API's request, and from a contract's or the server's errors back to fields. */
import { type Issue, issueSentence, leafIssues, named, strayIssue } from "@/app/_ui/issue-words";
import { quantityProblem } from "@/app/_ui/quantity-field";
import type { UnitSystem } from "@/app/_ui/units-cookie";
import { type HazardRequest, hazardRequestSchema } from "@/lib/throw";
import { formatQuantity } from "@/lib/units";
import { choicesOf, everyField, type FieldSpec, type Kind, tablesOf } from "./fields";
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
  for (const issue of leafIssues(parsed.error.issues)) {
    const path = issue.path.join(".");
    const known = placeOf(state, path);
    // What cannot be read is said already, in terms of what was typed.
    const key = known?.path ?? (path === "policy.hangUpReason" ? path : "");
    errors[key] ??= sentenceOf(issue, known, state.kind, state.system);
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

const everyPlace = (kind: Kind): Place[] => [...everyField(kind), ...choicesOf(kind), ...tablesOf(kind)];

const placeOf = (state: FormState, path: string): Place | undefined => placeIn(placesOf(state), path);

function placeIn(places: readonly Place[], path: string): Place | undefined {
  const exact = places.find((each) => each.path === path);
  if (exact) return exact;
  const around = places.filter((each) => path.startsWith(`${each.path}.`));
  const within = places.filter((each) => each.path.startsWith(`${path}.`));
  return around.sort((a, b) => b.path.length - a.path.length)[0] ?? within[0];
}

/** What is wrong with a request that no form holds, such as one that sliders turn; null where nothing is. */
export function requestProblem(request: HazardRequest, system: UnitSystem): string | null {
  const parsed = hazardRequestSchema.safeParse(request);
  if (parsed.success) return null;
  const { kind } = request.machine;
  const [issue] = leafIssues(parsed.error.issues);
  if (!issue) return null;
  return sentenceOf(issue, placeIn(everyPlace(kind), issue.path.join(".")), kind, system);
}

function sentenceOf(issue: Issue, place: Place | undefined, kind: Kind, system: UnitSystem): string {
  if (!place) return strayIssue(issue, kind, system);
  const own = OWN_SENTENCES[place.path];
  return own && issue.code === "custom" ? own(system) : issueSentence(issue, place, system, kind);
}

/** Least temperature the form takes, −90 °C in K: what the contract reads as degrees Celsius lies far below. */
const COLDEST = 183.15;

/** Where the contract speaks of the API's units, which the reader of a form never sees. */
const OWN_SENTENCES: Readonly<Partial<Record<string, (system: UnitSystem) => string>>> = {
  "air.temperature": (system) =>
    `Air temperature: enter at least ${formatQuantity(COLDEST, "temperature", system)}.`,
  "air.pressure": (system) =>
    `Station pressure: enter at least ${formatQuantity(30_000, "pressure", system)}, or 0 for no air at all.`,
};

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
