/**
 * Backup and restore. A backup of SQLite is a compact SQLite file, made while the server runs; one of
 * PostgreSQL is pg_dump's own format. A backup is checked before it counts, and before it replaces anything.
 */
import { spawnSync } from "node:child_process";
import {
  closeSync,
  copyFileSync,
  existsSync,
  fsyncSync,
  mkdirSync,
  openSync,
  readdirSync,
  readSync,
  renameSync,
  rmSync,
} from "node:fs";
import { dirname, join, resolve } from "node:path";
import Libsql from "libsql";
import { Prisma } from "./generated/sqlite/client";
import { dataFolder, type Engine, engineOfUrl, sqlitePath } from "./location";
import { lockDatabase } from "./lock";
import {
  type AppliedMigration,
  MIGRATION_RECORD,
  migrate,
  pendingMigrations,
  readMigrations,
} from "./migrate";

/** On PostgreSQL: all that the migrations made, and nothing else that may live in the same database. */
const DROP_EVERYTHING = `${[
  ...[...Object.values(Prisma.ModelName), MIGRATION_RECORD].map(
    (table) => `DROP TABLE IF EXISTS "${table}" CASCADE;`,
  ),
  // Those that the migrations make.
  ...["append_only", "only_erased"].map((name) => `DROP FUNCTION IF EXISTS "${name}"() CASCADE;`),
].join("\n")}\n`;

/** Raised when a backup cannot be made, read or put back. The database is as it was. */
export class BackupError extends Error {
  override name = "BackupError";
  readonly expected = true; // its message is for the person at the keyboard
}

/** What a backup was found to hold. */
export type Backup = { file: string; engine: Engine; migrations: string[] };

/** data/backups/fairthrow-20260912-143005.db (or .dump), in the machine's own time. */
export function defaultBackupFile(url: string, prefix = "fairthrow"): string {
  const now = new Date(Date.now() - new Date().getTimezoneOffset() * 60_000).toISOString();
  const stamp = now.slice(0, 19).replaceAll(/[-:]/g, "").replace("T", "-");
  const ending = engineOfUrl(url) === "sqlite" ? "db" : "dump";
  return join(dataFolder(), "backups", `${prefix}-${stamp}.${ending}`);
}

/** Writes a checked backup; `file` must not exist yet. Throws BackupError. */
export function backup(url: string, file = defaultBackupFile(url)): Backup {
  const target = resolve(file);
  if (existsSync(target)) throw new BackupError(`${target} already exists. Choose another name.`);
  mkdirSync(dirname(target), { recursive: true });
  const unfinished = `${target}.unfinished`;
  rmSync(unfinished, { force: true });
  try {
    if (engineOfUrl(url) === "sqlite") backupSqlite(sqlitePath(url), unfinished);
    else dump(url, unfinished);
    const found = verifyBackup(url, unfinished);
    flush(unfinished);
    renameSync(unfinished, target);
    return { ...found, file: target };
  } finally {
    rmSync(unfinished, { force: true });
  }
}

function unusedBackupFile(url: string): string {
  let file = defaultBackupFile(url, "before");
  for (let number = 2; existsSync(file); number++) file = defaultBackupFile(url, `before-${number}`);
  return file;
}

function backupSqlite(path: string, target: string): void {
  if (!existsSync(path))
    throw new BackupError(`There is no database at ${path} yet: start the program once.`);
  const database = new Libsql(path, { timeout: 10_000 });
  try {
    database.prepare("VACUUM INTO ?").run(target);
  } finally {
    database.close();
  }
}

function dump(url: string, target: string): void {
  runPostgresql("pg_dump", url, ["--format=custom", "--no-owner", "--no-privileges", `--file=${target}`]);
}

/** Reads a backup through and says what is in it. Throws BackupError when it is not whole, or not ours. */
export function verifyBackup(url: string, file: string): Backup {
  const path = resolve(file);
  if (!existsSync(path)) throw new BackupError(`There is no file ${path}.`);
  const engine = engineOfUrl(url);
  const applied = engine === "sqlite" ? inspectSqlite(path) : inspectPostgresql(url, path);
  if (applied.length === 0)
    throw new BackupError(`${path} is not a backup of Fairthrow: it has no migrations.`);
  pendingMigrations(readMigrations(engine), applied);
  return { file: path, engine, migrations: applied.map(({ name }) => name) };
}

function inspectSqlite(path: string): AppliedMigration[] {
  if (startOf(path, 16) !== "SQLite format 3\0") throw new BackupError(`${path} is not an SQLite file.`);
  if (existsSync(`${path}-wal`))
    throw new BackupError(
      `${path} belongs to a running program or was copied from one. Use a file from db:backup.`,
    );
  let database: Libsql.Database | undefined;
  try {
    database = new Libsql(path, { timeout: 10_000 });
    const integrity = database.prepare("PRAGMA integrity_check").all() as { integrity_check: string }[];
    if (integrity.length !== 1 || integrity[0].integrity_check !== "ok")
      throw new BackupError(`${path} is damaged: ${integrity[0]?.integrity_check ?? "no answer"}.`);
    if (database.prepare("PRAGMA foreign_key_check").all().length > 0)
      throw new BackupError(`${path} is damaged: it has rows that point nowhere.`);
    return readRecord(database);
  } catch (error) {
    if (error instanceof BackupError) throw error;
    throw new BackupError(`${path} cannot be read: ${(error as Error).message}`, { cause: error });
  } finally {
    database?.close();
  }
}

function readRecord(database: Libsql.Database): AppliedMigration[] {
  const table = database.prepare("SELECT 1 FROM sqlite_master WHERE name = 'schema_migration'").all();
  if (table.length === 0) return [];
  return database.prepare('SELECT "name", "checksum" FROM "schema_migration"').all() as AppliedMigration[];
}

