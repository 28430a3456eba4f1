/**
 * The way of one landing point: contract, who may, survey, already here?, scoring, scorebook and rows in one
 * transaction; the live feed hears of it when that commits.
 */
import { type FixAnswer, type FixRequest, fixRequest } from "../api/contracts";
import type { DatabaseTransaction } from "../db";
import { conflict, invalid, notFound, parse } from "./errors";
import { contestBySlug, type PlainShot } from "./find";
import { type SurveyedFix, surveyed } from "./fix-survey";
import { currentFixes, latestOf, type Marking, markBy } from "./judging";
import { mustBeAllowed } from "./roles";
import { newId, type OpenScorebook } from "./scorebook";
import { fixInfo, type ShotRow } from "./shots";
import { answeredBefore, type Call, committed, type Reply } from "./write";

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
  const contest = await contestBySlug(call.db, slug);
  const { actor } = call;
  mustBeAllowed(actor, "record a fix", contest.id);

  // Survey: the fix becomes a point, its covariance and a distance; scoring makes that a mark.
  const request = { act: "fix", shotId, entry };
  const survey = await surveyed(call.db, contest, shotId, entry.fix).catch((reason) => ({ reason }));
  if ("reason" in survey) {
    // What was recorded before keeps its answer, whatever became of its shot since.
    const before = await answeredBefore<FixAnswer>(call, request);
    if (before) return before;
    throw survey.reason;
  }

  // Rows and scorebook entry, in one transaction, unless it is there already.
  return committed(call, contest.id, request, async (tx, book) => {
    const seen = {
      id: newId(),
      observedAt: observed(entry, book.at),
      badge: { id: actor.badgeId, ...actor },
    };
    const { fix, details } = await addFix(tx, book, survey, entry, seen);
    await book.append(entry.replacesId ? "fix-corrected" : "fix-recorded", fix.id, details);
    return fix;
  });
}

/** The row of a new entry, inside a transaction, and what its scorebook entry says. Throws 409 when it cannot follow. */
export async function addFix(
  tx: DatabaseTransaction,
  book: OpenScorebook,
  { shot, located, odd, marking }: SurveyedFix,
  entry: FixRequest,
  { id, observedAt, badge }: { id: string; observedAt: Date; badge: { id: string; label: string } },
): Promise<{ fix: FixAnswer; details: Record<string, unknown> }> {
  const before = await entriesOf(tx, shot);
  mustFollow(before, shot, entry, marking);
  const flags = [...odd, ...another(before, shot, entry, marking)];
  const mark = located && markBy(located, shot.firingPoint, marking);
  const fix = await tx.fix.create({
    data: {
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
    },
  });
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
function mustFollow(fixes: ShotRow["fixes"], shot: PlainShot, entry: FixRequest, marking: Marking): void {
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
function another(
  fixes: ShotRow["fixes"],
  shot: PlainShot,
  entry: FixRequest,
  marking: Marking,
): FixAnswer["flags"] {
  if (entry.replacesId !== undefined) return [];
  const [there] = currentFixes({ fixes, rulings: shot.rulings });
  if (!there) return [];
  const standing = fixInfo(there, shot.firingPoint, marking);
  return [
    {
      code: "another-entry",
      text: `${standing.by} had recorded ${whatOf(standing)} for this shot. Both entries are kept, and combined if they agree. If this one was meant for another shot, correct it.`,
    },
  ];
}

/**
 * A shot's entries. Until the first it goes where its machine is placed, and the mark must count from where it is by
 * now: throws 409 when that is not where the survey took it to be.
 */
async function entriesOf(tx: DatabaseTransaction, shot: PlainShot): Promise<ShotRow["fixes"]> {
  const { latitude, longitude, height, id } = shot.firingPoint;
  const found = await tx.shot.findFirst({
    where: { id: shot.id, firingPointId: id, firingPoint: { latitude, longitude, height } },
    select: { fixes: { include: { badge: true } } },
  });
  if (!found)
    throw conflict(
      "moved",
      "The machine was placed elsewhere while this was entered, and nothing was recorded. Check the firing point and send it again.",
    );
  return found.fixes;
}

/** When something was seen, by whoever noted it; now if nobody did. */
export function observed(entry: Pick<FixRequest, "observedAt">, now: Date): Date {
  if (entry.observedAt === undefined) return now;
  const at = new Date(entry.observedAt);
  if (at.getTime() > now.getTime() + AHEAD)
    throw invalid("observedAt", "This is in the future: set this device's clock, or leave the time out.");
  return at;
}
