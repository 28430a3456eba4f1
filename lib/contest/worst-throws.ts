/** How far each machine revision could throw at worst, by its newest sheet, whatever policy that was computed under. */
import { type Database, type DatabaseTransaction, rowsOf } from "../db";
import type { HazardSheet } from "../throw";
import { Remembered } from "./remembered";

/** m; a sheet without such a throw has 0. */
export interface WorstThrow {
  forward: number;
  backward: number;
}

/** By sheet: sheets never change, and are long to read. */
const read = new Remembered<WorstThrow>(1000);

/** By revision; those without a sheet are missing. */
export async function worstThrows(
  db: Database | DatabaseTransaction,
  revisionIds: readonly string[],
): Promise<Map<string, WorstThrow>> {
  const sheets = await db.hazardSheet.findMany({
    where: { revisionId: { in: [...revisionIds] } },
    orderBy: { createdAt: "asc" },
    select: { id: true, revisionId: true },
  });
  const newest = new Map(sheets.map(({ revisionId, id }) => [revisionId, id]));
  const unread = [...newest.values()].filter((id) => !read.has(id));
  if (unread.length > 0) {
    const where = { id: { in: unread } };
    for (const { id, result } of await db.hazardSheet.findMany({
      where,
      select: { id: true, result: true },
    })) {
      const { worst } = JSON.parse(result) as HazardSheet;
      read.set(id, { forward: worst.forward.distance, backward: worst.backward.distance });
    }
  }
  return new Map(
    [...newest].flatMap(([revisionId, id]) => {
      const worst = read.get(id);
      return worst ? [[revisionId, worst] as const] : [];
    }),
  );
}

/** The same of one revision, for every entry of a shot; null without a sheet. */
export async function worstThrow(tx: DatabaseTransaction, revisionId: string): Promise<WorstThrow | null> {
  const [newest] = await rowsOf<{ id: string }>(
    tx,
    `SELECT "id" FROM "HazardSheet" WHERE "revisionId" = ? ORDER BY "createdAt" DESC LIMIT 1`,
    revisionId,
  );
  if (!newest) return null;
  return read.get(newest.id) ?? (await worstThrows(tx, [revisionId])).get(revisionId) ?? null;
}
