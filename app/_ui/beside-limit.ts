/** Numbers beside a limit: rounded so that none seems to keep one that it does not keep. Pure. */
import { downToTwoDigits, upToTwoDigits } from "@/lib/units";

/** Rounding in the last bits is no difference: masses typed in pounds add up to none. */
const HAIR = 1e-9;
const MOST_DIGITS = 6;

export const exceeds = (value: number, limit: number): boolean =>
  value - limit > HAIR * Math.max(Math.abs(value), Math.abs(limit));

export interface BesideLimit {
  value: string;
  limit: string;
  /** By how much they differ. */
  off: string;
}

/** With as many digits as tell a value from the limit on whose wrong side it lies. `write`: with so many digits more. */
export function besideLimit(
  value: number,
  limit: number,
  write: (value: number, more: number) => string,
): BesideLimit {
  const told = (more: number): BesideLimit => ({
    value: write(value, more),
    limit: write(limit, more),
    off: write(Math.abs(value - limit), more),
  });
  for (let more = 0; more < MOST_DIGITS; more++) {
    const now = told(more);
    if (now.value !== now.limit && now.off !== write(0, more)) return now;
  }
  return told(MOST_DIGITS);
}

/** Two significant digits, never more than there is of a reserve: 1.99 is "1.9". */
export const atLeastText = (value: number): string => String(downToTwoDigits(value));

/** Two significant digits, never less than is needed. */
export const atMostText = (value: number): string => String(upToTwoDigits(value));
