/**
 * A database of its own for a test, empty and migrated, on the engine the test project names: a file in a
 * temporary folder, or a new database on the tests' PostgreSQL server.
 */
import { randomUUID } from "node:crypto";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import pg from "pg";
import { inject } from "vitest";
import { type Database, type Engine, migrate, openDatabase } from "@/lib/db";

export const engine = (process.env.FAIRTHROW_TEST_ENGINE ?? "sqlite") as Engine;

export type Place = { url: string; folder: string; remove: () => Promise<void> };

/** Where a new database may be: nothing is there yet on SQLite, an empty database on PostgreSQL. */
export async function freshPlace(on: Engine = engine): Promise<Place> {
  const folder = mkdtempSync(join(tmpdir(), "fairthrow-test-"));
  const clear = async () => rmSync(folder, { recursive: true, force: true });
  if (on === "sqlite") return { url: `file:${join(folder, "test.db")}`, folder, remove: clear };
  const name = `test_${randomUUID().replaceAll("-", "")}`;
  const server = inject("postgresql");
  await onServer(server, `CREATE DATABASE ${name}`);
  const url = new URL(server);
  url.pathname = `/${name}`;
  const remove = async () => {
    await onServer(server, `DROP DATABASE IF EXISTS ${name} WITH (FORCE)`);
    await clear();
  };
  return { url: url.href, folder, remove };
}

async function onServer(url: string, statement: string): Promise<void> {
  const client = new pg.Client({ connectionString: url });
  await client.connect();
  try {
    await client.query(statement);
  } finally {
    await client.end();
  }
}

/** An open, migrated, empty database; `close` also deletes it. */
export async function freshDatabase(): Promise<Place & { database: Database; close: () => Promise<void> }> {
  const place = await freshPlace();
  await migrate(place.url);
  const database = await openDatabase(place.url);
  const close = async () => {
    await database.$disconnect();
    await place.remove();
  };
  return { ...place, database, close };
}
