/**
 * Wrong codes, without locking out a field behind one router: no count goes by address, and none by how many are tried.
 *
 * - Guessing is hopeless by itself: of 32^12 = 1.2e18 codes, ten thousand tries a second for three days hit one of 200
 *   unused badges with a chance of 5 in ten million.
 * - A flood costs others nothing: what has no badge's tag (badge-code.ts) is refused without the slow hash, and
 *   of random codes one in five thousand has one. A right code always has. All wrong ones are answered equally late, so
 *   that nobody learns by a clock which tags there are.
 * - By the first eight letters: eight failures in ten minutes, then that group waits. Who has read so much off an
 *   unused card needs two and a half years to try the rest. Nobody who has not seen the card can make it wait.
 *
 * Kept in memory, for each instance by itself.
 */
import { randomInt } from "node:crypto";
import { Refusal } from "./errors";

const WINDOW = 10 * 60_000; // ms
const MOST = 8;
const SEEN = 8; // letters
/** How soon a wrong code is answered, ms: a slow hash takes 10. */
const ANSWERED = 50;
const AT_ONCE = 4;
const WAITING = 400;

/**
 * Failures by their first letters, within a size that no flood changes: a group's count is the smallest of four counters,
 * each shared with others that differ from row to row.
 */
const ROWS = 4;
const COUNTERS = 1 << 20;

interface Attempts {
  since: number;
  counts: Uint8Array | null;
  salts: number[];
  running: number;
  queue: (() => void)[];
}

const shared = globalThis as typeof globalThis & { fairthrowCodeAttempts?: Attempts };
shared.fairthrowCodeAttempts ??= { since: 0, counts: null, salts: newSalts(), running: 0, queue: [] };
const attempts = shared.fairthrowCodeAttempts;

function newSalts(): number[] {
  return Array.from({ length: ROWS }, () => randomInt(2 ** 31));
}

/**
 * Refuses with 429 where codes that begin alike were wrong too often; otherwise runs `check`, and counts a null as wrong
 * and answers it late.
 */
export async function tryCode<T>(code: string, check: () => Promise<T | null>): Promise<T | null> {
  const started = Date.now();
  mayTry(code, started);
  const found = await check();
  if (found !== null) return found;
  failed(code, started);
  await new Promise((resolve) => setTimeout(resolve, Math.max(0, started + ANSWERED - Date.now())));
  return null;
}

/** Few at a time, so that whoever finds out tags keeps nothing else from running. */
export async function slowly<T>(work: () => Promise<T>): Promise<T> {
  if (attempts.running >= AT_ONCE) {
    if (attempts.queue.length >= WAITING)
      throw tooMany("Many codes are being tried just now. Try again in a few seconds.", 5);
    await new Promise<void>((resolve) => attempts.queue.push(resolve));
  } else attempts.running++;
  try {
    return await work();
  } finally {
    const next = attempts.queue.shift();
    if (next) next();
    else attempts.running--;
  }
}

/** Throws 429. */
export function mayTry(code: string, now = Date.now()): void {
  const { since, counts } = attempts;
  if (!counts) return;
  if (now - since >= WINDOW) forgetAttempts();
  else if (Math.min(...placesOf(code).map((place) => counts[place] ?? 0)) >= MOST) {
    const seconds = Math.ceil((since + WINDOW - now) / 1000);
    const minutes = Math.ceil(seconds / 60);
    throw tooMany(`Too many wrong codes that begin alike. Try again in ${minutes} min.`, seconds);
  }
}

/** Counts a wrong code. */
export function failed(code: string, now = Date.now()): void {
  if (!attempts.counts || now - attempts.since >= WINDOW) {
    forgetAttempts();
    attempts.since = now;
    attempts.counts = new Uint8Array(ROWS * COUNTERS);
  }
  for (const place of placesOf(code)) {
    const count = attempts.counts[place] ?? 0;
    if (count < MOST) attempts.counts[place] = count + 1;
  }
}

export function forgetAttempts(): void {
  attempts.since = 0;
  attempts.counts = null;
  attempts.salts = newSalts();
}

function placesOf(code: string): number[] {
  const seen = code.slice(0, SEEN);
  return attempts.salts.map((salt, row) => {
    let mixed = salt;
    for (let index = 0; index < seen.length; index++)
      mixed = Math.imul(mixed ^ seen.charCodeAt(index), 0x01000193) ^ (mixed >>> 15);
    return row * COUNTERS + ((mixed ^ (mixed >>> 12)) & (COUNTERS - 1));
  });
}

const tooMany = (detail: string, seconds: number) =>
  new Refusal(429, "too-many-attempts", detail, [{ field: "code", message: detail }], {}, seconds);
