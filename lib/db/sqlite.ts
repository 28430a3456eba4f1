/**
 * One connection to one SQLite file, for Prisma's libSQL adapter.
 *
 * The adapter's own client opens a second connection behind every interactive transaction, begins it
 * deferred, and neither pragmas nor the busy timeout follow. This one keeps to a single connection: the
 * adapter already lets nothing else run while a transaction is open, so nothing is lost.
 */
import { mkdirSync } from "node:fs";
import { dirname } from "node:path";
import { type Client, type Config, createClient, type Transaction } from "@libsql/client";
import { PrismaLibSql } from "@prisma/adapter-libsql";

/** Another process (a backup, a person with a tool) may hold the file for a moment, ms. */
const BUSY_TIMEOUT = 5000;

const PRAGMAS = [
  "PRAGMA journal_mode = WAL",
  // An fsync for every commit: a fair runs on a generator.
  "PRAGMA synchronous = FULL",
  "PRAGMA foreign_keys = ON",
];

export class SqliteAdapter extends PrismaLibSql {
  readonly #pragmas: Promise<unknown>[] = [];

  constructor(path: string) {
    mkdirSync(dirname(path), { recursive: true });
    super({ url: `file:${encodeURI(path).replaceAll("?", "%3F").replaceAll("#", "%23")}` });
  }

  override createClient(config: Config): Client {
    const client = createClient({ ...config, timeout: BUSY_TIMEOUT });
    for (const pragma of PRAGMAS) this.#pragmas.push(client.execute(pragma));
    return new Proxy(client, {
      get(target, name) {
        if (name === "transaction") return () => begin(target);
        const value = Reflect.get(target, name, target);
        return typeof value === "function" ? value.bind(target) : value;
      },
    });
  }

  override async connect() {
    const adapter = await super.connect();
    await Promise.all(this.#pragmas);
    return adapter;
  }
}

/** A transaction on the client's own connection. Immediate: it waits for its turn here, not half way. */
async function begin(client: Client): Promise<Transaction> {
  await client.execute("BEGIN IMMEDIATE");
  let closed = false;
  const end = async (statement: "COMMIT" | "ROLLBACK") => {
    if (closed) return;
    closed = true;
    await client.execute(statement);
  };
  return {
    execute: (statement: Parameters<Client["execute"]>[0]) => client.execute(statement),
    batch: () => Promise.reject(new Error("A batch inside a transaction is not supported.")),
    executeMultiple: () => Promise.reject(new Error("A script inside a transaction is not supported.")),
    rollback: () => end("ROLLBACK"),
    commit: async () => {
      try {
        await end("COMMIT");
      } catch (error) {
        // A commit that fails (a full disk) may leave the transaction open, and this connection stays.
        await client.execute("ROLLBACK").catch(() => {});
        throw error;
      }
    },
    close: () => void end("ROLLBACK").catch(() => {}),
    get closed() {
      return closed;
    },
  } as Transaction;
}
