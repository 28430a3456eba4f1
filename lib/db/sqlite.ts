/**
 * One connection to one SQLite file, for Prisma's libSQL adapter.
 *
 * The client that the adapter would make opens a second connection behind every interactive transaction,
 * begins it deferred, and neither pragmas nor the busy timeout follow. This one keeps to a single connection:
 * the adapter already lets nothing else run while a transaction is open, so nothing is lost. It prepares a
 * statement once, and leaves rows the arrays that the adapter reads: that was a quarter of a busy server's time. Inside a
 * transaction it also takes statements past the client (statements.ts).
 */
import { mkdirSync } from "node:fs";
import { dirname } from "node:path";
import type { Client, InStatement, ResultSet, Transaction } from "@libsql/client";
import { PrismaLibSql } from "@prisma/adapter-libsql";
import Libsql from "libsql";

/** Another process (a backup, a person with a tool) may hold the file for a moment, ms. */
const BUSY_TIMEOUT = 5000;

const PRAGMAS = [
  "PRAGMA journal_mode = WAL",
  // An fsync for every commit: a fair runs on a generator.
  "PRAGMA synchronous = FULL",
  "PRAGMA foreign_keys = ON",
  // What is erased is overwritten: people's names and photographs would else stay readable in the file.
  "PRAGMA secure_delete = ON",
];

/** What the program asks at all is a few hundred; of lists of varying length the longest unused go. */
const MOST_STATEMENTS = 500;

export class SqliteAdapter extends PrismaLibSql {
  readonly #path: string;
  #connection: Connection | null = null;

  constructor(path: string) {
    super({ url: `file:${path}` });
    this.#path = path;
  }

  override createClient(): Client {
    mkdirSync(dirname(this.#path), { recursive: true });
    this.#connection = new Connection(this.#path);
    // All that the adapter calls.
    const own: Pick<Client, "execute" | "executeMultiple" | "transaction" | "close"> = this.#connection;
    return own as Client;
  }

  /** Runs statements of the transaction that is open now, and of no other. */
  statements(): Statements {
    if (!this.#connection) throw new Error("This file was not opened.");
    return this.#connection.statements();
  }
}

/** Gives the rows by column name. Throws once its transaction has ended: nothing may be written outside of it. */
export type Statements = (sql: string, args: readonly unknown[]) => Record<string, unknown>[];

interface Prepared {
  statement: Libsql.Statement;
  /** Null when it answers no rows. */
  columns: { names: string[]; types: string[] } | null;
}

class Connection {
  readonly #db: Libsql.Database;
  readonly #prepared = new Map<string, Prepared>();
  /** Stands for the open transaction. */
  #open: object | null = null;

  constructor(path: string) {
    this.#db = new Libsql(path, { timeout: BUSY_TIMEOUT });
    for (const pragma of PRAGMAS) this.#db.exec(pragma);
  }

  async execute(asked: InStatement | string): Promise<ResultSet> {
    const { sql, args = [] } = typeof asked === "string" ? { sql: asked } : asked;
    const { statement, columns } = this.#prepare(sql);
    const values = (args as unknown[]).map(toSql);
    if (columns === null) return resultOf({ names: [], types: [] }, [], statement.run(values).changes);
    const rows = statement.all(values) as unknown[][];
    for (const row of rows)
      for (let index = 0; index < row.length; index++)
        if (Buffer.isBuffer(row[index])) row[index] = bytesOf(row[index] as Buffer);
    return resultOf(columns, rows, 0);
  }

  #prepare(sql: string): Prepared {
    const known = this.#prepared.get(sql);
    const prepared = known ?? prepare(this.#db, sql);
    this.#prepared.delete(sql);
    this.#prepared.set(sql, prepared);
    if (this.#prepared.size > MOST_STATEMENTS) {
      const [oldest] = this.#prepared.keys();
      this.#prepared.delete(oldest as string);
    }
    return prepared;
  }

  async executeMultiple(sql: string): Promise<void> {
    this.#db.exec(sql);
  }

  /** On this very connection. Immediate: it waits for its turn here, not half way. */
  async transaction(): Promise<Transaction> {
    await this.execute("BEGIN IMMEDIATE");
    this.#open = {};
    let closed = false;
    const end = async (statement: "COMMIT" | "ROLLBACK") => {
      if (closed) return;
      closed = true;
      this.#open = null;
      await this.execute(statement);
    };
    return {
      execute: (statement: InStatement) => this.execute(statement),
      batch: () => Promise.reject(new Error("A batch inside a transaction is not supported.")),
      executeMultiple: () => Promise.reject(new Error("A script inside a transaction is not supported.")),
      rollback: () => end("ROLLBACK"),
      commit: async () => {
        try {
          await end("COMMIT");
        } catch (error) {
          // A commit that fails (a full disk) may leave the transaction open, and this connection stays.
          await this.execute("ROLLBACK").catch(() => {});
          throw error;
        }
      },
      close: () => void end("ROLLBACK").catch(() => {}),
      get closed() {
        return closed;
      },
    } as Transaction;
  }

  statements(): Statements {
    const own = this.#open;
    return (sql, args) => {
      if (own === null || this.#open !== own) throw new Error("This transaction is over.");
      const { statement, columns } = this.#prepare(sql);
      const values = args.map(toStored);
      if (columns === null) {
        statement.run(values);
        return [];
      }
      const { names, types } = columns;
      return (statement.all(values) as unknown[][]).map((row) =>
        Object.fromEntries(row.map((value, index) => [names[index], fromStored(value, types[index])])),
      );
    };
  }

  close(): void {
    this.#prepared.clear();
    this.#db.close();
  }
}

function prepare(db: Libsql.Database, sql: string): Prepared {
  const statement = db.prepare(sql);
  if (!statement.reader) return { statement, columns: null };
  const columns = statement.raw(true).columns();
  return {
    statement,
    columns: {
      names: columns.map(({ name }) => name),
      types: columns.map(({ type }) => type ?? ""),
    },
  };
}

const resultOf = (
  { names, types }: { names: string[]; types: string[] },
  rows: unknown[][],
  rowsAffected: number,
) => ({ columns: names, columnTypes: types, rows, rowsAffected }) as unknown as ResultSet;

function toSql(value: unknown): unknown {
  if (typeof value === "boolean") return value ? 1 : 0;
  if (value instanceof ArrayBuffer) return Buffer.from(value);
  return value;
}

/** As the adapter stores it, so that texts compare as times do. */
const toStored = (value: unknown) =>
  value instanceof Date ? value.toISOString().replace("Z", "+00:00") : toSql(value);

function fromStored(value: unknown, type: string | undefined): unknown {
  if (value === null) return null;
  if (type === "DATETIME") return new Date(value as string);
  return type === "BOOLEAN" ? value === 1 : value;
}

/** An ArrayBuffer of these bytes alone: a Buffer may be a window on a larger one. */
const bytesOf = ({ buffer, byteOffset, byteLength }: Buffer) =>
  buffer.slice(byteOffset, byteOffset + byteLength);
