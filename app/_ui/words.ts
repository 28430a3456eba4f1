/** Small wordings that several pages share. */

/** "Saturday 3 October 2026" of a YYYY-MM-DD day. */
export function longDay(day: string): string {
  return new Date(`${day}T12:00:00Z`).toLocaleDateString("en-GB", { dateStyle: "full", timeZone: "UTC" });
}

/** The day of a contest, or its first and its last. */
export function contestDays({
  date,
  lastDate,
}: {
  date: string;
  lastDate?: string | null | undefined;
}): string {
  return lastDate && lastDate !== date ? `${longDay(date)} to ${longDay(lastDate)}` : longDay(date);
}

/** Decimal degrees to about 0.1 m, as people copy them. */
export function coordinates({ latitude, longitude }: { latitude: number; longitude: number }): string {
  return `${latitude.toFixed(6)}, ${longitude.toFixed(6)}`;
}

/** A compass bearing: three digits, and a tenth only where there is one. */
export function bearingText(degrees: number): string {
  const rounded = Math.round(degrees * 10) / 10;
  const whole = Number.isInteger(rounded);
  return `${(whole ? String(rounded) : rounded.toFixed(1)).padStart(whole ? 3 : 5, "0")}°`;
}

export const ROLE_WORDS = {
  organiser: "organiser",
  "safety-officer": "safety officer",
  judge: "judge",
  team: "team",
} as const;

/** How a badge came to act no more: "the badge …". */
export const ENDED_WORDS = {
  revoked: "was revoked",
  "past-end": "ended",
  replaced: "moved to another device",
} as const;

export const OUTCOME_WORDS = {
  landed: "landed",
  foul: "foul",
  misfire: "misfire",
  burst: "burst",
} as const;

export const toConfirmWords = (entries: number): string =>
  `${entries === 1 ? "1 entry of an ended badge waits" : `${entries} entries of ended badges wait`} to be confirmed, and ${entries === 1 ? "does" : "do"} not count`;

export const DECISION_WORDS = {
  dns: "did not start",
  dnf: "did not finish",
  competing: "competing",
  foul: "foul",
  stands: "stands",
  "re-throw": "re-throw",
  upheld: "protest upheld",
  dismissed: "protest dismissed",
} as const;

/** Date and time in UTC, the same on server and phone: "3 Oct 2026, 10:42:07 UTC". */
export function instantText(iso: string): string {
  const text = new Date(iso).toLocaleString("en-GB", {
    day: "numeric",
    month: "short",
    year: "numeric",
    hour: "2-digit",
    minute: "2-digit",
    second: "2-digit",
    timeZone: "UTC",
  });
  return `${text} UTC`;
}
