/** A line of the landing log as it is typed in: from fields to the API's entry, or what is wrong with them. Pure. */
import { longDay } from "@/app/_ui/words";
import type { FixRequest } from "@/lib/api/contracts";
import type { FixMethod } from "@/lib/survey";
import type { UnitSystem } from "@/lib/units";
import { TIME_COLUMN, WITNESS_COLUMN } from "../../landing-log/columns";
import { type Complaints, type Draft, emptyDraft, type Values } from "../draft";
import { type JudgeShot, type Range, readDraft } from "../entry";

/** What stands at the head of the log, once for all lines. */
export interface PaperHead {
  /** YYYY-MM-DD on the clocks here. */
  day: string;
  method: FixMethod;
  /** For lines that name none. */
  witness: string;
}

export interface PaperRow {
  outcome: NonNullable<Draft["outcome"]>;
  /** By method, as in a judge's draft. */
  values: Draft["values"];
  time: string;
  witness: string;
}

export const emptyRow: PaperRow = { outcome: "landed", values: {}, time: "", witness: "" };

const says = (cell: Values[string] | undefined): boolean =>
  typeof cell === "string"
    ? cell !== ""
    : Array.isArray(cell)
      ? cell.some((row) => Object.values(row).some(says))
      : cell !== undefined && cell.text.trim() !== "";

/** Whether anything is typed in the line by the method of the head. */
export const isTouched = ({ outcome, values, time, witness }: PaperRow, method: FixMethod): boolean =>
  outcome !== "landed" ||
  time.trim() !== "" ||
  witness.trim() !== "" ||
  Object.values(values[method] ?? {}).some(says);

/** "10:42", "10:42:07", "1042", "10.42", "2:15 pm" as [hours, minutes, seconds]; null when it is no time of day. */
export function readTime(text: string): [number, number, number] | null {
  const typed = text.trim().toLowerCase();
  const found =
    /^(\d{1,2})[:.h ](\d{2})(?:[:. ](\d{2}))?\s*([ap])?\.?(?:m\.?)?$/.exec(typed) ??
    /^(\d{2})(\d{2})(\d{2})?$/.exec(typed);
  if (!found) return null;
  const [, h, m, s = "0", half] = found;
  const [hours, minutes, seconds] = [Number(h), Number(m), Number(s)];
  if (minutes > 59 || seconds > 59 || hours > 23) return null;
  if (half === undefined) return [hours, minutes, seconds];
  if (hours < 1 || hours > 12) return null;
  return [(hours % 12) + (half === "p" ? 12 : 0), minutes, seconds];
}

/** A time of day on a day as the clocks here show it; null when it is none. */
export function seenAt(day: string, time: string): Date | null {
  const [year, month, date] = day.split("-").map(Number);
  const clock = readTime(time);
  if (!year || !month || !date || !clock) return null;
  return new Date(year, month - 1, date, ...clock);
}

/** The day and the time of day as the clocks here show them. */
export function clockHere(at: Date): { day: string; time: string } {
  const two = (value: number) => String(value).padStart(2, "0");
  return {
    day: `${at.getFullYear()}-${two(at.getMonth() + 1)}-${two(at.getDate())}`,
    time: [at.getHours(), at.getMinutes(), at.getSeconds()].map(two).join(":"),
  };
}

/** The days of a contest, YYYY-MM-DD. */
export interface Days {
  date: string;
  lastDate?: string | null | undefined;
}

/**
 * The day that needs no asking: the contest's only or first one, and today before it, when things are tried out. Later
 * it may be any of several, and a wrong one would look right: it has to be chosen.
 */
export function usualDay({ date, lastDate }: Days, today: string): string {
  if (today < date) return today;
  return today === date || !lastDate || lastDate === date ? date : "";
}

export type PaperReading = { ok: true; body: FixRequest } | { ok: false; complaints: Complaints };

/** Complaints are by field: `time`, `witness`, `outcome`, and the method's own. The day is the head's to complain of. */
export function readRow(
  row: PaperRow,
  head: PaperHead,
  shot: JudgeShot,
  range: Range,
  system: UnitSystem,
  now: Date,
): PaperReading {
  const draft: Draft = { ...emptyDraft, outcome: row.outcome, method: head.method, values: row.values };
  const reading = readDraft(draft, shot, range, false, system);
  const complaints: Complaints = reading.ok ? {} : { ...reading.complaints };
  const at = seenAt(head.day, row.time);
  if (row.time.trim() === "") complaints.time = `${TIME_COLUMN}: enter it as on the log, such as 10:42.`;
  else if (readTime(row.time) === null)
    complaints.time = `${TIME_COLUMN}: write it as 10:42, 10:42:07 or 2:15 pm.`;
  else if (at && at > now)
    complaints.time = `${TIME_COLUMN}: on ${longDay(head.day)} this is still to come. Check the time and the day.`;
  const witness = row.witness.trim() || head.witness.trim();
  if (witness === "")
    complaints.witness = `${WITNESS_COLUMN}: enter the post or the role that saw it, here or at the top for all lines.`;
  else if (witness.length > 80) complaints.witness = `${WITNESS_COLUMN}: keep it within 80 characters.`;
  if (!reading.ok || !at || Object.keys(complaints).length > 0) return { ok: false, complaints };
  return { ok: true, body: { fix: reading.fix, observedAt: at.toISOString(), witness } };
}
