/**
 * When a firing permit falls. It is told what was signed, all that happened since and how things are now, and gives every
 * reason in words. What happened since makes it fall for good: a machine that is carried away and back, or a policy that is
 * changed and changed back, takes another signature. A wind that nobody knows only keeps it from standing until it is read.
 */
import { turnOf, windAt } from "../../earth";
import { formatBoth } from "../../units";
import type { PermitLimits } from "./limits";

export const FALL_CAUSES = [
  "withdrawn",
  "replaced",
  "retired",
  "revision",
  "place",
  "bearing",
  "policy",
  "air",
  "sheet",
  "inspection",
  "wind",
  "wind-unknown",
  "alarm",
  "alarm-pending",
  "incident",
] as const;
export type FallCause = (typeof FALL_CAUSES)[number];

export interface Fall {
  cause: FallCause;
  /** When it happened; null for how things are now. */
  at: Date | null;
  /** A sentence that says why, and what to do. */
  text: string;
  /** It takes another signature. Otherwise the permit stands again once this is over. */
  lasting: boolean;
}

/** What was signed. */
export interface Signed {
  revisionId: string;
  firingPointId: string;
  bearing: number;
  sheetId: string;
  limits: PermitLimits;
  at: Date;
}

export interface Wind {
  speed: number;
  gust: number;
  height: number;
}

/** What the scorebook has of this machine, or of all, after the permit. */
export type Happened = { at: Date } & (
  | { what: "withdrawn"; reason: string }
  | { what: "signed"; number: number }
  | { what: "retired" }
  | { what: "revision"; number: number }
  | { what: "placed"; firingPointId: string | null; bearing: number | null }
  | { what: "firing-point-moved" }
  | { what: "policy" }
  | { what: "air" }
  | { what: "inspection"; outcome: string }
  | { what: "wind"; wind: Wind; expiresAt: Date }
  | { what: "alarm"; beyondWorst: boolean }
  | { what: "incident" }
);

export interface Now {
  revisionId: string | null;
  firingPointId: string | null;
  bearing: number | null;
  retired: boolean;
  /** Of the current sheet; null while there is none. */
  sheetId: string | null;
  /** Readings of the wind in force. */
  winds: readonly Wind[];
  /** A reading that is in force no more. */
  windWasRead: boolean;
  /** A measured mark of this machine that nothing has judged yet. */
  markPending: boolean;
}

/** Speeds are compared at this height, m. */
const COMPARED_AT = 10;
/** Bearings and speeds this close are the same. */
const SAME = 1e-9;

const SIGN_AGAIN = "The safety officer must sign again.";

/** Every reason for which a permit does not stand, the first of each cause; none when it stands. */
export function fallsOf(signed: Signed, since: readonly Happened[], now: Now): Fall[] {
  const all = [...since.flatMap((each) => fellBy(signed, each)), ...notNow(signed, now)];
  return all.filter(({ cause }, index) => all.findIndex((other) => other.cause === cause) === index);
}

const fell = (cause: FallCause, at: Date, text: string): Fall[] => [{ cause, at, text, lasting: true }];

function fellBy(signed: Signed, happened: Happened): Fall[] {
  const { at } = happened;
  switch (happened.what) {
    case "withdrawn":
      return fell("withdrawn", at, `The safety officer took it back: ${happened.reason}`);
    case "signed":
      return fell("replaced", at, `Permit ${happened.number} took its place.`);
    case "retired":
      return fell("retired", at, "The machine was retired.");
    case "revision":
      return fell(
        "revision",
        at,
        `The machine was changed: revision ${happened.number} was declared. Inspect that one, then sign again.`,
      );
    case "placed":
      return placedElsewhere(signed, happened);
    case "firing-point-moved":
      return fell("place", at, `The firing point was moved. ${SIGN_AGAIN}`);
    case "policy":
      return fell("policy", at, `The policy was changed: margins, angles or distances. ${SIGN_AGAIN}`);
    case "air":
      return fell("air", at, `The air or the wind in which machines may fire was changed. ${SIGN_AGAIN}`);
    case "inspection":
      return happened.outcome === "meets"
        ? []
        : fell(
            "inspection",
            at,
            happened.outcome === "refused"
              ? "A later inspection refused the machine."
              : `A later inspection set limits. ${SIGN_AGAIN}`,
          );
    case "wind":
      // One that was over before the permit was signed, and only came in late, says nothing of it.
      return happened.expiresAt > signed.at && passes(happened.wind, signed.limits.wind)
        ? fell("wind", at, `${windWords(happened.wind, signed.limits.wind)} ${SIGN_AGAIN}`)
        : [];
    case "alarm":
      return fell(
        "alarm",
        at,
        happened.beyondWorst
          ? "A throw went beyond the worst one computed: the machine is not what was declared, or the model is wrong. Hold the range, and find out which before anybody signs again."
          : "A throw went farther than 99 of 100 should by the others: something has changed. Find out what before anybody signs again.",
      );
    case "incident":
      return fell("incident", at, `An incident was entered. ${SIGN_AGAIN}`);
  }
}

