/**
 * What many shots come to, for standings and for the mark before. Entries are long and never change, so what a shot came
 * to is worked out once for the same entries, rulings, firing point and mark rule; only what is new is read whole.
 */
import type { ShotResult } from "../api/contracts";
import type { Database } from "../db";
import { type JudgedFix, type Marking, resultOf } from "./judging";
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
  db: Database,
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

function keyOf(
  {
    id,
    firingPoint,
    fixes,
    rulings,
  }: {
    id: string;
    firingPoint: { latitude: number; longitude: number; height: number; accuracy: number };
    fixes: readonly { id: string }[];
    rulings: readonly { id: string }[];
  },
  marking: Marking,
): string {
  const { latitude, longitude, height, accuracy } = firingPoint;
  const ids = [...fixes, ...rulings].map((one) => one.id).join(" ");
  return JSON.stringify([id, ids, latitude, longitude, height, accuracy, marking.rule, marking.centre]);
}

async function wholeFixes(db: Database, ids: readonly string[]): Promise<Map<string, JudgedFix>> {
  const found = new Map<string, JudgedFix>();
  for (let at = 0; at < ids.length; at += CHUNK) {
    const fixes = await db.fix.findMany({
      where: { id: { in: ids.slice(at, at + CHUNK) } },
      select: { ...SHORT, input: true, located: true },
    });
    for (const fix of fixes) found.set(fix.id, fix);
  }
  return found;
}
