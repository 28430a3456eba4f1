/**
 * The migrated database against prisma/schema.prisma, read from each side on its own: the schema's text, and
 * the engine's own catalogue. Where the two disagree, Prisma would write what the database cannot keep.
 */
import { readFileSync } from "node:fs";
import Libsql from "libsql";
import pg from "pg";
import { afterAll, beforeAll, expect, test } from "vitest";
import { migrate, sqlitePath } from "@/lib/db";
import { engine, freshPlace, type Place } from "@/tests/database";

type Column = { type: string; nullable: boolean; default: string | null };
type Table = {
  columns: Record<string, Column>;
  primaryKey: string[];
  unique: string[]; // each the list of its columns
  indexes: string[];
  foreignKeys: string[]; // columns -> table(columns) on delete, on update
};

// What each engine calls Prisma's types: https://www.prisma.io/docs/orm/reference/prisma-schema-reference
// (from memory); times to the millisecond, without zone, always UTC.
const TYPES: Record<string, Record<string, string>> = {
  sqlite: {
    String: "TEXT",
    Int: "INTEGER",
    Float: "REAL",
    Boolean: "BOOLEAN",
    DateTime: "DATETIME",
    Bytes: "BLOB",
  },
  postgresql: {
    String: "text",
    Int: "integer",
    Float: "double precision",
    Boolean: "boolean",
    DateTime: "timestamp(3) without time zone",
    Bytes: "bytea",
  },
};

function declared(): Record<string, Table> {
  const text = readFileSync("prisma/schema.prisma", "utf8");
  const models = [...text.matchAll(/^model (\w+) \{\n([\s\S]*?)\n\}/gm)];
  const names = new Set(models.map(([, name]) => name));
  const list = (columns: string) => columns.split(",").map((column) => column.trim());
  return Object.fromEntries(
    models.map(([, name, body]) => {
      const table: Table = { columns: {}, primaryKey: [], unique: [], indexes: [], foreignKeys: [] };
      for (const raw of body.split("\n")) {
        const line = raw.replace(/\/\/.*/, "").trim();
        if (!line) continue;
        const block = /^@@(\w+)\(\[([^\]]+)\]\)$/.exec(line);
        if (block?.[1] === "id") table.primaryKey = list(block[2]);
        else if (block?.[1] === "unique") table.unique.push(list(block[2]).join());
        else if (block?.[1] === "index") table.indexes.push(list(block[2]).join());
        else if (block || line.startsWith("@@"))
          throw new Error(`This test does not know ${line} in ${name}.`);
        else {
          const [, field, type, mark, attributes] = /^(\w+)\s+(\w+)(\?|\[\])?\s*(.*)$/.exec(line) ?? [];
          if (names.has(type)) {
            const own = /fields: \[([^\]]+)\], references: \[([^\]]+)\](?:, onDelete: (\w+))?/.exec(
              attributes,
            );
            // Prisma's default: https://www.prisma.io/docs/orm/prisma-schema/data-model/relations/referential-actions
            const onDelete = own?.[3] ?? (mark === "?" ? "SetNull" : "Restrict");
            if (own)
              table.foreignKeys.push(
                `${list(own[1]).join()} -> ${type}(${list(own[2]).join()}) ${onDelete}, Cascade`,
              );
            continue;
          }
          if (/@(id)\b/.test(attributes)) table.primaryKey = [field];
          if (/@unique\b/.test(attributes)) table.unique.push(field);
          // A text stands in single quotes in SQL.
          const preset = /@default\(([^)]*)\)/.exec(attributes)?.[1].replace(/^"(.*)"$/, "'$1'") ?? null;
          table.columns[field] = { type: TYPES[engine][type], nullable: mark === "?", default: preset };
        }
      }
      return [name, sorted(table)];
    }),
  );
}

const sorted = (table: Table): Table => ({
  ...table,
  unique: table.unique.sort(),
  indexes: table.indexes.sort(),
  foreignKeys: table.foreignKeys.sort(),
});

const ACTIONS: Record<string, string> = {
  RESTRICT: "Restrict",
  CASCADE: "Cascade",
  "SET NULL": "SetNull",
  "NO ACTION": "NoAction",
  r: "Restrict",
  c: "Cascade",
  n: "SetNull",
  a: "NoAction",
};

