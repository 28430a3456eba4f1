/** The range as it is stored, and as it is now. */
import type { Database, DatabaseTransaction } from "../../db";
import { freshRange, type RangeState } from "../../range";
import { withMemory } from "./memory";

export async function storedRange(
  db: Database | DatabaseTransaction,
  contestId: string,
): Promise<RangeState> {
  const row = await db.rangeState.findUnique({ where: { contestId } });
  return row ? { ...freshRange(), ...(JSON.parse(row.body) as RangeState) } : freshRange();
}

export async function storeRange(
  tx: DatabaseTransaction,
  contestId: string,
  state: RangeState,
  updatedAt: Date,
): Promise<void> {
  const row = { body: JSON.stringify(state), updatedAt };
  await tx.rangeState.upsert({ where: { contestId }, create: { contestId, ...row }, update: row });
}

/** With what is not stored: holds on their way, and when leases and posts were last heard. */
export async function rangeNow(db: Database, contestId: string, at = Date.now()): Promise<RangeState> {
  return withMemory(await storedRange(db, contestId), contestId, at);
}
