/**
 * A machine in the hash of a link: its version, how long it is, its check sum, then everything that is asked for, in SI by
 * path. What stands in front is still there when a link is cut at its end.
 *
 *   ?machine=behind#fairthrow=2.417.1C291CA3&kind=spinning-arm&machine.armLength=1.2…
 *
 * The word before the hash tells a link that was cut there. Version 3 is version 2 with what calls STOP among practice
 * throws, one “stop” for each and perhaps none; a link of version 2 says nothing of them. Length and check sum are of the part behind, written anew from what was read: a program on the way that writes the same
 * characters in another way (%20 for +) does no harm.
 */
import type { UnitSystem } from "@/app/_ui/units-cookie";
import { GROUND_FIRMNESS, PROJECTILE_SHAPES } from "@/lib/throw";
import { crc32 } from "./crc32";
import { choicesOf, everyField, KINDS, type Kind, startingValues } from "./fields";
import { formFromLink } from "./memory";
import {
  askedChoices,
  choiceAt,
  type FormState,
  fieldsOf,
  type Options,
  quantityAt,
  startingOptions,
} from "./state";

const MARK = "fairthrow";
/** Version 1 had no mark and no check sum; what it has means the same. */
const [VERSION, WITH_STOPS] = [2, 3];
/** In the search of an address that goes on with a machine. */
const BEHIND = "machine";
const STOP = "stop";

/** What stands in front of the numbers. */
const HEAD = /^(\d{1,3})\.(\d{1,6})\.([0-9A-F]{8})$/i;

export type LinkRead =
  | { state: "none" }
  /** Unchecked: of the version without a check sum. */
  | {
      state: "open";
      form: FormState;
      checked: boolean;
      /** What calls STOP among its practice throws, as whoever made the link wrote it; null where it says nothing of them. */
      stops: readonly string[] | null;
    }
  /** What is wrong with it, in a sentence. */
  | { state: "refused"; why: string };

/** The address of a page with a machine behind it. */
export function linkTo(page: string, hash: string, search: Readonly<Record<string, string>> = {}): string {
  return `${page}?${new URLSearchParams({ ...search, [BEHIND]: "behind" })}#${hash}`;
}

/** @param stops of its practice throws, where they are known */
export function formToHash(state: FormState, stops?: readonly string[]): string {
  const start = startingValues(state.kind);
  const parameters = new URLSearchParams({ kind: state.kind });
  for (const spec of askedChoices(state)) {
    const value = choiceAt(state, spec);
    if (value !== spec.options[0]?.value) parameters.set(spec.path, value);
  }
  for (const { path } of fieldsOf(state)) {
    const { value } = quantityAt(state, path);
    if (value !== null && !(path.startsWith("policy.") && value === start[path])) {
      parameters.set(path, String(value));
    }
  }
  for (const [name, value] of Object.entries(state.options)) {
    if (value !== startingOptions[name as keyof Options]) parameters.set(name, String(value));
  }
  for (const stop of stops ?? []) parameters.append(STOP, stop);
  const numbers = parameters.toString();
  return `${MARK}=${stops ? WITH_STOPS : VERSION}.${numbers.length}.${crc32(numbers)}&${numbers}`;
}

/** What an address brings: one that was to bring a machine and ends before it says so. */
export function readAddress(
  { search, hash }: Pick<Location, "search" | "hash">,
  system: UnitSystem,
): LinkRead {
  const read = readLink(hash, system);
  return read.state === "none" && hash.length <= MARK.length / 2 && new URLSearchParams(search).has(BEHIND)
    ? {
        state: "refused",
        why: "It is cut off before its “#”: all that holds the machine is missing, and only the page has come.",
      }
    : read;
}

/** The search of an address whose machine was taken. */
export function withoutMachine(search: string): string {
  const left = new URLSearchParams(search);
  left.delete(BEHIND);
  return left.size > 0 ? `?${left}` : "";
}

/** The form that a shared link describes, whole or not at all. */
export function readLink(hash: string, system: UnitSystem): LinkRead {
  const text = hash.replace(/^#/, "");
  const cutInMark = text.length > 3 && MARK.startsWith(text);
  // The names of fields and headings have no "=".
  if (!cutInMark && !/=|%3D/i.test(text)) return { state: "none" };
  const parameters = new URLSearchParams(text);
  const marked = cutInMark || text.startsWith(MARK) || parameters.has(MARK);
  const why = marked ? wrongIn(parameters) : null;
  if (why) return { state: "refused", why };
  const known = parameters.get(MARK)?.startsWith(`${WITH_STOPS}.`);
  const stops = known ? parameters.getAll(STOP) : null;
  parameters.delete(MARK);
  if (known) parameters.delete(STOP);
  const read = numbersIn(parameters, system);
  return typeof read === "string"
    ? { state: "refused", why: read }
    : { state: "open", form: read, checked: marked, stops };
}

/** Why a link with a mark does not hold; null when it does. */
function wrongIn(parameters: URLSearchParams): string | null {
  const mark = parameters.get(MARK) ?? "";
  const [, version, length, sum] = HEAD.exec(mark) ?? [];
  const numbers = new URLSearchParams([...parameters].filter(([name]) => name !== MARK)).toString();
  if (version === undefined) return "It is cut off near its beginning, or was changed on the way.";
  if (Number(version) !== VERSION && Number(version) !== WITH_STOPS)
    return `It is of version ${version}, and this program reads versions up to ${WITH_STOPS}: a newer program made it, or it was changed on the way.`;
  if (numbers.length < Number(length))
    return `It is cut off, or something is missing inside: fewer than its ${length} characters have come.`;
  if (numbers.length > Number(length))
    return `It was changed on the way: it has more than its ${length} characters. Words that stood behind it may have come along.`;
  return crc32(numbers) === sum?.toUpperCase()
    ? null
    : "It was changed on the way: its numbers do not fit its check sum.";
}

/** Every part must be understood: a form with gaps would be another machine. */
function numbersIn(parameters: URLSearchParams, system: UnitSystem): FormState | string {
  const kind = KINDS.find((each) => each === parameters.get("kind"));
  if (!kind) return "It names no kind of machine that this program knows.";
  const known = everythingOf(kind);
  const values: Record<string, number> = {};
  for (const [name, text] of parameters) {
    const options = known.get(name);
    if (options === undefined) return `It names “${name.slice(0, 60)}”, which this program does not know.`;
    if (parameters.getAll(name).length > 1) return `It says “${name}” twice.`;
    if (options === "number") {
      values[name] = text.trim() === "" ? Number.NaN : Number(text);
      if (!Number.isFinite(values[name])) return `What it says of “${name}” is no number.`;
    } else if (options !== "words" && !options.includes(text))
      return `What it says of “${name}” is not known to this program.`;
  }
  return formFromLink(kind, values, Object.fromEntries(parameters), system);
}

/** What a link may say of a kind: a number, words, or one of these. */
function everythingOf(kind: Kind): Map<string, "number" | "words" | readonly string[]> {
  return new Map<string, "number" | "words" | readonly string[]>([
    ...everyField(kind).map(({ path }) => [path, "number"] as const),
    ...choicesOf(kind).map(({ path, options }) => [path, options.map(({ value }) => value)] as const),
    ["kind", [kind]],
    ["shape", PROJECTILE_SHAPES],
    ["ground", GROUND_FIRMNESS],
    ["hangUp", ["true", "false"]],
    ["hangUpReason", "words"],
  ]);
}
