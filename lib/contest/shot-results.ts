/**
 * What many shots come to, for standings and for the mark before. Entries are long and never change, so what a shot came
 * to is worked out once for the same entries, rulings, firing point and mark rule; only what is new is read whole.
 */
import type { ShotResult } from "../api/contracts";
import { type Database, type DatabaseTransaction, rowsOf } from "../db";
import { type JudgedFix, type Marking, type Place, resultOf } from "./judging";
import { Remembered } from "./remembered";
import { STILL_HELD } from "./round-results";
import { CHUNK } from "./scorebook";

const SHORT = {
  id: true,
  shotId: true,
  outcome: true,
  replacesId: true,
  sequence: true,
  createdAt: true,
} as const;

/** Enough for a few contests at once. */
const known = new Remembered<ShotResult>(5000);

/** Shots with their entries in short, and the result of each by its id. */
export async function shotResults(
  db: Database | DatabaseTransaction,
  where: { contestId: string; entrantId?: string; round?: { lt: number } },
  marking: Marking,
) {
  const rows = await db.shot.findMany({
    where,
    include: { firingPoint: true, fixes: { select: SHORT }, heldFixes: STILL_HELD, rulings: true },
  });
  const keys = new Map(rows.map((row) => [row.id, keyOf(row, marking)]));
  const results = new Map<string, ShotResult>();
  const unread: typeof rows = [];
  for (const row of rows) {
    const result = known.get(keys.get(row.id) as string);
    if (result) results.set(row.id, result);
    else unread.push(row);
  }
  const whole = await wholeFixes(
    db,
    unread.flatMap(({ fixes }) => fixes.map(({ id }) => id)),
  );
  for (const row of unread) {
    const fixes = row.fixes.flatMap(({ id }) => whole.get(id) ?? []);
    const result = resultOf({ ...row, fixes }, marking);
    known.set(keys.get(row.id) as string, result);
    results.set(row.id, result);
  }
  return { rows, results };
}

/**
 * The entrant's mark in its last measured shot before a round, m. Of shots that are known already only ids are read, in
 * one statement: every entry asks for it.
 */
export async function markBefore(
  tx: DatabaseTransaction,
  asked: { contestId: string; entrantId: string; round: number },
  marking: Marking,
): Promise<number | null> {
  const { contestId, entrantId, round } = asked;
  const joined = await rowsOf<JoinedShot>(
    tx,
    `SELECT s."id", s."round", p."latitude", p."longitude", p."height", p."accuracy",
      f."id" AS "fixId", r."id" AS "rulingId"
    FROM "Shot" s JOIN "FiringPoint" p ON p."id" = s."firingPointId"
      LEFT JOIN "Fix" f ON f."shotId" = s."id" LEFT JOIN "Ruling" r ON r."shotId" = s."id"
    WHERE s."contestId" = ? AND s."entrantId" = ? AND s."round" < ?`,
    contestId,
    entrantId,
    round,
  );
  const keyed = [...new Map(joined.map((row) => [row.id, row])).values()].map(
    ({ id, round, ...firingPoint }) => {
      const rows = joined.filter((row) => row.id === id);
      const named = (ids: (string | null)[]) =>
        [...new Set(ids)].flatMap((id) => (id === null ? [] : [{ id }]));
      const fixes = named(rows.map(({ fixId }) => fixId));
      const rulings = named(rows.map(({ rulingId }) => rulingId));
      return { id, round, key: keyOf({ id, firingPoint, fixes, rulings }, marking) };
    },
  );
  const shots = keyed.every(({ key }) => known.has(key))
    ? keyed.map(({ key, round }) => ({ entrantId, round, mark: known.get(key)?.mark ?? null }))
    : await shotResults(tx, { contestId, entrantId, round: { lt: round } }, marking).then(
        ({ rows, results }) => rows.map((row) => ({ ...row, mark: results.get(row.id)?.mark ?? null })),
      );
  return lastMark(shots, asked);
}

/** The entrant's mark in its last measured shot before this one, m. */
export function lastMark(
  shots: readonly (EntrantsShot & { mark: number | null })[],
  shot: EntrantsShot,
): number | null {
  return shots
    .filter((other) => other.entrantId === shot.entrantId && other.round < shot.round)
    .sort((a, b) => a.round - b.round)
    .reduce<number | null>((last, other) => other.mark ?? last, null);
}

interface EntrantsShot {
  entrantId: string;
  round: number;
}

interface JoinedShot extends Place {
  id: string;
  round: number;
  fixId: string | null;
  rulingId: string | null;
}

function keyOf(
  {
    id,
    firingPoint,
    fixes,
    rulings,
  }: { id: string; firingPoint: Place; fixes: readonly { id: string }[]; rulings: readonly { id: string }[] },
  marking: Marking,
): string {
  const { latitude, longitude, height, accuracy } = firingPoint;
  const ids = [...fixes, ...rulings]
    .map((one) => one.id)
    .sort()
    .join(" ");
  return JSON.stringify([id, ids, latitude, longitude, height, accuracy, marking.rule, marking.centre]);
}

async function wholeFixes(
  db: Database | DatabaseTransaction,
  ids: readonly string[],
): Promise<Map<string, JudgedFix>> {
  const found = new Map<string, JudgedFix>();
  for (let at = 0; at < ids.length; at += CHUNK) {
    const fixes = await db.fix.findMany({
      where: { id: { in: ids.slice(at, at + CHUNK) } },
      select: { ...SHORT, flags: true, input: true, located: true },
    });
    for (const fix of fixes) found.set(fix.id, fix);
  }
  return found;
}
