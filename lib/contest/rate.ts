/** How often something may be done, by a name of one's own: kept in memory, for each instance by itself. */
import { Refusal } from "./errors";

const shared = globalThis as typeof globalThis & { fairthrowRates?: Map<string, number[]> };
shared.fairthrowRates ??= new Map();
const rates = shared.fairthrowRates;
/** Names remembered before those that have rested are forgotten. */
const MANY = 1000;

export interface Rate {
  most: number;
  /** ms */
  within: number;
}

/** Counts one more, or throws 429. */
export function mustBeUnhurried(name: string, { most, within }: Rate, now = Date.now()): void {
  if (rates.size > MANY)
    for (const [other, times] of rates) if ((times.at(-1) ?? 0) < now - within) rates.delete(other);
  const times = (rates.get(name) ?? []).filter((time) => time > now - within);
  rates.set(name, times);
  if (times.length >= most) {
    const seconds = Math.max(1, Math.ceil(((times[0] ?? now) + within - now) / 1000));
    throw new Refusal(
      429,
      "too-often",
      `Too much came at once. What is entered is kept here: try again in ${seconds < 90 ? `${seconds} s` : `${Math.ceil(seconds / 60)} min`}.`,
      [],
      {},
      seconds,
    );
  }
  times.push(now);
}
