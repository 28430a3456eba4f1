/** Where the database is, read from the environment: DATABASE_URL, or data/fairthrow.db. */
import { isAbsolute, join, resolve } from "node:path";

export type Engine = "sqlite" | "postgresql";

/** The folder of the SQLite file, its backups and what the program keeps beside them. */
export function dataFolder(): string {
  return resolve(/* turbopackIgnore: true */ process.env.FAIRTHROW_DATA || "data");
}

/** `file:…` or `postgresql://…`. */
export function databaseUrl(): string {
  return process.env.DATABASE_URL || `file:${join(dataFolder(), "fairthrow.db")}`;
}

class DatabaseUrlError extends Error {
  override name = "DatabaseUrlError";
  readonly expected = true; // its message is for the person at the keyboard
}

/** Throws a sentence for the person who set DATABASE_URL when the scheme is neither engine's. */
export function engineOfUrl(url: string): Engine {
  if (url.startsWith("file:")) return "sqlite";
  if (/^postgres(ql)?:\/\//.test(url)) return "postgresql";
  throw new DatabaseUrlError(
    "DATABASE_URL must start with file: (an SQLite file) or postgresql:// (a PostgreSQL server). " +
      `It starts with "${url.split(":")[0]}:".`,
  );
}

/** The path in a `file:` URL; a relative one counts from the project's folder. */
export function sqlitePath(url: string): string {
  const path = decodeURIComponent(url.replace(/^file:(\/\/(?=\/))?/, "").replace(/\?.*$/, ""));
  if (!path || path === ":memory:")
    throw new DatabaseUrlError(
      "DATABASE_URL must name a file, such as file:data/fairthrow.db: results must outlive the program.",
    );
  return isAbsolute(path) ? path : resolve(/* turbopackIgnore: true */ path);
}

/** The URL without its password, for messages. */
export function describeUrl(url: string): string {
  return url.replace(/^(postgres(?:ql)?:\/\/[^:@/]*):[^@]*@/, "$1:…@");
}
