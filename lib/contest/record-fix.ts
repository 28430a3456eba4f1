/**
 * The way of one landing point: contract, who may; then in one transaction already here?, survey, scoring, scorebook and
 * rows; the live feed hears of it when that commits.
 */
import { type FixAnswer, type FixRequest, fixRequest } from "../api/contracts";
import { type DatabaseTransaction, insertRow } from "../db";
import { type EntryReading, readForEntry } from "./entry-reading";
import { conflict, invalid, notFound, parse } from "./errors";
import { contestBySlug } from "./find";
import { type SurveyedFix, surveyed } from "./fix-survey";
import { judgeNew } from "./judge-marks";
import { currentFixes, latestOf, markBy } from "./judging";
import { withoutPermit } from "./permit-then";
import { mustBeAllowed } from "./roles";
import { newId, type OpenScorebook } from "./scorebook";
import { fixInfo } from "./shots";
import { type Call, committed, type Reply } from "./write";

/** A clock that runs ahead of the server's by more than this is taken for a slip, ms. */
const AHEAD = 10 * 60_000;

/** Records where a shot landed, or corrects what was recorded. Judges. */
export async function recordFix(
  call: Call,
  slug: string,
  shotId: string,
  body: unknown,
): Promise<Reply<FixAnswer>> {
  // The contract.
  const entry = parse(fixRequest, body);

  // Who may?
  const { actor } = call;
  const contestId = actor?.contestSlug === slug ? actor.contestId : (await contestBySlug(call.db, slug)).id;
  mustBeAllowed(actor, "record a fix", contestId);

  // In one transaction: already here? What it is judged by, the survey, rows and scorebook entry.
  const request = { act: "fix", shotId, entry };
  const reply = await committed(call, contestId, request, async (tx, book) => {
    const reading = await readForEntry(tx, contestId, shotId);
    const seen = {
      id: newId(),
      observedAt: observed(entry, book.at),
      badge: { id: actor.badgeId, ...actor },
    };
    const { fix, details } = await addFix(tx, book, reading, surveyed(entry.fix, reading), entry, seen);
    await book.append(entry.replacesId ? "fix-corrected" : "fix-recorded", fix.id, details);
    return fix;
  });
  // Outside the transaction: held against its sheet by the worker threads.
  judgeNew(call.db, contestId, shotId);
  return reply;
}

/** The row of a new entry, inside a transaction, and what its scorebook entry says. Throws 409 when it cannot follow. */
export async function addFix(
  tx: DatabaseTransaction,
  book: OpenScorebook,
  reading: EntryReading,
  { located, odd }: SurveyedFix,
  entry: FixRequest,
  { id, observedAt, badge }: { id: string; observedAt: Date; badge: { id: string; label: string } },
): Promise<{ fix: FixAnswer; details: Record<string, unknown> }> {
  const { shot, marking } = reading;
  mustFollow(reading, entry);
  const flags = [
    ...odd,
    ...another(reading, entry),
    ...(await withoutPermit(tx, reading.contestId, shot.machineId, observedAt)),
  ];
  const mark = located && markBy(located, shot.firingPoint, marking);
  const fix = {
    ...storedFix(entry),
    id,
    shotId: shot.id,
    latitude: located?.point.latitude ?? null,
    longitude: located?.point.longitude ?? null,
    covariance: located && JSON.stringify(located.covariance),
    located: located && JSON.stringify(located),
    mark: mark?.mark ?? null,
    flags: JSON.stringify(flags),
    observedAt,
    badgeId: badge.id,
    sequence: book.next,
    createdAt: book.at,
  };
  await insertRow(tx, "Fix", fix);
  const details = {
    shot: shot.id,
    fix: entry.fix,
    mark: fix.mark,
    uncertainty: mark?.uncertainty ?? null,
    flags: [...flags, ...(mark?.warnings ?? [])].map((flag) => flag.code),
    observedAt: fix.observedAt.toISOString(),
    ...(entry.replacesId && { replaces: entry.replacesId, reason: entry.reason }),
  };
  return { fix: fixInfo({ ...fix, badge }, shot.firingPoint, marking), details };
}

/** What was entered, as its columns. */
export const storedFix = ({ fix, replacesId, reason, witness }: FixRequest) => ({
  outcome: fix.outcome,
  method: fix.outcome === "landed" ? fix.method : null,
  input: JSON.stringify(fix),
  replacesId: replacesId ?? null,
  reason: reason ?? null,
  witness: witness ?? null,
});

/**
 * A first entry is always another fix of the shot. A correction needs the entry it names to be the newest of its chain;
 * otherwise somebody was faster: theirs stands, and the refusal carries it beside what was sent, so that nothing has to
 * be typed again.
 */
function mustFollow({ fixes, shot, marking }: EntryReading, entry: FixRequest): void {
  if (entry.replacesId === undefined) return;
  if (!fixes.some((fix) => fix.id === entry.replacesId))
    throw entry.replacesId === shot.id
      ? invalid("replacesId", "Name the entry that is corrected, not its shot.")
      : notFound("entry of this shot to correct");
  const newest = latestOf(fixes, entry.replacesId);
  if (!newest || newest.id === entry.replacesId) return;
  const standing = fixInfo(newest, shot.firingPoint, marking);
  throw conflict(
    "already-corrected",
    `${standing.by} has corrected this entry meanwhile, to ${whatOf(standing)}. Theirs stands and yours was not recorded. If yours is right, send it as a correction of theirs, with the reason.`,
    { current: standing, sent: entry },
  );
}

const whatOf = ({ mark, outcome }: FixAnswer) => (mark === null ? outcome : `${mark.toFixed(2)} m`);

/** Two judges may enter one shot: both are kept and combined. Who enters the second is told of the first. */
function another({ fixes, rulings, shot, marking }: EntryReading, entry: FixRequest): FixAnswer["flags"] {
  if (entry.replacesId !== undefined) return [];
  const [there] = currentFixes({ fixes, rulings });
  if (!there) return [];
  const standing = fixInfo(there, shot.firingPoint, marking);
  return [
    {
      code: "another-entry",
      text: `${standing.by} had recorded ${whatOf(standing)} for this shot. Both entries are kept, and combined if they agree. If this one was meant for another shot, correct it.`,
    },
  ];
}

/** When something was seen, by whoever noted it; now if nobody did. */
export function observed(entry: Pick<FixRequest, "observedAt">, now: Date, field = "observedAt"): Date {
  if (entry.observedAt === undefined) return now;
  const at = new Date(entry.observedAt);
  if (at.getTime() > now.getTime() + AHEAD)
    throw invalid(field, "This is in the future: set this device's clock, or leave the time out.");
  return at;
}
