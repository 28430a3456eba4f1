/** The turns of a contest in the order of the day: its shots, where each comes, and which are thrown. */
import type { TurnInfo } from "../api/contracts";
import type { Database, DatabaseTransaction } from "../db";
import { currentFixes, rethrowOf } from "./judging";

type Reader = Database | DatabaseTransaction;

const SHORT_FIX = { id: true, outcome: true, replacesId: true, sequence: true, observedAt: true } as const;

const readTurns = (db: Reader, contestId: string) =>
  db.shot.findMany({
    where: { contestId },
    include: {
      entrant: true,
      machine: true,
      firingPoint: { select: { number: true } },
      turn: true,
      fixes: { select: SHORT_FIX },
      rulings: { select: { decision: true, fixId: true, sequence: true } },
    },
  });
type ShotRow = Awaited<ReturnType<typeof readTurns>>[number];

export interface TurnRow extends Omit<ShotRow, "turn"> {
  stage: number;
  place: number;
  state: TurnInfo["state"];
  thrownAt: Date | null;
  toldAt: Date | null;
  passedOver: string | null;
}

/** Where a shot comes in the day: as planned, or else in its own round. */
export const placeOf = (shot: {
  round: number;
  position: number;
  turn: { stage: number; place: number } | null;
}): { stage: number; place: number } => ({
  stage: shot.turn?.stage ?? shot.round,
  place: shot.turn?.place ?? shot.position,
});

/** A round that was made up for comes before the own turn of the same place. */
export function inDayOrder(
  a: { stage: number; place: number; round: number },
  b: { stage: number; place: number; round: number },
): number {
  return a.stage - b.stage || a.place - b.place || a.round - b.round;
}

/** All turns in the order of the day. */
export async function turnsOf(db: Reader, contestId: string): Promise<TurnRow[]> {
  // One after the other: inside a transaction a connection answers one question at a time.
  const shots = await readTurns(db, contestId);
  const out = await withdrawn(db, contestId);
  return shots
    .map((shot): TurnRow => {
      const { turn, ...rest } = shot;
      const thrown = currentFixes(shot).length > 0;
      const since = rethrowOf(shot);
      const seen = shot.fixes.filter(({ sequence }) => sequence > since);
      return {
        ...rest,
        ...placeOf(shot),
        state: thrown ? "thrown" : out.has(shot.entrantId) ? "out" : "to-throw",
        thrownAt: thrown ? new Date(Math.min(...seen.map(({ observedAt }) => observedAt.getTime()))) : null,
        toldAt: turn?.toldAt ?? null,
        passedOver: turn?.passedOver ?? null,
      };
    })
    .sort(inDayOrder);
}

/** Entrants that a ruling took out: the newest of each counts. */
export async function withdrawn(db: Reader, contestId: string): Promise<Set<string>> {
  const rulings = await db.ruling.findMany({
    where: { contestId, entrantId: { not: null } },
    orderBy: { sequence: "asc" },
    select: { entrantId: true, decision: true },
  });
  const newest = new Map(rulings.map((ruling) => [ruling.entrantId ?? "", ruling.decision]));
  return new Set(
    [...newest].filter(([, decision]) => decision !== "competing").map(([entrantId]) => entrantId),
  );
}

/**
 * Writes where turns come, each list in its stage's order, from 1. A shot in its own round's order has its position there too.
 */
export async function writePlaces(
  tx: DatabaseTransaction,
  turns: readonly {
    shotId: string;
    round: number;
    stage: number;
    toldAt: Date | null;
    passedOver: string | null;
  }[],
): Promise<void> {
  const next = new Map<number, number>();
  const own = new Map<number, number>();
  for (const { stage, round } of turns) if (stage === round) own.set(round, (own.get(round) ?? 0) + 1);
  for (const { shotId, round, stage, toldAt, passedOver } of turns) {
    const place = (next.get(stage) ?? 0) + 1;
    next.set(stage, place);
    const told = { stage, place, toldAt, passedOver };
    await tx.turn.upsert({ where: { shotId }, create: { shotId, ...told }, update: told });
    // What is made up for later is thrown after everybody of its round.
    const later = (own.get(round) ?? 0) + 1;
    if (stage !== round) own.set(round, later);
    const position = stage === round ? place : later;
    await tx.shot.update({ where: { id: shotId }, data: { position } });
  }
}