function inspectPostgresql(url: string, path: string): AppliedMigration[] {
  if (startOf(path, 5) !== "PGDMP")
    throw new BackupError(`${path} is not a dump made by db:backup on PostgreSQL.`);
  // Reading the whole dump finds a cut or damaged one; the record is among what comes out.
  const script = runPostgresql("pg_restore", url, ["--file=-", path], false);
  const record =
    /^COPY public\.schema_migration \(name, checksum, .*\n((?:[^\\].*\n)*)\\\.$/m.exec(script)?.[1] ?? "";
  return record
    .split("\n")
    .filter(Boolean)
    .map((line) => {
      const [name, checksum] = line.split("\t");
      return { name, checksum };
    });
}

/**
 * Puts a backup in the place of the database, after checking it and keeping a copy of what was there.
 * Answers that copy's file, null if there was nothing. Throws BackupError, or DatabaseInUseError while a
 * server runs on the SQLite file. On PostgreSQL it is one transaction, and only the program's tables change.
 */
export async function restore(url: string, file: string): Promise<string | null> {
  const unlock = lockDatabase(url);
  try {
    const found = verifyBackup(url, file);
    const kept =
      engineOfUrl(url) === "sqlite" ? restoreSqlite(url, found.file) : restorePostgresql(url, found.file);
    await migrate(url);
    return kept;
  } finally {
    unlock();
  }
}

function restoreSqlite(url: string, file: string): string | null {
  const path = sqlitePath(url);
  const incoming = `${path}.restoring`;
  copyFileSync(file, incoming);
  flush(incoming);
  const kept = setAside(url);
  renameSync(incoming, path);
  return kept;
}

/**
 * Empties the database after keeping a copy; answers the copy's file, null if there was nothing to keep.
 * Throws DatabaseInUseError while a server runs on the SQLite file, and leaves the tables to the migrations.
 */
export async function emptyDatabase(url: string): Promise<string | null> {
  const unlock = lockDatabase(url);
  try {
    if (engineOfUrl(url) === "sqlite") return setAside(url);
    const kept = unusedBackupFile(url);
    mkdirSync(dirname(kept), { recursive: true });
    dump(url, kept);
    runPostgresql("psql", url, PSQL, true, DROP_EVERYTHING);
    return kept;
  } finally {
    unlock();
  }
}

/** Moves the SQLite database away, as a backup; answers its file, null if there is none. Hold the lock. */
function setAside(url: string): string | null {
  const path = sqlitePath(url);
  if (!existsSync(path)) return null;
  const kept = unusedBackupFile(url);
  mkdirSync(dirname(kept), { recursive: true });
  // Takes in what a crash left in the write-ahead log. A file too damaged for that is kept as it is.
  try {
    backupSqlite(path, kept);
  } catch {
    for (const ending of ["", "-wal"])
      if (existsSync(path + ending)) copyFileSync(path + ending, kept + ending);
  }
  flush(kept);
  for (const ending of ["-wal", "-shm", ""]) rmSync(path + ending, { force: true });
  return kept;
}

function restorePostgresql(url: string, file: string): string | null {
  const kept = unusedBackupFile(url);
  mkdirSync(dirname(kept), { recursive: true });
  dump(url, kept);
  const script = runPostgresql(
    "pg_restore",
    url,
    ["--file=-", "--no-owner", "--no-privileges", "--schema=public", file],
    false,
  );
  // --schema leaves out the statement that makes the schema itself, which is there already.
  runPostgresql("psql", url, PSQL, true, DROP_EVERYTHING + script);
  return kept;
}

const PSQL = ["--no-psqlrc", "--quiet", "--single-transaction", "--set=ON_ERROR_STOP=1"];

/** Runs one of PostgreSQL's own tools on the database, the password out of sight of other users. */
function runPostgresql(tool: string, url: string, args: string[], connect = true, input?: string): string {
  const address = new URL(url);
  const password = decodeURIComponent(address.password);
  address.password = "";
  const { status, stdout, stderr, error } = spawnSync(
    findTool(tool),
    [...args, ...(connect ? [`--dbname=${address}`] : [])],
    {
      encoding: "utf8",
      input,
      maxBuffer: 2 ** 30,
      env: {
        ...process.env,
        PGOPTIONS: "--client-min-messages=warning",
        ...(password && { PGPASSWORD: password }),
      },
    },
  );
  if ((error as NodeJS.ErrnoException | undefined)?.code === "ENOENT")
    throw new BackupError(
      `${tool} is not installed on this machine. It comes with PostgreSQL's client programs ` +
        "(Debian: apt-get install postgresql-client), in the server's version or a later one.",
    );
  if (status !== 0) throw new BackupError(`${tool} failed: ${(stderr || String(error ?? "")).trim()}`);
  return stdout;
}

/** The tool on the PATH, or where Debian keeps it, newest version first. */
function findTool(tool: string): string {
  const versions = "/usr/lib/postgresql";
  if (!existsSync(versions)) return tool;
  const newest = readdirSync(versions).sort((a, b) => Number(b) - Number(a));
  return newest.map((version) => join(versions, version, "bin", tool)).find(existsSync) ?? tool;
}

function startOf(path: string, length: number): string {
  const file = openSync(path, "r");
  try {
    const bytes = Buffer.alloc(length);
    readSync(file, bytes, 0, length, 0);
    return bytes.toString("latin1");
  } finally {
    closeSync(file);
  }
}

function flush(path: string): void {
  const file = openSync(path, "r+");
  try {
    fsyncSync(file);
  } finally {
    closeSync(file);
  }
}
