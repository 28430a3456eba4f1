/**
 * Telling every instance of the program that a contest's scorebook has grown. A notice carries the sequence
 * number alone; who hears it reads the rest from the database. PostgreSQL carries it with NOTIFY to every
 * instance, SQLite has only this process.
 */
import { EventEmitter } from "node:events";
import type { Client } from "pg";
import { databaseUrl, engineOfUrl } from "./location";
import { type DatabaseTransaction, engineOf } from "./open";

export type Notice = { contestId: string; sequence: number };

const CHANNEL = "fairthrow_scorebook";
const RECONNECT_AFTER = 1000; // ms

const shared = globalThis as typeof globalThis & {
  fairthrowNotices?: EventEmitter;
  fairthrowPending?: WeakMap<object, Notice[]>;
};
shared.fairthrowNotices ??= new EventEmitter().setMaxListeners(0);
shared.fairthrowPending ??= new WeakMap();
const emitter = shared.fairthrowNotices;
const pending = shared.fairthrowPending;

/** Inside inTransaction: announces `sequence` to all who listen, once and only if the transaction commits. */
export async function notify(
  transaction: DatabaseTransaction,
  contestId: string,
  sequence: number,
): Promise<void> {
  const notice: Notice = { contestId, sequence };
  if (engineOf(transaction) === "postgresql") {
    await transaction.$executeRaw`SELECT pg_notify(${CHANNEL}, ${JSON.stringify(notice)})`;
    return;
  }
  const notices = pending.get(transaction) ?? [];
  notices.push(notice);
  pending.set(transaction, notices);
}

/** For inTransaction alone. */
export function announceAfterCommit(transaction: DatabaseTransaction): void {
  for (const notice of pending.get(transaction) ?? []) emitter.emit("notice", notice);
  pending.delete(transaction);
}

/** For inTransaction alone. */
export function discardAnnouncements(transaction: DatabaseTransaction): void {
  pending.delete(transaction);
}

/**
 * Calls `hear` for every notice committed on the program's database from now on. `afterGap` is called when
 * notices may have been missed (the connection to PostgreSQL was lost and is back): read anew. Resolves, once
 * it is listening, to a function that stops it. One call serves all open pages.
 */
export async function listen(
  hear: (notice: Notice) => void,
  afterGap: () => void = () => {},
  url = databaseUrl(),
): Promise<() => Promise<void>> {
  if (engineOfUrl(url) === "postgresql") return listenToPostgresql(url, hear, afterGap);
  emitter.on("notice", hear);
  return async () => void emitter.off("notice", hear);
}

async function listenToPostgresql(
  url: string,
  hear: (notice: Notice) => void,
  afterGap: () => void,
): Promise<() => Promise<void>> {
  const { default: pg } = await import("pg");
  let stopped = false;
  let client: Client | undefined;
  let timer: NodeJS.Timeout | undefined;

  const connect = async () => {
    const next = new pg.Client({ connectionString: url, keepAlive: true });
    let lost = false;
    const onLoss = () => {
      if (lost) return;
      lost = true;
      next.end().catch(() => {});
      if (!stopped && client === next) retry();
    };
    next.on("error", onLoss);
    next.on("end", onLoss);
    next.on("notification", (message) => {
      if (message.channel === CHANNEL && message.payload) hear(JSON.parse(message.payload) as Notice);
    });
    await next.connect();
    await next.query(`LISTEN ${CHANNEL}`);
    client = next;
    if (lost) throw new Error("The connection was lost while it was made.");
  };
  const retry = () => {
    timer = setTimeout(async () => {
      if (stopped) return;
      try {
        await connect();
        if (stopped) await client?.end();
        else afterGap();
      } catch {
        retry();
      }
    }, RECONNECT_AFTER);
    timer.unref();
  };

  await connect();
  return async () => {
    stopped = true;
    clearTimeout(timer);
    await client?.end().catch(() => {});
  };
}
