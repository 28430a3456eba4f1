/**
 * Makes the two Prisma clients, SQLite's and PostgreSQL's, from the one prisma/schema.prisma.
 *
 * Prisma's `generate` looks for its schema engine, which it would fetch from a server that is often out of
 * reach, and never runs it. Naming any existing executable is enough to keep it from looking.
 */
import { spawnSync } from "node:child_process";
import { mkdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";

const root = fileURLToPath(new URL("../../", import.meta.url));
const generated = join(root, "lib/db/generated");
const source = join(root, "prisma/schema.prisma");
const derived = join(generated, "postgresql.prisma");

/** The schema of the other engine: the same models, another provider, another place for the client. */
export function postgresqlSchema(sqliteSchema) {
  const schema = sqliteSchema
    .replace('provider = "sqlite"', 'provider = "postgresql"')
    .replace('"../lib/db/generated/sqlite"', '"./postgresql"');
  if (schema.includes("sqlite/") || !schema.includes('"postgresql"') || !schema.includes('"./postgresql"'))
    throw new Error(
      "prisma/schema.prisma: the provider or output line has changed; follow it in lib/db/generate.mjs",
    );
  return schema;
}

/** Replaces lib/db/generated. Throws with Prisma's own words when the schema is wrong. */
export function generate() {
  rmSync(generated, { recursive: true, force: true });
  mkdirSync(generated, { recursive: true });
  writeFileSync(derived, postgresqlSchema(readFileSync(source, "utf8")));
  const prisma = join(root, "node_modules/prisma/build/index.js");
  for (const schema of [source, derived]) {
    const run = spawnSync(process.execPath, [prisma, "generate", "--schema", schema, "--no-hints"], {
      cwd: root,
      encoding: "utf8",
      env: {
        ...process.env,
        PRISMA_SCHEMA_ENGINE_BINARY: process.execPath,
        PRISMA_HIDE_UPDATE_MESSAGE: "1",
        CHECKPOINT_DISABLE: "1",
      },
    });
    if (run.status !== 0)
      throw new Error(
        `prisma generate failed on ${schema}:\n${run.stdout ?? ""}${run.stderr ?? run.error ?? ""}`,
      );
  }
}

if (process.argv[1] && import.meta.url === pathToFileURL(process.argv[1]).href) generate();
