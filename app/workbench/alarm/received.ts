/** STOP that came with a machine of somebody else's browser: it stands here until it is answered here. Pure. */
import { z } from "zod";
import { type Carried, carriedSchema } from "./carried";

const receivedSchema = carriedSchema.extend({
  /** How it came: a file's name, or a link. */
  from: z.string().max(200),
  answer: z.strictObject({ at: z.string().max(16), reason: z.string().max(500) }).optional(),
});
export type Received = z.output<typeof receivedSchema>;

export const asCarried = ({ from: _, answer: __, ...carried }: Received): Carried => carried;

/** More would not be read by anybody; those that are answered go first. */
const MOST = 200;
const keptSchema = z.strictObject({ version: z.literal(1), stops: z.array(receivedSchema).max(MOST) });

export const receivedToText = (stops: readonly Received[]): string =>
  JSON.stringify({ version: 1, stops: [...stops].sort((a, b) => (nameOf(a) < nameOf(b) ? -1 : 1)) });

/** Null where the text is none of ours. */
export function receivedFromText(text: string | null): Received[] | null {
  if (text === null) return [];
  try {
    const read = keptSchema.safeParse(JSON.parse(text));
    return read.success ? read.data.stops : null;
  } catch {
    return null;
  }
}

/** One that comes again is the same one; found to be worse, it is another, which no earlier answer was given to. */
export const nameOf = ({ throw: id, rank, distance }: Carried): string => `${id} ${rank} ${distance}`;

export const stands = ({ answer }: Received): boolean => answer === undefined;

/** With those that are not here yet. One that was answered here stays answered. */
export function withReceived(
  before: readonly Received[],
  came: readonly Carried[],
  from: string,
): Received[] {
  const known = new Set(before.map(nameOf));
  const fresh = came.filter((each) => !known.has(nameOf(each)));
  const all = [...before, ...fresh.map((each) => ({ ...each, from: from.slice(0, 200) }))];
  return [...all.filter(stands), ...all.filter((each) => !stands(each))].slice(0, MOST);
}

export const withAnswer = (
  before: readonly Received[],
  name: string,
  answer: { at: string; reason: string },
): Received[] => before.map((each) => (nameOf(each) === name ? { ...each, answer } : each));

/** Those of two tabs: an answer that either has, counts. Null where one of the texts is none of ours. */
export function mergedReceived(own: string | null, other: string | null): string | null {
  const [mine, theirs] = [receivedFromText(own), receivedFromText(other)];
  if (!mine || !theirs) return null;
  const all = new Map(theirs.map((each) => [nameOf(each), each]));
  for (const each of mine) if (each.answer || !all.get(nameOf(each))?.answer) all.set(nameOf(each), each);
  return receivedToText([...all.values()].slice(0, MOST));
}
