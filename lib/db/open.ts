/**
 * Opening a database by its URL. Everything is typed by SQLite's generated client; PostgreSQL's has the same
 * models and is cast here and nowhere else.
 */
import type { PrismaClient, Prisma as SqlitePrisma } from "./generated/sqlite/client";
import { databaseUrl, type Engine, engineOfUrl, sqlitePath } from "./location";
import { SqliteAdapter } from "./sqlite";

export type Database = PrismaClient;
/** What a function inside a transaction is given: the same models, no way to start another. */
export type DatabaseTransaction = SqlitePrisma.TransactionClient;

// How long a transaction may wait for its turn and then take, ms.
const TRANSACTIONS = { maxWait: 10_000, timeout: 15_000 };

// The bundler makes several copies of a module; what must exist once hangs on globalThis.
const shared = globalThis as typeof globalThis & {
  fairthrowDatabase?: { url: string; opened: Promise<Database> };
  fairthrowEngines?: WeakMap<object, Engine>;
};
shared.fairthrowEngines ??= new WeakMap();
const engines = shared.fairthrowEngines;

/** Which engine a database, or a transaction on it, runs on. */
export function engineOf(database: Database | DatabaseTransaction): Engine {
  const engine = engines.get(database);
  if (!engine) throw new Error("This database was not opened by lib/db.");
  return engine;
}

/** Notes the engine of a transaction, for engineOf. */
export function markEngine(transaction: DatabaseTransaction, engine: Engine): void {
  engines.set(transaction, engine);
}

/**
 * Opens `file:…` or `postgresql://…`. The caller migrates first (migrate) and closes with `$disconnect()`.
 * Rejects when the file cannot be opened or the server does not answer.
 */
export async function openDatabase(url: string): Promise<Database> {
  const engine = engineOfUrl(url);
  const database = engine === "sqlite" ? await openSqlite(url) : await openPostgresql(url);
  engines.set(database, engine);
  await database.$connect();
  return database;
}

async function openSqlite(url: string): Promise<Database> {
  const { PrismaClient } = await import("./generated/sqlite/client");
  return new PrismaClient({ adapter: new SqliteAdapter(sqlitePath(url)), transactionOptions: TRANSACTIONS });
}

async function openPostgresql(url: string): Promise<Database> {
  const [{ PrismaClient }, { PrismaPg }] = await Promise.all([
    import("./generated/postgresql/client"),
    import("@prisma/adapter-pg"),
  ]);
  const adapter = new PrismaPg({ connectionString: url, max: 10 });
  return new PrismaClient({ adapter, transactionOptions: TRANSACTIONS }) as unknown as Database;
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
  if (engineOf(database) === "sqlite") await database.$queryRawUnsafe("PRAGMA wal_checkpoint(TRUNCATE)");
  await database.$disconnect();
}
