/** Days: those on which a contest is held, and today. */
import type { Days } from "../zones";
import type { ContestRow } from "./find";

/** On which days the contest is held. */
export const daysOf = ({ date, lastDate }: Pick<ContestRow, "date" | "lastDate">): Days => ({
  first: date,
  last: lastDate ?? date,
});

/** Today in UTC: a consent is a matter of days, and the site's time zone is not known. */
export const today = (now = new Date()) => now.toISOString().slice(0, 10);
