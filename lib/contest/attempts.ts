/**
 * How often wrong codes may be tried, without locking out a whole field behind one router: no count goes by address.
 *
 * - By the first four letters of the code: eight failures in ten minutes, then that group waits. Whoever guesses at
 *   one badge is stopped; that someone else's badge starts alike has a chance of one in a million.
 * - For all together: after 600 failures in ten minutes, codes are checked one at a time, ten a second, and at most a
 *   hundred wait. A right code still signs in, a little later; against 60 random bits ten guesses a second are nothing.
 *
 * Kept in memory, for each instance by itself.
 */
import { Refusal } from "./errors";

const WINDOW = 10 * 60_000; // ms
const PER_PREFIX = 8;
const TOGETHER = 600;
const SLOW_STEP = 100; // ms
const LANE = 100;

interface Attempts {
  byPrefix: Map<string, number[]>;
  failures: number[];
  /** When the slow lane's next check may start. */
  laneFree: number;
}

const shared = globalThis as typeof globalThis & { fairthrowAttempts?: Attempts };
shared.fairthrowAttempts ??= { byPrefix: new Map(), failures: [], laneFree: 0 };
const attempts = shared.fairthrowAttempts;

/** Waits for its turn, or throws 429. Call before checking a code. */
export async function mayTry(code: string, now = Date.now()): Promise<void> {
  forget(now);
  const own = attempts.byPrefix.get(prefixOf(code)) ?? [];
  if (own.length >= PER_PREFIX) {
    const seconds = Math.ceil(((own[0] ?? now) + WINDOW - now) / 1000);
    throw tooMany(
      `Too many wrong codes that start alike. Try again in ${Math.ceil(seconds / 60)} min.`,
      seconds,
    );
  }
  if (attempts.failures.length < TOGETHER) return;
  const start = Math.max(now, attempts.laneFree);
  if (start - now > LANE * SLOW_STEP)
    throw tooMany("Many wrong codes are being tried just now. Try again in a few seconds.", 5);
  attempts.laneFree = start + SLOW_STEP;
  await new Promise((resolve) => setTimeout(resolve, start - now));
}

/** Counts a wrong code. */
export function failed(code: string, now = Date.now()): void {
  const prefix = prefixOf(code);
  attempts.byPrefix.set(prefix, [...(attempts.byPrefix.get(prefix) ?? []), now]);
  attempts.failures.push(now);
}

/** For tests. */
export function forgetAttempts(): void {
  attempts.byPrefix.clear();
  attempts.failures.length = 0;
  attempts.laneFree = 0;
}

function forget(now: number): void {
  const young = (time: number) => time > now - WINDOW;
  while (attempts.failures[0] !== undefined && !young(attempts.failures[0])) attempts.failures.shift();
  if (attempts.byPrefix.size <= attempts.failures.length) return;
  for (const [prefix, times] of attempts.byPrefix) if (!times.some(young)) attempts.byPrefix.delete(prefix);
}

const prefixOf = (code: string) => code.slice(0, 4);

const tooMany = (detail: string, seconds: number) =>
  new Refusal(429, "too-many-attempts", detail, [{ field: "code", message: detail }], {}, seconds);
