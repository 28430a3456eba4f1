/** Two tabs wrote throws at the same time: all of both, less what either took out. Pure. */
import { type Log, logFromText, logToText, MOST_THROWS } from "./log";

const read = (text: string | null): Log | null => {
  const found = logFromText(text);
  return "wrong" in found ? null : found;
};

/** By id: what was changed here counts, else what the other tab has. */
function merged<T extends { id: string }>(own: readonly T[], other: readonly T[], base: readonly T[]): T[] {
  const in_ = (all: readonly T[], id: string) => all.find((each) => each.id === id);
  const same = (a: T | undefined, b: T | undefined) => JSON.stringify(a) === JSON.stringify(b);
  const ids = [...new Set([...other, ...own].map(({ id }) => id))];
  return ids.flatMap((id) => {
    const [mine, theirs, first] = [in_(own, id), in_(other, id), in_(base, id)];
    // What was corrected in one tab and removed in the other stays: it can be removed again.
    const taken = same(mine, first) ? theirs : same(theirs, first) ? mine : (mine ?? theirs);
    return taken ?? [];
  });
}

/** Null where one of them cannot be read, or where they are more than a log holds. */
export function mergedLogs(own: string | null, other: string | null, base: string | null): string | null {
  const [mine, theirs, first] = [read(own), read(other), read(base)];
  if (!mine || !theirs || !first) return null;
  const throws = merged(mine.throws, theirs.throws, first.throws).sort((a, b) =>
    a.at < b.at ? -1 : a.at > b.at ? 1 : 0,
  );
  if (throws.length > MOST_THROWS) return null;
  // Machines are never changed: each that a throw belongs to, once.
  const known = new Map([...mine.machines, ...theirs.machines].map((each) => [each.id, each]));
  const machines = [...known.values()].filter(({ id }) => throws.some(({ machine }) => machine === id));
  return logToText({ version: 1, machines, throws });
}