function placedElsewhere(
  signed: Signed,
  { at, firingPointId, bearing }: { at: Date; firingPointId: string | null; bearing: number | null },
): Fall[] {
  if (firingPointId === null) return fell("place", at, `The machine left the firing line. ${SIGN_AGAIN}`);
  if (firingPointId !== signed.firingPointId)
    return fell("place", at, `The machine was put at another firing point. ${SIGN_AGAIN}`);
  return aims(signed, bearing)
    ? []
    : fell("bearing", at, `The machine was turned to another bearing. ${SIGN_AGAIN}`);
}

const aims = ({ bearing, limits }: Signed, to: number | null): boolean =>
  to !== null && Math.abs(turnOf(bearing, to)) <= limits.bearing + SAME;

/** How things are now: what no entry tells of, and what ends by itself. */
function notNow(signed: Signed, now: Now): Fall[] {
  const falls: Fall[] = [];
  const not = (cause: FallCause, lasting: boolean, text: string) =>
    falls.push({ cause, at: null, text, lasting });
  if (now.retired) not("retired", true, "The machine is retired.");
  if (now.revisionId !== signed.revisionId)
    not("revision", true, "The machine has another revision by now. Inspect that one, then sign again.");
  if (now.firingPointId !== signed.firingPointId)
    not("place", true, `The machine stands elsewhere. ${SIGN_AGAIN}`);
  else if (!aims(signed, now.bearing))
    not("bearing", true, `The machine is aimed on another bearing. ${SIGN_AGAIN}`);
  if (now.sheetId !== signed.sheetId)
    not(
      "sheet",
      true,
      now.sheetId === null
        ? "There is no hazard sheet for the machine as it stands now: keep everybody away until it is computed."
        : `The hazard sheet is another one than was signed on: ground, barriers, wind or the calculation itself have changed. ${SIGN_AGAIN}`,
    );
  const beyond = now.winds.find((wind) => passes(wind, signed.limits.wind));
  if (beyond) not("wind", true, `${windWords(beyond, signed.limits.wind)} ${SIGN_AGAIN}`);
  if (now.winds.length === 0)
    not(
      "wind-unknown",
      false,
      now.windWasRead
        ? "The last reading of the wind has expired: read the wind again."
        : "Nobody has read the wind yet: read it.",
    );
  if (now.markPending)
    not(
      "alarm-pending",
      false,
      "A mark of this machine is still being held against what was computed: wait for it.",
    );
  return falls;
}

const strongerThan = (speed: number, height: number, limit: number, limitHeight: number): boolean =>
  windAt(COMPARED_AT, speed, height) > windAt(COMPARED_AT, limit, limitHeight) * (1 + SAME) + SAME;

/** Whether a wind passes a limit, by its gust or by its mean. */
export const passes = (wind: Wind, limit: Wind): boolean =>
  strongerThan(wind.gust, wind.height, limit.gust, limit.height) ||
  strongerThan(wind.speed, wind.height, limit.speed, limit.height);

function windWords(wind: Wind, limit: Wind): string {
  const what = strongerThan(wind.gust, wind.height, limit.gust, limit.height) ? "gust" : "speed";
  const at = (each: Wind) =>
    `${formatBoth(each[what], "speed", 1)} at ${formatBoth(each.height, "distance", 0)} above the ground`;
  return `The wind passed its limit: ${what === "gust" ? "gusts" : "a mean"} of ${at(wind)} against ${at(limit)}.`;
}
