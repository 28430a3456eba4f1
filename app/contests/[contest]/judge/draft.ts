/** What a judge has typed of one shot: by method of lib/survey, each field as it stands. Pure. */
import { positionText, readPosition } from "@/app/_ui/position";
import { type Quantity, quantityOf, quantityProblem } from "@/app/_ui/quantity-field";
import type { FixRequest } from "@/lib/api/contracts";
import { type Field, type Fix, type FixMethod, type FixOutcome, METHODS } from "@/lib/survey";
import type { UnitSystem } from "@/lib/units";

/** A quantity, a chosen word, or the rows of a list. */
export type Cell = Quantity | string | Values[];
export interface Values {
  [field: string]: Cell;
}

export interface Draft {
  outcome: FixOutcome | null;
  method: FixMethod;
  /** By method: who changes to and fro finds what was typed. */
  values: Partial<Record<FixMethod, Values>>;
  /** Why an earlier entry is corrected. */
  reason: string;
  /** Of an entry that came back to be put right: when and by whom it was seen does not change with that. */
  seen?: Pick<FixRequest, "observedAt" | "witness">;
}

export const emptyDraft: Draft = { outcome: null, method: "bearing-distance", values: {}, reason: "" };

/** Latitude and longitude are typed as one text under this name. */
export const POSITION = "position";
export const nothing: Quantity = { text: "", value: null };

/** Complaints by field of the form: `distance`, or `bearings.0.bearing` in a list. */
export type Complaints = Record<string, string>;

export const fieldsOf = (method: FixMethod): readonly Field[] =>
  METHODS.find((one) => one.method === method)?.fields ?? [];

export const hasPosition = (fields: readonly Field[]): boolean =>
  ["latitude", "longitude"].every((name) => fields.some((field) => field.name === name));

/** A field is asked for while the choice that it hangs on stands so. */
export const isAsked = ({ when }: Field, values: Values): boolean =>
  when === undefined || values[when.choice] === when.is;

export const quantityIn = (values: Values, name: string): Quantity => {
  const cell = values[name];
  return cell && typeof cell === "object" && "text" in cell ? (cell as Quantity) : nothing;
};
export const wordIn = (values: Values, name: string): string => {
  const cell = values[name];
  return typeof cell === "string" ? cell : "";
};

/** Rows of a list: never fewer than it needs. */
export const rowsIn = (values: Values, field: Extract<Field, { type: "list" }>): Values[] => {
  const cell = values[field.name];
  const rows = Array.isArray(cell) ? cell : [];
  return [...rows, ...Array.from({ length: Math.max(0, field.fewest - rows.length) }, () => ({}))];
};

/** The values as the API takes them; what is missing or unreadable is complained of. */
export function rawOf(
  fields: readonly Field[],
  values: Values,
  declination: number,
  system: UnitSystem,
  complaints: Complaints,
  path = "",
): Record<string, unknown> {
  const raw: Record<string, unknown> = {};
  const together = hasPosition(fields);
  if (together) {
    const read = readPosition(wordIn(values, POSITION));
    if (read.ok) Object.assign(raw, read.position);
    else complaints[path + POSITION] = read.message;
  }
  for (const field of fields) {
    const { name, label, required } = field;
    if (!isAsked(field, values) || (together && (name === "latitude" || name === "longitude"))) continue;
    if (field.type === "number") {
      const quantity = quantityIn(values, name);
      if (quantity.value !== null) raw[name] = quantity.value;
      else if (quantity.text.trim() !== "")
        complaints[path + name] =
          quantityProblem(label, quantity, field.dimension, system) ?? `${label}: enter it anew.`;
      else if (required) complaints[path + name] = `${label}: enter it.`;
    } else if (field.type === "list") {
      raw[name] = rowsIn(values, field).map((row, index) =>
        rawOf(field.fields, row, declination, system, complaints, `${path}${name}.${index}.`),
      );
    } else {
      const word = wordIn(values, name);
      if (word !== "") raw[name] = name === "accuracyLevel" ? Number(word) : word;
      else if (required) complaints[path + name] = `${label}: choose it.`;
    }
  }
  // The site's, entered once.
  if (raw.north === "magnetic" && raw.declination === undefined) raw.declination = declination;
  return raw;
}

function valuesOf(fields: readonly Field[], fix: Record<string, unknown>, system: UnitSystem): Values {
  const values: Values = {};
  if (hasPosition(fields))
    values[POSITION] = positionText({ latitude: Number(fix.latitude), longitude: Number(fix.longitude) });
  for (const field of fields) {
    const found = fix[field.name];
    if (found === undefined) continue;
    if (field.type === "number") values[field.name] = quantityOf(Number(found), field.dimension, system);
    else if (field.type === "list")
      values[field.name] = (found as Record<string, unknown>[]).map((row) =>
        valuesOf(field.fields, row, system),
      );
    else values[field.name] = String(found);
  }
  return values;
}

/** An entry brought back into the form, with when it was seen. */
export const draftOfEntry = (
  { fix, reason = "", observedAt, witness }: FixRequest,
  system: UnitSystem,
): Draft => ({
  ...draftOf(fix, reason, system),
  seen: { ...(observedAt !== undefined && { observedAt }), ...(witness !== undefined && { witness }) },
});

/** What was measured, as the form's fields. */
export function draftOf(fix: Fix, reason: string, system: UnitSystem): Draft {
  if (fix.outcome !== "landed") return { ...emptyDraft, outcome: fix.outcome, reason };
  const { outcome, method } = fix;
  return {
    outcome,
    method,
    values: { [method]: valuesOf(fieldsOf(method), fix as Record<string, unknown>, system) },
    reason,
  };
}
