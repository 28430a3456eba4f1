/**
 * Telling every instance of the program that a contest's scorebook has grown. A notice carries the sequence
 * number alone; who hears it reads the rest from the database. PostgreSQL carries it with NOTIFY to every
 * instance, SQLite has only this process. A flash is told at once, whole, and stands nowhere.
 */
import { randomUUID } from "node:crypto";
import { EventEmitter } from "node:events";
import type { Client } from "pg";
import { databaseUrl, engineOfUrl } from "./location";
import { type Database, type DatabaseTransaction, engineOf } from "./open";

export type Notice = { contestId: string; sequence: number };
/** `content`: JSON of a few kB at most, as PostgreSQL carries no more. */
export type Flash = { contestId: string; content: string };

const CHANNEL = "fairthrow_scorebook";
const FLASHES = "fairthrow_flash";
const RECONNECT_AFTER = 1000; // ms

const shared = globalThis as typeof globalThis & {
  fairthrowNotices?: EventEmitter;
  fairthrowPending?: WeakMap<object, Notice[]>;
  fairthrowInstance?: string;
};
shared.fairthrowNotices ??= new EventEmitter().setMaxListeners(0);
shared.fairthrowPending ??= new WeakMap();
shared.fairthrowInstance ??= randomUUID();
const emitter = shared.fairthrowNotices;
const own = shared.fairthrowInstance;
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

/** Tells all who listen: those of this process before it returns, whatever the database does; others by PostgreSQL. */
export function flash(db: Database, told: Flash): void {
  emitter.emit("flash", told);
  if (engineOf(db) !== "postgresql") return;
  const payload = JSON.stringify({ ...told, from: own });
  db.$executeRaw`SELECT pg_notify(${FLASHES}, ${payload})`.catch((error) =>
    console.error("The other instances were not told.", error),
  );
}

/** Calls `hear` for every flash from now on. Other instances' ones are heard as soon as PostgreSQL can be reached. */
export function listenToFlashes(hear: (told: Flash) => void, url = databaseUrl()): () => void {
  emitter.on("flash", hear);
  let stop = async () => {};
  let stopped = false;
  const connect = () =>
    listenToPostgresql(url, FLASHES, (payload) => {
      const { from, ...told } = JSON.parse(payload) as Flash & { from: string };
      if (from !== own) hear(told);
    }).then(
      (end) => {
        stop = end;
        if (stopped) void end();
      },
      () => void setTimeout(() => !stopped && void connect(), RECONNECT_AFTER).unref(),
    );
  if (engineOfUrl(url) === "postgresql") void connect();
  return () => {
    stopped = true;
    emitter.off("flash", hear);
    void stop();
  };
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
  if (engineOfUrl(url) === "postgresql")
    return listenToPostgresql(url, CHANNEL, (payload) => hear(JSON.parse(payload) as Notice), afterGap);
  emitter.on("notice", hear);
  return async () => void emitter.off("notice", hear);
}

async function listenToPostgresql(
  url: string,
  channel: string,
  hear: (payload: string) => void,
  afterGap: () => void = () => {},
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
      if (message.channel === channel && message.payload) hear(message.payload);
    });
    await next.connect();
    await next.query(`LISTEN ${channel}`);
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
