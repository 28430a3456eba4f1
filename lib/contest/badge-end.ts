/** Until when a badge may act. */
import type { Ended, Role } from "../api/contracts";
import { invalid } from "./errors";
import type { ContestRow } from "./find";

const HOUR = 3600_000; // ms
const DAY = 24 * HOUR;
/** The last day is over everywhere on Earth, and protests and what phones deliver late have had a day more. */
const AFTER = 12 * HOUR + DAY;
/** Where the days are over already, or nearly. */
const AT_LEAST = 7 * DAY;
const AT_MOST = 366 * DAY;

type Days = Pick<ContestRow, "date"> & { lastDate?: string | null | undefined };

const daysEnd = (contest: Days) => Date.parse(`${contest.lastDate ?? contest.date}T00:00:00Z`) + DAY;

/** What a badge gets whose maker names no end: 36 hours after the contest's last day in UTC, at least a week from now. */
export const usualEnd = (contest: Days, now: Date): Date =>
  new Date(Math.max(daysEnd(contest) + AFTER, now.getTime() + AT_LEAST));

/**
 * The end that is asked for, or the usual one.
 *
 * @param asked null: none, which makes an organiser's badge an account
 */
export function endOf(contest: Days, role: Role, asked: string | null | undefined, now: Date): Date | null {
  if (asked === undefined) return usualEnd(contest, now);
  if (asked === null) {
    if (role === "organiser") return null;
    throw invalid("endsAt", "Only an organiser's badge may have no end: name one.");
  }
  const end = new Date(asked);
  if (end <= now)
    throw invalid("endsAt", "The end is over already. Name a time to come, or revoke the badge.");
  if (end.getTime() > Math.max(daysEnd(contest), now.getTime()) + AT_MOST)
    throw invalid("endsAt", "This is more than a year after the contest: name an earlier end.");
  return end;
}

/** What ended it first; null while it is in force. */
export function endedBy(
  badge: { revokedAt: Date | null; endsAt: Date | null },
  session: { endedAt: Date | null } | null,
  now: Date,
): { how: Ended; at: Date } | null {
  const ends = [
    { how: "revoked", at: badge.revokedAt },
    { how: "past-end", at: badge.endsAt },
    { how: "replaced", at: session?.endedAt ?? null },
  ] as const;
  const over = ends.flatMap(({ how, at }) => (at && at <= now ? [{ how, at }] : []));
  return over.sort((a, b) => a.at.getTime() - b.at.getTime())[0] ?? null;
}

/** "This badge ended at …", in UTC. */
export function endedWords({ how, at }: { how: Ended; at: Date }): string {
  const when = `${at.toISOString().slice(0, 16).replace("T", " ")} UTC`;
  if (how === "revoked") return `This badge was revoked at ${when}`;
  if (how === "past-end") return `This badge ended at ${when}`;
  return `Another device took this one's place on its badge at ${when}`;
}
