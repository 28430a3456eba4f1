/** The one way to write: once, in one transaction, with its entry in the scorebook. */
import { createCipheriv, createDecipheriv, createHmac, hkdfSync, randomBytes } from "node:crypto";
import {
  type Database,
  type DatabaseTransaction,
  insertRow,
  inTransaction,
  notify,
  rowsOf,
  settle,
} from "../db";
import { Refusal } from "./errors";
import type { Asker } from "./roles";
import { canonical, OpenScorebook, sha256 } from "./scorebook";

/** Who asks for a write, and under which idempotency key. */
export interface Call {
  db: Database;
  actor: Asker;
  key: string;
}

export interface Reply<T> {
  /** 201 when something was made, 200 when something was changed. */
  status: number;
  answer: T;
  /** The same request had come before: nothing was changed this time. */
  replayed: boolean;
}

interface Options {
  status?: 200 | 201;
  /** The answer holds a code or a token: it is kept encrypted under the sender's key, which is kept only hashed. */
  secret?: boolean;
}

const KEY = /^[\x21-\x7e]{16,200}$/;

/**
 * Runs `work` and the scorebook entries it appends in one transaction, and keeps the answer under the sender's
 * idempotency key. The same key with the same request gets the same answer and changes nothing; with another request
 * it is refused. A refusal rolls everything back, its key too, so the write may be tried again.
 *
 * @param contestId whose scorebook it is, also when the contest is made here; null for signing in and out
 * @param request what makes two requests the same: the act, the ids in the address, the checked body
 */
export async function committed<T extends object>(
  call: Call,
  contestId: string | null,
  request: Record<string, unknown>,
  work: (tx: DatabaseTransaction, book: OpenScorebook) => Promise<T>,
  { secret = false, status = 201 }: Options = {},
): Promise<Reply<T>> {
  const row = { key: storedKey(call), requestHash: hashed(request, call.key) };
  return inTransaction(call.db, async (tx) => {
    const [before] = await rowsOf<Before>(
      tx,
      `SELECT "requestHash", "status", "answer" FROM "Idempotency" WHERE "key" = ?`,
      row.key,
    );
    if (before) return replay<T>(before, request, call.key, secret);

    const book = await OpenScorebook.at(tx, contestId ?? "", call.actor?.badgeId ?? null);
    const start = book.sequence;
    const answer = await work(tx, book);
    const text = JSON.stringify(answer);
    const kept = secret ? seal(text, call.key) : text;
    await insertRow(tx, "Idempotency", { ...row, status, answer: kept, createdAt: book.at });
    if (contestId && book.sequence > start) await notify(tx, contestId, book.sequence);
    return { status, answer, replayed: false };
  });
}

/** The answer that was given to this very request before, or null. Saves preparing what will not be written. */
export async function answeredBefore<T extends object>(
  call: Call,
  request: Record<string, unknown>,
): Promise<Reply<T> | null> {
  const before = await call.db.idempotency.findUnique({ where: { key: storedKey(call) } });
  return before ? replay<T>(before, request, call.key, false) : null;
}

interface Before {
  requestHash: string;
  status: number;
  answer: string;
}

/**
 * Under the sender's key, which is not stored: a request may hold names, and whoever has the database could else try out
 * which, even after they were erased.
 */
const hashed = (request: Record<string, unknown>, key: string): string =>
  createHmac("sha256", key).update(canonical(request)).digest("hex");

function replay<T>(before: Before, request: Record<string, unknown>, key: string, secret: boolean): Reply<T> {
  // Rows of earlier versions have the bare hash: what a phone sends again after an update is still known.
  if (![hashed(request, key), sha256(canonical(request))].includes(before.requestHash))
    throw new Refusal(
      422,
      "idempotency-key-reused",
      "This Idempotency-Key came before with another request. Use a new key for every new entry.",
      [{ field: "Idempotency-Key", message: "Use a new key for every new entry." }],
    );
  const text = secret ? unseal(before.answer, key) : before.answer;
  return { status: before.status, answer: JSON.parse(text) as T, replayed: true };
}

/** Keys of different senders never meet, and the sender's own is not readable in the database. */
function storedKey(call: Call): string {
  if (!KEY.test(call.key))
    throw new Refusal(
      400,
      "idempotency-key",
      "Send an Idempotency-Key header of 16 to 200 visible characters, new for every entry; a random UUID will do.",
      [{ field: "Idempotency-Key", message: "Give 16 to 200 visible characters, such as a random UUID." }],
    );
  return `${call.actor?.badgeId ?? "anyone"}:${sha256(call.key)}`;
}

/** A new salt, and so a new key, for every answer; it serves as the nonce too. */
const SALT = 12;
const TAG = 16;
const sealKey = (key: string, salt: Buffer) =>
  Buffer.from(hkdfSync("sha256", key, salt, "fairthrow answer", 32));

function seal(text: string, key: string): string {
  const salt = randomBytes(SALT);
  const cipher = createCipheriv("aes-256-gcm", sealKey(key, salt), salt);
  const sealed = Buffer.concat([cipher.update(text, "utf8"), cipher.final()]);
  return Buffer.concat([salt, cipher.getAuthTag(), sealed]).toString("base64");
}

function unseal(text: string, key: string): string {
  const bytes = Buffer.from(text, "base64");
  const salt = bytes.subarray(0, SALT);
  const decipher = createDecipheriv("aes-256-gcm", sealKey(key, salt), salt);
  decipher.setAuthTag(bytes.subarray(SALT, SALT + TAG));
  return Buffer.concat([decipher.update(bytes.subarray(SALT + TAG)), decipher.final()]).toString("utf8");
}

/** An erasure, out of the database's journal too. */
export async function thenSettled<T>(db: Database, erasure: Promise<T>): Promise<T> {
  const reply = await erasure;
  await settle(db);
  return reply;
}
