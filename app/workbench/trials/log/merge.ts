/** Two tabs wrote throws at the same time: all of both, less what either took out. Pure. */
import { bothTraces } from "./history";
import { type Log, logFromText, logToText, MOST_THROWS, type Throw } from "./log";

const read = (text: string | null): Log | null => {
  const found = logFromText(text);
  return "wrong" in found ? null : found;
};

/** By id: what was changed here counts, else what the other tab has. What was done to a throw stays told in either case. */
function merged(own: readonly Throw[], other: readonly Throw[], base: readonly Throw[]): Throw[] {
  const in_ = (all: readonly Throw[], id: string) => all.find((each) => each.id === id);
  const same = (a: Throw | undefined, b: Throw | undefined) => JSON.stringify(a) === JSON.stringify(b);
  const ids = [...new Set([...other, ...own].map(({ id }) => id))];
  return ids.flatMap((id) => {
    const [mine, theirs, first] = [in_(own, id), in_(other, id), in_(base, id)];
    // What was corrected in one tab and removed in the other stays: it can be removed again.
    if (same(mine, first)) return theirs ?? [];
    if (same(theirs, first)) return mine ?? [];
    return mine && theirs ? bothTraces(mine, theirs) : (mine ?? theirs ?? []);
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
