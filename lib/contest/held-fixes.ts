/**
 * Entries that a phone delivers after its badge has ended: revoked, past its end, or its place taken by another device. The phone may be a judge's who had no network, or a thief's
 * who says what he likes of when he saw it. So they lie in a table of their own that nothing reads which makes marks, a
 * few at most, until an official decides about each with a reason. Confirmed, one becomes an entry like any other.
 */
import { type FixAnswer, fixRequest, type HeldFixes, heldDecisionRequest } from "../api/contracts";
import type { Database } from "../db";
import { inverse } from "../earth";
import type { Fix, Located } from "../survey";
import { endedWords } from "./badge-end";
import { readForEntry } from "./entry-reading";
import { conflict, notFound, parse, Refusal } from "./errors";
import { contestBySlug } from "./find";
import { surveyed } from "./fix-survey";
import { judgeNew } from "./judge-marks";
import { latestOf, rethrowOf } from "./judging";
import { addFix, recordFix, storedFix } from "./record-fix";
import { type Asker, mustBeAllowed } from "./roles";
import { newId } from "./scorebook";
import { type EndedActor, endedOfToken } from "./sessions";
import { findShots, heldFixInfo, readAs, shotInfo } from "./shots";
import { answeredBefore, type Call, committed, type Reply } from "./write";

/** How many of one badge may wait: more than one phone measures in a day without a network, too few to bury a book. */
export const MOST_WAITING = 60;

/** How far a phone may be off that corrects its clock by a slow server's answers, ms. */
const CLOCK_SLACK = 3000;

/** The one thing that a session of an ended badge may still do; from a badge in force, an ordinary entry. */
export async function deliverFix(
  call: Call,
  token: string | null,
  slug: string,
  shotId: string,
  body: unknown,
): Promise<Reply<FixAnswer>> {
  const ended = call.actor ? null : await endedOfToken(call.db, token);
  return ended ? holdFix(call, ended, slug, shotId, body) : recordFix(call, slug, shotId, body);
}

async function holdFix(
  asked: Call,
  { actor, over }: EndedActor,
  slug: string,
  shotId: string,
  body: unknown,
): Promise<Reply<FixAnswer>> {
  const entry = parse(fixRequest, body);
  const contest = await contestBySlug(asked.db, slug);
  mustBeAllowed(actor, "record a fix", contest.id);

  // Recorded before the badge ended, and only the answer got lost? Keys go by badge.
  const call = { ...asked, actor };
  const request = { act: "fix", shotId, entry };
  const before = await answeredBefore<FixAnswer>(call, request);
  if (before) return before;

  const observedAt = entry.observedAt === undefined ? null : new Date(entry.observedAt);
  if (observedAt === null || observedAt.getTime() > over.at.getTime() + CLOCK_SLACK)
    throw new Refusal(
      403,
      "badge-ended",
      `${endedWords(over)}, and this was seen after that: it is not recorded. Keep it on this phone and show it to a judge or the organiser, who enters it.`,
    );
  const waiting = { badgeId: actor.badgeId, decision: null };
  const mustHaveRoom = (count: number) => {
    if (count < MOST_WAITING) return;
    throw new Refusal(
      403,
      "too-many-to-confirm",
      `${MOST_WAITING} entries of this ended badge wait to be confirmed, and no more are taken. Ask the organiser or the safety officer to deal with them, then send this one again.`,
    );
  };

  return committed(call, contest.id, request, async (tx, book) => {
    mustHaveRoom(await tx.heldFix.count({ where: waiting }));
    const reading = await readForEntry(tx, contest.id, shotId);
    const { located, odd } = surveyed(entry.fix, reading);
    if (entry.replacesId && !(await tx.fix.findFirst({ where: { id: entry.replacesId, shotId } })))
      throw notFound("entry of this shot to correct");
    const held = await tx.heldFix.create({
      data: {
        ...storedFix(entry),
        id: newId(),
        shotId,
        located: located && JSON.stringify(located),
        flags: JSON.stringify(odd),
        observedAt,
        badgeId: actor.badgeId,
        ended: over.how,
        endedAt: over.at,
        sequence: book.next,
        createdAt: book.at,
      },
      include: { badge: true },
    });
    // Its words come into the book once an official has read them.
    await book.append("fix-held", held.id, {
      shot: shotId,
      fix: entry.fix,
      observedAt: held.observedAt.toISOString(),
      ...(entry.replacesId && { replaces: entry.replacesId }),
    });
    return heldFixInfo({ ...held, decision: null }, reading.shot.firingPoint, reading.marking);
  });
}

