/**
 * Checking a value against a contract, with sentences a person can act on. Pure: forms may use it in the browser and
 * say exactly what the server would.
 */
import type { z } from "zod";

export interface FieldError {
  /** Path in the body, such as `fix.distance`; "" is the body as a whole. */
  field: string;
  message: string;
}

export type Checked<T> = { ok: true; value: T } | { ok: false; errors: FieldError[] };

export function check<Schema extends z.ZodType>(schema: Schema, value: unknown): Checked<z.output<Schema>> {
  const parsed = schema.safeParse(value, { error: sentence });
  if (parsed.success) return { ok: true, value: parsed.data };
  return { ok: false, errors: fieldErrors(parsed.error) };
}

/** One error a field, in the order of the body. */
export function fieldErrors(error: z.ZodError, prefix: readonly PropertyKey[] = []): FieldError[] {
  const errors = new Map<string, FieldError>();
  const add = (path: readonly PropertyKey[], message: string) => {
    const field = path.map(String).join(".");
    if (!errors.has(field)) errors.set(field, { field, message });
  };
  for (const issue of error.issues) {
    const path = [...prefix, ...issue.path];
    if (issue.code === "unrecognized_keys")
      for (const key of issue.keys)
        add([...path, key], "This field is not known here: check its spelling or leave it out.");
    else add(path, issue.message);
  }
  return [...errors.values()];
}

const WHAT: Record<string, string> = {
  string: "a text",
  number: "a number",
  int: "a whole number",
  boolean: "true or false",
  object: "an object",
  array: "a list",
  tuple: "a list",
  record: "an object",
};

/** What zod says, as an instruction; undefined leaves zod's own words. */
function sentence(issue: z.core.$ZodRawIssue): string | undefined {
  const missing = issue.input === undefined;
  switch (issue.code) {
    case "invalid_type": {
      const what = WHAT[issue.expected] ?? issue.expected;
      if (missing) return `This is missing: give ${what}.`;
      if (typeof issue.input === "number" && !Number.isFinite(issue.input)) return "Give a finite number.";
      return `Give ${what}.`;
    }
    case "too_small":
      if (issue.origin === "string")
        return Number(issue.minimum) <= 1
          ? "Write something here."
          : `Write at least ${issue.minimum} characters.`;
      if (issue.origin === "array") return `Give at least ${issue.minimum}.`;
      return issue.inclusive ? `Give at least ${issue.minimum}.` : `Give more than ${issue.minimum}.`;
    case "too_big":
      if (issue.origin === "string") return `Write at most ${issue.maximum} characters.`;
      if (issue.origin === "array") return `Give at most ${issue.maximum}.`;
      return issue.inclusive ? `Give at most ${issue.maximum}.` : `Give less than ${issue.maximum}.`;
    case "invalid_value":
      return issue.values.length === 1
        ? `Give ${String(issue.values[0])}.`
        : `Give one of ${issue.values.map((value) => String(value)).join(", ")}.`;
    case "invalid_format":
      if (issue.format === "datetime")
        return "Give a date and time with its offset, such as 2031-10-04T14:30:00+02:00.";
      if (issue.format === "date") return "Give a date as year-month-day, such as 2031-10-04.";
      return undefined;
    case "invalid_union":
      if (typeof issue.discriminator === "string") {
        const options = issue.options as unknown;
        if (Array.isArray(options) && options.length > 0)
          return `Give one of ${options.map(String).join(", ")}.`;
        return "Give one of the kinds that are documented.";
      }
      return missing ? "This is missing." : "This fits none of the forms that are documented.";
    default:
      return undefined;
  }
}
