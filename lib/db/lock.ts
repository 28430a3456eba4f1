/**
 * One program to an SQLite file. The server, a reset and a restore hold this lock; a backup does not need it.
 * It is an exclusive lock on a tiny SQLite file beside the database, so the operating system drops it with
 * the process, however that ends; the note beside it only says who held it last.
 */
import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { dirname } from "node:path";
import Libsql from "libsql";
import { describeUrl, engineOfUrl, sqlitePath } from "./location";

/** Raised when another process has the SQLite file. */
export class DatabaseInUseError extends Error {
  override name = "DatabaseInUseError";
  readonly expected = true; // its message is for the person at the keyboard
}

/**
 * Takes the lock and answers the function that gives it back; does nothing for PostgreSQL, where several
 * instances may share a database. Throws DatabaseInUseError.
 */
export function lockDatabase(url: string): () => void {
  if (engineOfUrl(url) === "postgresql") return () => {};
  const path = sqlitePath(url);
  mkdirSync(dirname(path), { recursive: true });
  const lock = new Libsql(`${path}.lock`, { timeout: 0 });
  const note = `${path}.lock-holder`;
  try {
    lock.exec("PRAGMA locking_mode = EXCLUSIVE; PRAGMA journal_mode = OFF; BEGIN EXCLUSIVE");
  } catch (error) {
    lock.close();
    if ((error as { code?: string }).code !== "SQLITE_BUSY") throw error;
    throw new DatabaseInUseError(
      `Another Fairthrow${holder(note)} is using ${describeUrl(url)}. Stop it first, ` +
        "or give this one its own file with DATABASE_URL=file:other.db. " +
        "Several programs can share one database on PostgreSQL only.",
    );
  }
  writeFileSync(note, String(process.pid));
  const kept = globalThis as { fairthrowLocks?: Set<unknown> };
  kept.fairthrowLocks ??= new Set();
  kept.fairthrowLocks.add(lock); // a lock that is collected as garbage is a lock lost
  return () => {
    if (kept.fairthrowLocks?.delete(lock)) lock.close();
  };
}

function holder(note: string): string {
  try {
    return ` (process ${Number.parseInt(readFileSync(note, "utf8"), 10)})`;
  } catch {
    return "";
  }
}
