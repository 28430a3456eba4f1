/** When the results of each round were there, until when they may be protested, and whether they were reopened. */
import type { RoundResult } from "../api/contracts";
import type { Database, DatabaseTransaction } from "../db";
import type { ContestRow } from "./find";
import { currentFixes, type JudgedRuling, markingOf, type ShortFix } from "./judging";

type Reader = Database | DatabaseTransaction;

interface Entry extends ShortFix {
  createdAt: Date;
}
interface Decision extends JudgedRuling {
  entrantId: string | null;
  shotId: string | null;
  createdAt: Date;
}
interface Protest {
  shotId: string | null;
  lateReason: string | null;
  rulings: readonly unknown[];
}
export interface ResultRows {
  shots: readonly {
    id: string;
    entrantId: string;
    round: number;
    fixes: readonly Entry[];
    /** Those that wait to be confirmed. */
    heldFixes: readonly unknown[];
  }[];
  rulings: readonly Decision[];
  protests: readonly Protest[];
}

/** Of a shot's held entries, those that wait to be confirmed. */
export const STILL_HELD = { where: { decision: null }, select: { id: true } } as const;

const latest = (times: readonly number[]) => Math.max(0, ...times);

/**
 * A round has its results once every shot has an entry, or its entrant is out. Protests end `protestMinutes` after the
 * last change of them, a confirmed entry included; what changes after they had first ended has reopened them, and so has a protest taken in late.
 */
export function roundResults(
  { shots, rulings, protests }: ResultRows,
  { markRule, protestMinutes }: Pick<ContestRow, "markRule" | "protestMinutes">,
): RoundResult[] {
  const { remadeAt } = markingOf({ markRule });
  const wait = protestMinutes * 60_000;
  const newest = new Map<string, Decision>();
  for (const ruling of [...rulings].sort((a, b) => a.sequence - b.sequence))
    if (ruling.entrantId !== null) newest.set(ruling.entrantId, ruling);
  const outSince = (entrantId: string) => {
    const ruling = newest.get(entrantId);
    return ruling && ruling.decision !== "competing" ? ruling.createdAt.getTime() : null;
  };
  const rounds = [...new Set(shots.map(({ round }) => round))].sort((a, b) => a - b);
  return rounds.map((round) => {
    const own = shots
      .filter((shot) => shot.round === round)
      .map((shot) => ({ ...shot, rulings: rulings.filter(({ shotId }) => shotId === shot.id) }));
    const complete = own.every((shot) => currentFixes(shot).length > 0 || outSince(shot.entrantId) !== null);
    // The moment at which each shot first had what it needs.
    const first = own.map((shot) => {
      const entered = shot.fixes.map(({ createdAt }) => createdAt.getTime());
      return entered.length > 0 ? Math.min(...entered) : outSince(shot.entrantId);
    });
    const results = first.includes(null) ? null : latest(first.map((time) => time ?? 0));
    const changed = latest([
      results ?? 0,
      ...own.flatMap(({ fixes, rulings: on }) =>
        [...fixes, ...on].map(({ createdAt }) => createdAt.getTime()),
      ),
      ...(remadeAt ? [Date.parse(remadeAt)] : []),
    ]);
    const open = protests.filter(
      (protest) =>
        protest.rulings.length === 0 &&
        (protest.shotId === null || own.some(({ id }) => id === protest.shotId)),
    );
    return {
      round,
      complete,
      protestsUntil: complete ? new Date(changed + wait).toISOString() : null,
      openProtests: open.length,
      toConfirm: own.filter(({ heldFixes }) => heldFixes.length > 0).map(({ id }) => id),
      reopened:
        (results !== null && changed > results + wait) || open.some(({ lateReason }) => lateReason !== null),
    };
  });
}

export async function roundResultsOf(
  db: Reader,
  contest: Pick<ContestRow, "id" | "markRule" | "protestMinutes">,
): Promise<RoundResult[]> {
  const where = { contestId: contest.id };
  const [shots, rulings, protests] = await Promise.all([
    db.shot.findMany({ where, include: { fixes: true, heldFixes: STILL_HELD } }),
    db.ruling.findMany({ where }),
    db.protest.findMany({ where, include: { rulings: { select: { id: true } } } }),
  ]);
  return roundResults({ shots, rulings, protests }, contest);
}
