/**
 * Opening a database by its URL. Everything is typed by SQLite's generated client; PostgreSQL's has the same
 * models and is cast here and nowhere else.
 */
import type { PrismaClient, Prisma as SqlitePrisma } from "./generated/sqlite/client";
import { databaseUrl, type Engine, engineOfUrl, sqlitePath } from "./location";
import { SqliteAdapter, type Statements } from "./sqlite";

export type Database = PrismaClient;
/** What a function inside a transaction is given: the same models, no way to start another. */
export type DatabaseTransaction = SqlitePrisma.TransactionClient;

// How long a transaction may wait for its turn and then take, ms.
const TRANSACTIONS = { maxWait: 10_000, timeout: 15_000 };

// The bundler makes several copies of a module; what must exist once hangs on globalThis.
const shared = globalThis as typeof globalThis & {
  fairthrowDatabase?: { url: string; opened: Promise<Database> };
  fairthrowOpened?: WeakMap<object, Opened>;
};
shared.fairthrowOpened ??= new WeakMap();
const opened = shared.fairthrowOpened;

interface Opened {
  engine: Engine;
  /** SQLite's way past the client: of a database for the transaction open now, of a transaction for itself. */
  statements: (() => Statements) | null;
}

function openedOf(database: Database | DatabaseTransaction): Opened {
  const found = opened.get(database);
  if (!found) throw new Error("This database was not opened by lib/db.");
  return found;
}

/** Which engine a database, or a transaction on it, runs on. */
export const engineOf = (database: Database | DatabaseTransaction): Engine => openedOf(database).engine;

/** For statements.ts alone: null on PostgreSQL. */
export const statementsOf = (transaction: DatabaseTransaction): Statements | null =>
  openedOf(transaction).statements?.() ?? null;

/** Notes what a transaction that has just begun runs on. */
export function markTransaction(transaction: DatabaseTransaction, database: Database): void {
  const { engine, statements } = openedOf(database);
  const own = statements?.();
  opened.set(transaction, { engine, statements: own ? () => own : null });
}

/**
 * Opens `file:…` or `postgresql://…`. The caller migrates first (migrate) and closes with `$disconnect()`.
 * Rejects when the file cannot be opened or the server does not answer.
 */
export async function openDatabase(url: string): Promise<Database> {
  const database = engineOfUrl(url) === "sqlite" ? await openSqlite(url) : await openPostgresql(url);
  await database.$connect();
  return database;
}

async function openSqlite(url: string): Promise<Database> {
  const { PrismaClient } = await import("./generated/sqlite/client");
  const adapter = new SqliteAdapter(sqlitePath(url));
  const database = new PrismaClient({ adapter, transactionOptions: TRANSACTIONS });
  opened.set(database, { engine: "sqlite", statements: () => adapter.statements() });
  return database;
}

async function openPostgresql(url: string): Promise<Database> {
  const [{ PrismaClient }, { PrismaPg }] = await Promise.all([
    import("./generated/postgresql/client"),
    import("@prisma/adapter-pg"),
  ]);
  const adapter = new PrismaPg({ connectionString: url, max: 10 });
  const client = new PrismaClient({ adapter, transactionOptions: TRANSACTIONS });
  const database = client as unknown as Database;
  opened.set(database, { engine: "postgresql", statements: null });
  return database;
}

/** The program's one database, opened when first asked for. */
export function getDatabase(): Promise<Database> {
  const url = databaseUrl();
  const known = shared.fairthrowDatabase;
  if (known?.url === url) return known.opened;
  const opened = openDatabase(url);
  const entry = { url, opened };
  shared.fairthrowDatabase = entry;
  // A failed opening is tried again at the next call.
  opened.catch(() => {
    if (shared.fairthrowDatabase === entry) shared.fairthrowDatabase = undefined;
  });
  return opened;
}

/** Closes the program's database; getDatabase opens it anew. */
export async function closeDatabase(): Promise<void> {
  const known = shared.fairthrowDatabase;
  shared.fairthrowDatabase = undefined;
  const database = await known?.opened.catch(() => undefined);
  if (!database) return;
  // So that the file alone is the whole database, should somebody copy it now.
  await settle(database);
  await database.$disconnect();
}

/** What is written moves from SQLite's journal into its file, so that nothing that was erased stands on in the journal. */
export async function settle(database: Database): Promise<void> {
  if (engineOf(database) === "sqlite") await database.$queryRawUnsafe("PRAGMA wal_checkpoint(TRUNCATE)");
}
