/**
 * What is written of a shot on paper, in the order in which the printed log has its columns and the form that it is
 * typed into has its fields. Pure.
 */
import { type FixMethod, METHODS } from "@/lib/survey";
import { arranged } from "../judge/arranged";
import { fieldsOf } from "../judge/draft";

export interface LogColumn {
  key: string;
  head: string;
}

/** What can be written on one line: the same few numbers for every shot. */
export const PAPER_METHODS = METHODS.filter(
  ({ coarse, fields }) =>
    !coarse && fields.every((field) => field.type !== "list" || field.fewest === field.most),
);
export const isPaperMethod = (method: unknown): method is FixMethod =>
  PAPER_METHODS.some((one) => one.method === method);

export const USUAL_PAPER_METHOD: FixMethod = "bearing-distance";

export const OUTCOME_COLUMN = "What happened";
export const TIME_COLUMN = "Time seen";
export const WITNESS_COLUMN = "Witness (post)";

export function logColumns(
  method: FixMethod,
  range: { pegs: readonly unknown[]; declination: number },
): LogColumn[] {
  const { position, measured, chosen } = arranged(fieldsOf(method), {}, range);
  const columns: LogColumn[] = [{ key: "outcome", head: OUTCOME_COLUMN }];
  if (position) columns.push({ key: "position", head: "Latitude, longitude" });
  for (const field of [...measured, ...chosen]) {
    if (field.type === "list")
      for (let row = 1; row <= field.fewest; row++)
        for (const { name, label, required } of field.fields)
          if (required) columns.push({ key: `${name} ${row}`, head: `${row}. ${label}` });
    if (field.type !== "list") columns.push({ key: field.name, head: field.label });
  }
  return [
    ...columns,
    { key: "time", head: TIME_COLUMN },
    { key: "witness", head: WITNESS_COLUMN },
    { key: "typed", head: "Typed in" },
  ];
}