/** Confirms or rejects, once, for good: a slip is put right as with any other entry. */
export async function decideHeldFix(
  call: Call,
  slug: string,
  id: string,
  body: unknown,
): Promise<Reply<FixAnswer>> {
  const { decision, reason } = parse(heldDecisionRequest, body);
  const confirmed = decision === "confirmed";
  const contest = await contestBySlug(call.db, slug);
  const { actor } = call;
  mustBeAllowed(actor, "confirm an entry of an ended badge", contest.id);
  const request = { act: "held-decision", id, decision, reason };
  const before = await answeredBefore<FixAnswer>(call, request);
  if (before) return before;
  const row = await call.db.heldFix.findFirst({ where: { id, shot: { contestId: contest.id } } });
  if (!row) throw notFound("entry to confirm");
  const entry = {
    fix: JSON.parse(row.input) as Fix,
    ...(row.replacesId !== null && { replacesId: row.replacesId }),
    ...(row.reason !== null && { reason: row.reason }),
    ...(row.witness !== null && { witness: row.witness }),
  };

  const reply = await committed(call, contest.id, request, async (tx, book) => {
    const reading = await readForEntry(tx, contest.id, row.shotId);
    const survey = surveyed(entry.fix, reading);
    const held = await tx.heldFix.findUniqueOrThrow({
      where: { id },
      include: { badge: true, decision: { include: { badge: true } } },
    });
    if (held.decision)
      throw conflict(
        "already-decided",
        `${held.decision.badge.label} has ${held.decision.confirmed ? "confirmed" : "rejected"} this entry already: ${held.decision.reason}`,
      );
    let details: Record<string, unknown> = { shot: held.shotId };
    if (confirmed) {
      const arrived = held.located === null ? null : (JSON.parse(held.located) as Located);
      if (!isSameSpot(arrived, survey.located))
        throw conflict(
          "moved",
          "The machine, a peg or the declination that this was measured by was changed since it arrived. Reject it, and have a judge enter what holds now.",
        );
      const { fixes } = reading;
      if (rethrowOf(reading) > held.sequence)
        throw conflict(
          "void",
          "A re-throw was ruled after this entry had arrived, and made it void: reject it.",
        );
      const newest = latestOf(fixes, held.replacesId ?? "");
      if (newest && newest.id !== held.replacesId)
        throw conflict(
          "already-corrected",
          `${newest.badge.label} has corrected the same entry meanwhile, and theirs stands. Reject this one; if it is right, have a judge correct theirs.`,
        );
      const { id: same, observedAt, badge } = held;
      ({ details } = await addFix(tx, book, reading, survey, entry, { id: same, observedAt, badge }));
    }
    const made = await tx.heldDecision.create({
      data: {
        heldFixId: id,
        confirmed,
        reason,
        badgeId: actor.badgeId,
        sequence: book.next,
        createdAt: book.at,
      },
      include: { badge: true },
    });
    const { reason: correction, ...rest } = details;
    await book.append(confirmed ? "held-fix-confirmed" : "held-fix-rejected", id, {
      ...rest,
      ...(correction !== undefined && { correctionReason: correction }),
      enteredBy: held.badgeId,
      reason,
    });
    return heldFixInfo({ ...held, decision: made }, reading.shot.firingPoint, reading.marking);
  });
  if (confirmed) judgeNew(call.db, contest.id, row.shotId);
  return reply;
}

/** To the millimetre, from the same place. */
const isSameSpot = (a: Located | null, b: Located | null): boolean =>
  a === null || b === null
    ? a === b
    : inverse(a.point, b.point).distance < 1e-3 && Math.abs(a.mark - b.mark) < 1e-3;

/** What waits to be confirmed, oldest first. */
export async function listHeldFixes(db: Database, actor: Asker, slug: string): Promise<HeldFixes> {
  const contest = await contestBySlug(db, slug);
  mustBeAllowed(actor, "confirm an entry of an ended badge", contest.id);
  return { waiting: await withShots(db, contest, { decision: null }) };
}

/** For the phone of an ended badge: what it delivered, and what became of it; null for every other session. */
export async function deliveredByEnded(
  db: Database,
  token: string | null | undefined,
  slug: string,
): Promise<(EndedActor & { delivered: HeldFixes["waiting"] }) | null> {
  const ended = await endedOfToken(db, token);
  if (!ended || ended.actor.contestSlug !== slug) return null;
  const contest = await contestBySlug(db, slug);
  const { badgeId } = ended.actor;
  return { ...ended, delivered: await withShots(db, contest, { badgeId }) };
}

async function withShots(
  db: Database,
  contest: Awaited<ReturnType<typeof contestBySlug>>,
  where: { decision: null } | { badgeId: string },
): Promise<HeldFixes["waiting"]> {
  const rows = await db.heldFix.findMany({
    where: { ...where, shot: { contestId: contest.id } },
    select: { id: true, shotId: true },
    orderBy: { sequence: "asc" },
  });
  const shots = await findShots(db, {
    contestId: contest.id,
    id: { in: [...new Set(rows.map(({ shotId }) => shotId))] },
  });
  const how = readAs(contest);
  return rows.flatMap(({ id, shotId }) => {
    const shot = shots.find((one) => one.id === shotId);
    const held = shot?.heldFixes.find((one) => one.id === id);
    return shot && held
      ? [{ fix: heldFixInfo(held, shot.firingPoint, how.marking), shot: shotInfo(shot, how) }]
      : [];
  });
}
