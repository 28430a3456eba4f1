/**
 * Statements inside a transaction, past Prisma's client: it takes ten times as long as SQLite itself, and a judge's entry
 * has some twenty of them. For the few that every entry makes; everything else uses the client.
 */
import { type Database, type DatabaseTransaction, statementsOf } from "./open";

export type Argument = string | number | null | Date;

/** Whole rows, by table. */
interface Tables {
  Fix: Awaited<ReturnType<Database["fix"]["findFirstOrThrow"]>>;
  Idempotency: Awaited<ReturnType<Database["idempotency"]["findFirstOrThrow"]>>;
  ScorebookEntry: Awaited<ReturnType<Database["scorebookEntry"]["findFirstOrThrow"]>>;
}

/**
 * The rows that a SELECT finds, by column name, with times and truths as the client gives them.
 *
 * @param sql with identifiers quoted, since PostgreSQL folds others, and `?` for each of `args`
 */
export async function rowsOf<Row>(
  transaction: DatabaseTransaction,
  sql: string,
  ...args: Argument[]
): Promise<Row[]> {
  const direct = statementsOf(transaction);
  if (direct) return direct(sql, args) as Row[];
  return transaction.$queryRawUnsafe<Row[]>(numbered(sql), ...args);
}

/** Adds one row. */
export async function insertRow<Table extends keyof Tables>(
  transaction: DatabaseTransaction,
  table: Table,
  row: Tables[Table],
): Promise<void> {
  const names = Object.keys(row).map((name) => `"${name}"`);
  const sql = `INSERT INTO "${table}" (${names.join(", ")}) VALUES (${names.map(() => "?").join(", ")})`;
  const args = Object.values(row) as Argument[];
  const direct = statementsOf(transaction);
  if (direct) direct(sql, args);
  else await transaction.$executeRawUnsafe(numbered(sql), ...args);
}

/** As PostgreSQL numbers them. */
function numbered(sql: string): string {
  let count = 0;
  return sql.replaceAll("?", () => `$${++count}`);
}
