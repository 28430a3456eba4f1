/**
 * STOP as it goes along with a machine to another browser: of each throw what was found, not the throw itself. Pure.
 *
 * In a file it is an object of this shape; in a link one text, "hold~forward~610~215.4~2031-05-03T14:20~5~id~name".
 */
import { z } from "zod";
import { RANKS } from "../trials/log/log";
import type { Case, Sign } from "./verdict";

/** Not judged: whether such a throw, or any of a log that cannot be read, called STOP is not known. */
const CARRIED_RANKS = [...RANKS, "not-judged"] as const;
/** A link stays short: the gravest go along. */
export const MOST_IN_LINK = 3;
export const MOST_CARRIED = 50;

export const carriedSchema = z.strictObject({
  rank: z.enum(CARRIED_RANKS),
  /** Null where nothing is known of the throw. */
  way: z.enum(["forward", "backward"]).nullable(),
  /** How far it went, and beyond what; m. */
  distance: z.number().positive().max(20_000).nullable(),
  limit: z.number().min(0).max(100_000).nullable(),
  /** When it was thrown, by the clock of who wrote it down. */
  at: z.string().regex(/^(\d{4}-\d\d-\d\dT\d\d:\d\d)?$/),
  /** Of its machine's throws, from 1. */
  number: z.number().int().min(0).max(100_000),
  /** Its name in the log of who wrote it down: there it is dealt with. */
  throw: z.string().min(1).max(80),
  machine: z.string().max(200),
});
export type Carried = z.output<typeof carriedSchema>;

const rounded = (metres: number | null) => (metres === null ? null : Number(metres.toFixed(2)));

const ofSign = ({ made, number, group, finding }: Sign): Carried => ({
  rank: finding.rank,
  way: finding.way,
  distance: rounded(finding.distance),
  limit: rounded(finding.limit),
  at: made.at,
  number,
  throw: made.id,
  machine: group.name,
});

const unknown = (name: string, machine: string, at = "", number = 0): Carried => ({
  rank: "not-judged",
  way: null,
  distance: null,
  limit: null,
  at,
  number,
  throw: name,
  machine,
});

/** All that goes along, the gravest first: what stands here, what is not known here, and what came here and stands yet. */
export function carriedFrom(
  signs: readonly Sign[],
  open: readonly Case[],
  broken: boolean,
  received: readonly Carried[],
): Carried[] {
  return [
    ...signs.map(ofSign),
    ...received,
    ...open.map(({ id, group: { name, throws } }) =>
      unknown(`not-judged-${id}`, name, throws.at(-1)?.at, throws.length),
    ),
    ...(broken ? [unknown("log-not-read", "")] : []),
  ].slice(0, MOST_CARRIED);
}

export const carriedInLink = (all: readonly Carried[]): string[] =>
  all
    .slice(0, MOST_IN_LINK)
    .map(({ rank, way, distance, limit, at, number, throw: id, machine }) =>
      [rank, way, distance, limit, at, number, id, machine].map((part) => part ?? "").join("~"),
    );

const number = (text: string | undefined) => (text ? Number(text) : null);

/** What cannot be read is no reason to lose it: somebody wrote that STOP stands. */
export function carriedOutOfLink(text: string): Carried {
  const [rank, way, distance, limit, at, count, id, ...machine] = text.split("~");
  const read = carriedSchema.safeParse({
    rank,
    way: way || null,
    distance: number(distance),
    limit: number(limit),
    at,
    number: Number(count),
    throw: id,
    machine: machine.join("~"),
  });
  return read.success ? read.data : unknown(`link-${text.slice(0, 70)}`, "");
}

/** Of a file. */
export function carriedOutOfFile(given: unknown): Carried[] {
  if (given === undefined) return [];
  const list = Array.isArray(given) ? given : [given];
  return list.slice(0, MOST_CARRIED).map((each, index) => {
    const read = carriedSchema.safeParse(each);
    return read.success ? read.data : unknown(`file-${index}-${JSON.stringify(each).slice(0, 60)}`, "");
  });
}
