/** How long names of the tally are kept. */
import type { DatabaseTransaction } from "../../db";

/** Names of those who are back are erased by themselves after so many days. */
const NAMES_LAST = 30;
const DAY = 24 * 3600_000; // ms

/** Of every contest, inside a transaction. Answers how many. */
export async function expireNames(tx: DatabaseTransaction, now: Date): Promise<number> {
  const old = new Date(now.getTime() - NAMES_LAST * DAY);
  const where = { inAt: { lt: old }, name: { not: null } };
  const { count } = await tx.tag.updateMany({ where, data: { name: null } });
  return count;
}
