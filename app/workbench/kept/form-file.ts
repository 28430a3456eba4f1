/**
 * A small form of the workbench as a file that people can read and the page Share opens again:
 *
 * { "format": "fairthrow-form", "version": 1, "form": "fairthrow-before-trailer", "title": "the trailer's numbers",
 *   "reads": ["axle: 3.2 m", …], "kept": what the form keeps in a browser }
 *
 * `reads` is for people; only `kept` comes back.
 */
import { BENCH_KEY, isKnown, LOG_KEY, nameOf, RECEIVED_KEY, YARD_KEY } from "./names";

export const FORM_FORMAT = "fairthrow-form";
const VERSION = 1;
/** These have files of their own, and no file takes the place of STOP. */
const OTHERS = [BENCH_KEY, LOG_KEY, YARD_KEY, RECEIVED_KEY];

/** Null where the text is none that a form keeps. */
export function formToFile(key: string, text: string): string | null {
  const kept = objectIn(text);
  if (!kept || !isKnown(key) || OTHERS.includes(key)) return null;
  const file = {
    format: FORM_FORMAT,
    version: VERSION,
    form: key,
    title: nameOf(key),
    reads: readable(kept),
    kept,
  };
  return `${JSON.stringify(file, null, 2)}\n`;
}

export type FormFileRead =
  | { ok: true; key: string; title: string; reads: readonly string[]; text: string }
  | { ok: false; message: string };

export function formInFile({ version, form, kept }: Record<string, unknown>): FormFileRead {
  if (version !== VERSION)
    return {
      ok: false,
      message: `This file of a form is of another version than ${VERSION}, which this program reads. Open it with the program that wrote it.`,
    };
  if (typeof form !== "string" || !isKnown(form) || OTHERS.includes(form))
    return { ok: false, message: "The file is of a form that this program does not know." };
  if (typeof kept !== "object" || kept === null || Array.isArray(kept))
    return {
      ok: false,
      message: "The file holds nothing that a form could show: “kept” is missing or is no group of values.",
    };
  return { ok: true, key: form, title: nameOf(form), reads: readable(kept), text: JSON.stringify(kept) };
}

const objectIn = (text: string): object | null => {
  try {
    const found = JSON.parse(text);
    return typeof found === "object" && found !== null && !Array.isArray(found) ? found : null;
  } catch {
    return null;
  }
};

/** A form is no deeper, and a file of more lines helps nobody. */
const DEEPEST = 6;
const MOST_LINES = 400;

/** "empty mass: 320 kg": what stands in the form, line by line. */
function readable(kept: object): string[] {
  const lines: string[] = [];
  const walk = (value: unknown, names: readonly string[], depth: number) => {
    if (lines.length >= MOST_LINES || depth > DEEPEST) return;
    const typed = (value as { text?: unknown } | null)?.text;
    const single = typeof typed === "string" ? typed : value;
    if (typeof single !== "object") {
      if (single !== "") lines.push(`${names.join(", ")}: ${String(single)}`);
      return;
    }
    for (const [name, inner] of Object.entries(single ?? {})) {
      if (SILENT.includes(name)) continue;
      walk(inner, GROUPS.includes(name) ? names : [...names, inWords(name)], depth + 1);
    }
  };
  walk(kept, [], 0);
  return lines;
}

/** These only sort what is in them. */
const GROUPS = ["quantities", "choices"];
/** What tells a person nothing: names between programs, and the numbers that a finding stood on. */
const SILENT = ["id", "stood"];

/** "emptyMass" as people write it; rows are counted from 1. */
const inWords = (name: string): string =>
  /^\d+$/.test(name) ? String(Number(name) + 1) : name.replace(/([a-z])([A-Z])/g, "$1 $2").toLowerCase();
