/**
 * The scorebook's head at each round's end: the entry that last changed the round's results, once all of its shots have
 * theirs. It follows from the chain, so the same head can be printed again; a correction after that makes another one.
 */
import type { Database } from "../db";
import { type ContestRow, contestBySlug } from "./find";
import { roundResultsOf } from "./round-results";

export interface Head {
  sequence: number;
  hash: string;
  createdAt: Date;
}
/** Null while not all of its shots are entered. */
export type RoundHead = { round: number; head: Head | null };

/** Of one entry; null when there is none of that number. */
export async function headAt(db: Database, slug: string, sequence: number): Promise<Head | null> {
  const { id } = await contestBySlug(db, slug);
  return entryAt(db, id, sequence);
}

const entryAt = (db: Database, contestId: string, sequence: number): Promise<Head | null> =>
  db.scorebookEntry.findUnique({
    where: { contestId_sequence: { contestId, sequence } },
    select: { sequence: true, hash: true, createdAt: true },
  });

export async function roundHeads(db: Database, slug: string): Promise<RoundHead[]> {
  const contest = await contestBySlug(db, slug);
  const results = await roundResultsOf(db, contest);
  return Promise.all(
    results.map(async ({ round, complete }) => {
      const sequence = complete ? await lastChange(db, contest, round) : 0;
      return { round, head: sequence > 0 ? await entryAt(db, contest.id, sequence) : null };
    }),
  );
}

async function lastChange(db: Database, { id: contestId }: ContestRow, round: number): Promise<number> {
  const shots = await db.shot.findMany({
    where: { contestId, round },
    select: { id: true, entrantId: true },
  });
  const shotIds = shots.map(({ id }) => id);
  const [fixes, rulings, rule] = await Promise.all([
    db.fix.aggregate({ where: { shotId: { in: shotIds } }, _max: { sequence: true } }),
    db.ruling.aggregate({
      where: {
        contestId,
        OR: [{ shotId: { in: shotIds } }, { entrantId: { in: shots.map(({ entrantId }) => entrantId) } }],
      },
      _max: { sequence: true },
    }),
    // Another rule makes the marks that are there anew.
    db.scorebookEntry.findFirst({
      where: { contestId, act: "mark-rule-set" },
      orderBy: { sequence: "desc" },
      select: { sequence: true },
    }),
  ]);
  return Math.max(fixes._max.sequence ?? 0, rulings._max.sequence ?? 0, rule?.sequence ?? 0);
}
