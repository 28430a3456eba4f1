/** What was changed in a throw after it had been written down: nothing that once called STOP goes without a trace. Pure. */
import { MOST_TRACES, NUMBERS, type Numbers, RANKS, type Rank, type Throw, type Trace } from "./throw-schema";

/** It stays in sight and counts no more. */
export const isStruck = ({ trace = [] }: Pick<Throw, "trace">): boolean =>
  trace.findLast(({ did }) => did === "struck" || did === "restored")?.did === "struck";

/** Why it was struck out. */
export const strikeOf = ({ trace = [] }: Pick<Throw, "trace">): Trace | null =>
  trace.findLast(({ did }) => did === "struck") ?? null;

export const traced = (made: Throw, entry: Trace): Throw => ({
  ...made,
  trace: [...(made.trace ?? []), entry].slice(-MOST_TRACES),
});

const same = (a: unknown, b: unknown) => JSON.stringify(a) === JSON.stringify(b);

/** What stood in it before it was corrected, of that alone which the correction changed; null where it changed nothing. */
export function changedIn(before: Throw, after: Throw): Partial<Numbers> | null {
  const changed = NUMBERS.filter((name) => !same(before[name], after[name]));
  return changed.length === 0
    ? null
    : (Object.fromEntries(changed.map((name) => [name, before[name]])) as Partial<Numbers>);
}

/** A note changes nothing that is judged. */
const judgedAnew = ({ did, was }: Trace): boolean =>
  did === "restored" || (did === "corrected" && Object.keys(was ?? {}).some((name) => name !== "note"));

/**
 * The answer to a STOP of this rank. One to an alarm is none to a model that is wrong; and what was said of other numbers
 * is said of them alone.
 */
export function answerTo({ trace = [] }: Pick<Throw, "trace">, rank: Rank): Trace | null {
  const since = trace.slice(trace.findLastIndex(judgedAnew) + 1);
  return (
    since.findLast(
      (each) => each.did === "answered" && each.rank && RANKS.indexOf(each.rank) >= RANKS.indexOf(rank),
    ) ?? null
  );
}

/** What two tabs did to the same throw, all of both. */
export function bothTraces(own: Throw, other: Throw): Throw {
  const all = [...(other.trace ?? []), ...(own.trace ?? [])];
  if (all.length === 0) return own;
  const known = new Map(all.map((each) => [JSON.stringify(each), each]));
  const trace = [...known.values()].sort((a, b) => (a.at < b.at ? -1 : a.at > b.at ? 1 : 0));
  return { ...own, trace: trace.slice(-MOST_TRACES) };
}
