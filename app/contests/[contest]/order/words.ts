/** How the firing order speaks of time. */

/** "in 12 min", "in 1 h 20 min", "now"; `late` says that it should have begun. */
export function untilText(iso: string, now: number): string {
  const minutes = Math.round((Date.parse(iso) - now) / 60_000);
  if (minutes < 1) return "now";
  return `in ${lastingText(minutes * 60)}`;
}

/** "40 s", "12 min", "1 h 20 min". */
export function lastingText(seconds: number): string {
  if (seconds < 90) return `${Math.round(seconds)} s`;
  const minutes = Math.round(seconds / 60);
  if (minutes < 60) return `${minutes} min`;
  const rest = minutes % 60;
  return `${Math.floor(minutes / 60)} h${rest > 0 ? ` ${rest} min` : ""}`;
}

/** How the day goes against what was planned; null while too few throws tell. */
export function paceText(pace: number | null): string {
  if (pace === null) return "Times go by what was planned: too few throws tell the pace of the day yet.";
  const share = Math.round((pace - 1) * 100);
  if (Math.abs(share) < 5) return "Times go by the last throws: the day keeps its planned pace.";
  return share > 0
    ? `Times go by the last throws: a turn takes ${share} % longer than planned.`
    : `Times go by the last throws: a turn takes ${-share} % less than planned.`;
}

/** Where a turn is told to begin earlier or later than before, in minutes; null within five. */
export function shiftText({
  toldAt,
  expectedAt,
}: {
  toldAt: string | null;
  expectedAt: string | null;
}): string | null {
  if (!toldAt || !expectedAt) return null;
  const minutes = Math.round((Date.parse(expectedAt) - Date.parse(toldAt)) / 60_000);
  if (Math.abs(minutes) < 5) return null;
  return `${lastingText(Math.abs(minutes) * 60)} ${minutes > 0 ? "later" : "earlier"} than told`;
}
