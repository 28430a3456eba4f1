/** What a contract finds wrong, as a sentence that names the field and its range in the reader's units. Pure. */
import type { z } from "zod";
import { type Dimension, formatQuantity, parseQuantity, type UnitSystem } from "@/lib/units";
import { inWords } from "./hazard-sheet/words";

export type Issue = z.core.$ZodIssue;

/** How a field is called, and in which dimension its number is; without one it is a choice or a list. */
export interface IssueField {
  label: string;
  dimension?: Dimension | undefined;
}

/**
 * The issues of what was meant: where one of several shapes fits, those of the shape that comes nearest, each with its
 * whole path.
 */
export function leafIssues(issues: readonly Issue[]): Issue[] {
  return issues.flatMap((issue): Issue[] => {
    if (issue.code !== "invalid_union" || issue.errors.length === 0) return [issue];
    const shapes = issue.errors.map((errors) => leafIssues(errors));
    const [nearest] = shapes.sort((a, b) => strangeness(a) - strangeness(b));
    return (nearest ?? []).map((leaf) => ({ ...leaf, path: [...issue.path, ...leaf.path] }));
  });
}

/** How little a shape has to do with what was given: fields that it does not know weigh more than numbers out of range. */
function strangeness(issues: readonly Issue[]): number {
  let sum = 0;
  for (const issue of issues) {
    if (issue.code === "unrecognized_keys") sum += 100 * issue.keys.length;
    else if (issue.path.length === 0) sum += 1000;
    else sum += 1;
  }
  return sum;
}

/**
 * @param kind of machine, whose parameters' own names a sentence of the engine may hold
 */
export function issueSentence(
  issue: Issue,
  { label, dimension }: IssueField,
  system: UnitSystem,
  kind = "",
): string {
  const bound = (value: number | bigint) =>
    dimension === undefined ? String(value) : boundText(Number(value), dimension, system);
  switch (issue.code) {
    case "custom":
      return named(label, inWords(issue.message, kind, system));
    case "too_small":
      if (issue.origin === "array") return `${label}: give at least ${issue.minimum} points.`;
      if (issue.origin === "string") return `${label}: write something here.`;
      return `${label}: enter ${issue.inclusive ? "at least" : "more than"} ${bound(issue.minimum)}.`;
    case "too_big":
      if (issue.origin === "array") return `${label}: give at most ${issue.maximum} points.`;
      if (issue.origin === "string") return `${label}: write at most ${issue.maximum} characters.`;
      return `${label}: enter ${issue.inclusive ? "at most" : "less than"} ${bound(issue.maximum)}.`;
    case "invalid_type":
      if (dimension === undefined) return `${label}: this is missing. Fill it in.`;
      return issue.expected === "int" ? `${label}: enter a whole number.` : `${label}: enter a number.`;
    case "invalid_value":
      return `${label}: choose one of what is offered.`;
    default:
      return `${label}: this cannot be used as it stands. Correct it, or leave it empty if it may be.`;
  }
}

/** What belongs to no field of ours. */
export const strayIssue = (issue: Issue, kind: string, system: UnitSystem): string =>
  issue.code === "custom"
    ? inWords(issue.message, kind, system)
    : `“${issue.path.join(", ") || "These numbers"}” cannot be used as given. Take it back to what it was.`;

/** A sentence that names its field, once. */
export const named = (label: string, message: string) =>
  message.toLowerCase().includes(label.toLowerCase()) ? message : `${label}: ${message}`;

/** A bound with as many digits as it takes: 0.001 kg must not read as 0 kg. */
function boundText(value: number, dimension: Dimension, system: UnitSystem): string {
  for (let digits = 0; digits < 6; digits++) {
    const text = formatQuantity(value, dimension, system, { digits });
    const read = parseQuantity(text, dimension, system);
    if (read.ok && Math.abs(read.value - value) <= 0.005 * Math.abs(value)) return text;
  }
  return formatQuantity(value, dimension, system);
}