function inSqlite(path: string): Record<string, Table> {
  const database = new Libsql(path);
  const all = <Row>(statement: string) => database.prepare(statement).all() as Row[];
  const tables = all<{ name: string }>("SELECT name FROM sqlite_master WHERE type = 'table'");
  const result = tables
    .filter(({ name }) => !name.startsWith("sqlite_"))
    .map(({ name }): [string, Table] => {
      const columns = all<{ name: string; type: string; notnull: number; dflt_value: string; pk: number }>(
        `PRAGMA table_info("${name}")`,
      );
      const indexes = all<{ name: string; unique: number; origin: string }>(`PRAGMA index_list("${name}")`);
      const columnsOf = (index: string) =>
        all<{ name: string }>(`PRAGMA index_info("${index}")`)
          .map((column) => column.name)
          .join();
      const keys = all<{
        id: number;
        table: string;
        from: string;
        to: string;
        on_delete: string;
        on_update: string;
      }>(`PRAGMA foreign_key_list("${name}")`);
      return [
        name,
        sorted({
          columns: Object.fromEntries(
            columns.map((column) => [
              column.name,
              { type: column.type, nullable: column.notnull === 0, default: column.dflt_value },
            ]),
          ),
          primaryKey: columns
            .filter(({ pk }) => pk > 0)
            .sort((a, b) => a.pk - b.pk)
            .map((column) => column.name),
          unique: indexes
            .filter((index) => index.unique && index.origin !== "pk")
            .map((i) => columnsOf(i.name)),
          indexes: indexes.filter((index) => !index.unique).map((index) => columnsOf(index.name)),
          foreignKeys: keys.map(
            (key) =>
              `${key.from} -> ${key.table}(${key.to}) ${ACTIONS[key.on_delete]}, ${ACTIONS[key.on_update]}`,
          ),
        }),
      ];
    });
  database.close();
  return Object.fromEntries(result);
}

async function inPostgresql(url: string): Promise<Record<string, Table>> {
  const client = new pg.Client({ connectionString: url });
  await client.connect();
  const { rows: columns } = await client.query(
    `SELECT c.relname AS table, a.attname AS name, format_type(a.atttypid, a.atttypmod) AS type,
            NOT a.attnotnull AS nullable, pg_get_expr(d.adbin, d.adrelid) AS default
     FROM pg_class c JOIN pg_attribute a ON a.attrelid = c.oid AND a.attnum > 0 AND NOT a.attisdropped
     LEFT JOIN pg_attrdef d ON d.adrelid = c.oid AND d.adnum = a.attnum
     WHERE c.relkind = 'r' AND c.relnamespace = 'public'::regnamespace ORDER BY c.relname, a.attnum`,
  );
  const { rows: indexes } = await client.query(
    `SELECT i.indrelid::regclass::text AS table, i.indisprimary AS primary, i.indisunique AS unique,
            (SELECT array_agg(a.attname::text ORDER BY k.position)
             FROM unnest(i.indkey::int[]) WITH ORDINALITY AS k(number, position)
             JOIN pg_attribute a ON a.attrelid = i.indrelid AND a.attnum = k.number) AS columns
     FROM pg_index i JOIN pg_class c ON c.oid = i.indrelid WHERE c.relnamespace = 'public'::regnamespace`,
  );
  const { rows: keys } = await client.query(
    `SELECT conrelid::regclass::text AS table, confrelid::regclass::text AS target,
            confdeltype AS deleting, confupdtype AS updating,
            (SELECT array_agg(attname::text) FROM pg_attribute WHERE attrelid = conrelid AND attnum = ANY (conkey)) AS columns,
            (SELECT array_agg(attname::text) FROM pg_attribute WHERE attrelid = confrelid AND attnum = ANY (confkey)) AS references
     FROM pg_constraint WHERE contype = 'f'`,
  );
  await client.end();
  const tables: Record<string, Table> = {};
  for (const column of columns) {
    tables[column.table] ??= { columns: {}, primaryKey: [], unique: [], indexes: [], foreignKeys: [] };
    tables[column.table].columns[column.name] = {
      type: column.type,
      nullable: column.nullable,
      default: column.default?.replace(/^('.*')::text$/, "$1") ?? null,
    };
  }
  const bare = (name: string) => name.replaceAll('"', "");
  for (const index of indexes) {
    const table = tables[bare(index.table)];
    if (index.primary) table.primaryKey = index.columns;
    else (index.unique ? table.unique : table.indexes).push(index.columns.join());
  }
  for (const key of keys)
    tables[bare(key.table)].foreignKeys.push(
      `${key.columns.join()} -> ${bare(key.target)}(${key.references.join()}) ${ACTIONS[key.deleting]}, ${ACTIONS[key.updating]}`,
    );
  return Object.fromEntries(Object.entries(tables).map(([name, table]) => [name, sorted(table)]));
}

let place: Place;
beforeAll(async () => {
  place = await freshPlace();
  await migrate(place.url);
});
afterAll(() => place.remove());

test("the migrations make exactly the tables of the schema", async () => {
  const found = engine === "sqlite" ? inSqlite(sqlitePath(place.url)) : await inPostgresql(place.url);
  const { schema_migration, ...tables } = found;
  expect(Object.keys(schema_migration.columns)).toEqual(["name", "checksum", "appliedAt"]);
  expect(tables).toEqual(declared());
});
