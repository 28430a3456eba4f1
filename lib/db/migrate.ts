/**
 * Brings a database to the state of prisma/schema.prisma. A migration is a folder in prisma/migrations with
 * one plain SQL file an engine; they are applied in the order of their names, each in a transaction together
 * with the record of its checksum. What was applied may never change: write a new one.
 */
import { createHash } from "node:crypto";
import { existsSync, mkdirSync, readdirSync, readFileSync } from "node:fs";
import { dirname, join, resolve } from "node:path";
import Libsql from "libsql";
import { databaseUrl, type Engine, engineOfUrl, sqlitePath } from "./location";

export type Migration = { name: string; sql: string; checksum: string };
export type AppliedMigration = { name: string; checksum: string };

/** Raised when the database and the files in prisma/migrations do not belong together. */
export class MigrationError extends Error {
  override name = "MigrationError";
  readonly expected = true; // its message is for the person at the keyboard
}

/** The table that remembers what was applied. */
export const MIGRATION_RECORD = "schema_migration";
const CREATE_RECORD = `CREATE TABLE IF NOT EXISTS "${MIGRATION_RECORD}" ("name" TEXT PRIMARY KEY, "checksum" TEXT NOT NULL, "appliedAt" TEXT NOT NULL)`;
const READ_RECORD = `SELECT "name", "checksum" FROM "${MIGRATION_RECORD}" ORDER BY "name"`;
/** Any number will do, so long as it is the program's own and not that of inTransaction. */
const MIGRATION_LOCK = 4_126_200;

export function migrationsFolder(): string {
  return resolve(/* turbopackIgnore: true */ "prisma/migrations");
}

export function readMigrations(engine: Engine, folder = migrationsFolder()): Migration[] {
  const names = readdirSync(folder, { withFileTypes: true }).filter((entry) => entry.isDirectory());
  return names
    .map((entry) => entry.name)
    .sort()
    .map((name) => {
      const file = join(folder, name, `${engine}.sql`);
      if (!existsSync(file)) throw new MigrationError(`Migration ${name} has no ${engine}.sql.`);
      // Line ends may differ between checkouts; the statements do not.
      const sql = readFileSync(file, "utf8").replaceAll("\r\n", "\n");
      return { name, sql, checksum: createHash("sha256").update(sql).digest("hex") };
    });
}

/** Which migrations are still to apply. Throws MigrationError when those applied are not those at hand. */
export function pendingMigrations(available: Migration[], applied: AppliedMigration[]): Migration[] {
  const byName = new Map(available.map((migration) => [migration.name, migration]));
  for (const { name, checksum } of applied) {
    const migration = byName.get(name);
    if (!migration)
      throw new MigrationError(
        `The database has migration ${name}, which this copy of the program does not. ` +
          "It was made by a newer version: use that one, or restore a backup made before the upgrade.",
      );
    if (migration.checksum !== checksum)
      throw new MigrationError(
        `Migration ${name} has changed since it was applied to this database. ` +
          "Bring the file back as it was and write what is new in a migration of its own.",
      );
  }
  const last =
    applied
      .map(({ name }) => name)
      .sort()
      .at(-1) ?? "";
  const known = new Set(applied.map(({ name }) => name));
  const pending = available.filter(({ name }) => !known.has(name));
  const late = pending.find(({ name }) => name < last);
  if (late)
    throw new MigrationError(
      `Migration ${late.name} comes before ${last}, which is already applied. Give it a later name.`,
    );
  return pending;
}

/** Applies what is pending and answers the names of what it applied. */
export async function migrate(url = databaseUrl(), folder = migrationsFolder()): Promise<string[]> {
  const engine = engineOfUrl(url);
  const available = readMigrations(engine, folder);
  return engine === "sqlite" ? migrateSqlite(url, available) : await migratePostgresql(url, available);
}

function migrateSqlite(url: string, available: Migration[]): string[] {
  const path = sqlitePath(url);
  mkdirSync(dirname(path), { recursive: true });
  const database = new Libsql(path, { timeout: 5000 });
  try {
    database.exec("PRAGMA journal_mode = WAL; PRAGMA synchronous = FULL");
    database.exec(CREATE_RECORD);
    const pending = pendingMigrations(available, database.prepare(READ_RECORD).all() as AppliedMigration[]);
    for (const { name, sql, checksum } of pending) {
      // Inside a transaction SQLite ignores this; a migration that rebuilds a table needs it off.
      database.exec("PRAGMA foreign_keys = OFF");
      try {
        database.exec("BEGIN IMMEDIATE");
        database.exec(sql);
        const broken = database.prepare("PRAGMA foreign_key_check").all() as { table: string }[];
        if (broken.length > 0)
          throw new MigrationError(
            `It leaves ${broken.length} rows that point nowhere, in ${broken[0].table}.`,
          );
        database
          .prepare(`INSERT INTO "${MIGRATION_RECORD}" VALUES (?, ?, ?)`)
          .run(name, checksum, new Date().toISOString());
        database.exec("COMMIT");
      } catch (error) {
        if (database.inTransaction) database.exec("ROLLBACK");
        throw failed(name, error);
      } finally {
        database.exec("PRAGMA foreign_keys = ON");
      }
    }
    return pending.map(({ name }) => name);
  } finally {
    database.close();
  }
}

async function migratePostgresql(url: string, available: Migration[]): Promise<string[]> {
  const { default: pg } = await import("pg");
  const client = new pg.Client({ connectionString: url });
  await client.connect();
  try {
    // Two instances that start together: the second waits here and finds nothing left to do.
    await client.query(`SELECT pg_advisory_lock(${MIGRATION_LOCK})`);
    await client.query(CREATE_RECORD);
    const { rows } = await client.query<AppliedMigration>(READ_RECORD);
    const pending = pendingMigrations(available, rows);
    for (const { name, sql, checksum } of pending) {
      try {
        await client.query("BEGIN");
        await client.query(sql);
        await client.query(`INSERT INTO "${MIGRATION_RECORD}" VALUES ($1, $2, $3)`, [
          name,
          checksum,
          new Date().toISOString(),
        ]);
        await client.query("COMMIT");
      } catch (error) {
        await client.query("ROLLBACK");
        throw failed(name, error);
      }
    }
    return pending.map(({ name }) => name);
  } finally {
    await client.end();
  }
}

function failed(name: string, cause: unknown): MigrationError {
  const reason = cause instanceof Error ? cause.message : String(cause);
  return new MigrationError(`Migration ${name} failed and changed nothing: ${reason}`, { cause });
}
