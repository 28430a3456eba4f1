/** Refusals: what a command or query throws when the answer is no, with the words that say what to do. */
import type { z } from "zod";
import { check, type FieldError } from "../api/check";

const NAME = "Refusal";

export class Refusal extends Error {
  override name = NAME;
  constructor(
    readonly status: number,
    /** Stable word for programs. */
    readonly code: string,
    /** A sentence that says what to do. */
    readonly detail: string,
    readonly errors: FieldError[] = [],
    /** Further members of the problem document. */
    readonly more: Record<string, unknown> = {},
    /** s; sent as Retry-After. */
    readonly retryAfter?: number,
  ) {
    super(detail);
  }
}

/** By name, not by class: the bundler makes several copies of a module. */
export function isRefusal(error: unknown): error is Refusal {
  return error instanceof Error && error.name === NAME;
}

/** Parses by the contract, or refuses with every field that is wrong. */
export function parse<Schema extends z.ZodType>(schema: Schema, value: unknown): z.output<Schema> {
  const checked = check(schema, value);
  if (checked.ok) return checked.value;
  throw new Refusal(422, "invalid", summary(checked.errors), checked.errors);
}

function summary(errors: readonly FieldError[]): string {
  const first = errors[0];
  if (!first) return "Something in this request cannot be right.";
  const more = errors.length > 1 ? ` ${errors.length - 1} more to put right.` : "";
  return `${first.field ? `${first.field}: ` : ""}${first.message}${more}`;
}

/** Only what a change names. */
export function given<T extends object>(change: T): { [K in keyof T]?: Exclude<T[K], undefined> } {
  return Object.fromEntries(Object.entries(change).filter(([, value]) => value !== undefined)) as {
    [K in keyof T]?: Exclude<T[K], undefined>;
  };
}

export function invalid(field: string, message: string): Refusal {
  return new Refusal(422, "invalid", `${field}: ${message}`, [{ field, message }]);
}

export function notFound(what: string): Refusal {
  return new Refusal(
    404,
    "not-found",
    `There is no such ${what}. Check the address, or go back to the list.`,
  );
}

/** Something else has it already: a name, a number. */
export function taken(field: string, message: string): Refusal {
  return new Refusal(409, "taken", `${field}: ${message}`, [{ field, message }]);
}

export function conflict(code: string, detail: string, more: Record<string, unknown> = {}): Refusal {
  return new Refusal(409, code, detail, [], more);
}

/** Runs a check whose refusals name fields of one item. */
export function within<T>(path: string, work: () => T): T {
  try {
    return work();
  } catch (error) {
    if (!isRefusal(error)) throw error;
    const errors = error.errors.map(({ field, message }) => ({ field: `${path}.${field}`, message }));
    const [first] = errors;
    throw new Refusal(
      error.status,
      error.code,
      first ? `${first.field}: ${first.message}` : error.detail,
      errors,
    );
  }
}
