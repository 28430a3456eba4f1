/** Writing: one transaction at a time on either engine, and what is announced only once it is committed. */
import { announceAfterCommit, discardAnnouncements } from "./notice";
import { type Database, type DatabaseTransaction, engineOf, markTransaction } from "./open";

/** Any number will do, so long as it is the program's own. */
const WRITE_LOCK = 4_126_201;
const ATTEMPTS = 6;

/**
 * Runs `work` in one transaction and gives back its value; whatever it throws rolls everything back.
 *
 * Writers take turns: SQLite begins immediate, PostgreSQL takes an advisory lock that it drops at the end. So
 * what `work` reads is still true when it writes, and the next sequence number is simply the last one plus
 * one. In return, be short: compute before, touch nothing outside `transaction` (on SQLite, waiting for the
 * database itself in here would wait for ever), and write before you read where the order is free. `work`
 * runs again when the engine asks for it (a busy file, a serialization failure), so it must have no effect
 * but on the database; `notify` is held back until the commit.
 */
export async function inTransaction<T>(
  database: Database,
  work: (transaction: DatabaseTransaction) => Promise<T>,
): Promise<T> {
  const engine = engineOf(database);
  for (let attempt = 1; ; attempt++) {
    let current: DatabaseTransaction | undefined;
    try {
      const value = await database.$transaction(async (transaction) => {
        current = transaction;
        markTransaction(transaction, database);
        if (engine === "postgresql")
          await transaction.$executeRawUnsafe(`SELECT pg_advisory_xact_lock(${WRITE_LOCK})`);
        return work(transaction);
      });
      if (current) announceAfterCommit(current);
      return value;
    } catch (error) {
      if (current) discardAnnouncements(current);
      if (attempt >= ATTEMPTS || !isPassing(error)) throw error;
      await new Promise((resolve) => setTimeout(resolve, 2 ** attempt * 5 * (1 + Math.random())));
    }
  }
}

/**
 * Whether the same work may succeed when it is tried again. Prisma: P2034 is a write conflict or deadlock,
 * P1008 what it makes of SQLITE_BUSY. PostgreSQL: 40001 serialization_failure, 40P01 deadlock_detected.
 */
function isPassing(error: unknown): boolean {
  const { code, meta } = (error ?? {}) as { code?: string; meta?: { code?: string } };
  return code === "P2034" || code === "P1008" || meta?.code === "40001" || meta?.code === "40P01";
}
