/**
 * Protests: what a team holds against a shot or the standings, entered by itself or by an official for it, within the
 * contest's time after the results; the ruling that names one answers it. Texts stay out of the scorebook, which has
 * their hash: they may name people.
 */
import { type ProtestInfo, protestRequest } from "../api/contracts";
import type { Database, DatabaseTransaction } from "../db";
import { conflict, invalid, parse } from "./errors";
import { contestBySlug } from "./find";
import { mustBeAllowed } from "./roles";
import { roundResultsOf } from "./round-results";
import { rulingInfo } from "./ruling-info";
import { newId, sha256 } from "./scorebook";
import { type Call, committed, type Reply } from "./write";

type Reader = Database | DatabaseTransaction;

const WITH_RULINGS = {
  badge: true,
  rulings: { orderBy: { sequence: "desc" }, include: { badge: true } },
} as const;

/** Newest first. */
export async function protestsOf(
  db: Reader,
  where: { contestId: string; shotId?: string },
): Promise<ProtestInfo[]> {
  const rows = await db.protest.findMany({ where, include: WITH_RULINGS, orderBy: { sequence: "desc" } });
  return rows.map((row) => ({
    id: row.id,
    entrantId: row.entrantId,
    shotId: row.shotId,
    text: row.text,
    lateReason: row.lateReason,
    by: row.badge.label,
    sequence: row.sequence,
    createdAt: row.createdAt.toISOString(),
    ruling: row.rulings[0] ? rulingInfo(row.rulings[0]) : null,
  }));
}

/** Open to all. */
export async function listProtests(db: Database, slug: string): Promise<{ protests: ProtestInfo[] }> {
  const contest = await contestBySlug(db, slug);
  return { protests: await protestsOf(db, { contestId: contest.id }) };
}

/** After the deadline only an official may take one in, with the reason. */
export async function protest(call: Call, slug: string, body: unknown): Promise<Reply<ProtestInfo>> {
  const asked = parse(protestRequest, body);
  const contest = await contestBySlug(call.db, slug);
  const contestId = contest.id;
  const { actor } = call;
  const entrantId = asked.entrantId ?? actor?.entrantId ?? undefined;
  mustBeAllowed(actor, "enter a protest", contestId, entrantId);
  if (entrantId === undefined) throw invalid("entrantId", "Name the team whose protest this is.");
  const { shotId = null, text } = asked;
  return committed(call, contestId, { act: "protest", contest: contestId, asked }, async (tx, book) => {
    if (!(await tx.entrant.findFirst({ where: { id: entrantId, contestId } })))
      throw invalid("entrantId", "No entrant of this contest has this id.");
    const shot = shotId === null ? null : await tx.shot.findFirst({ where: { id: shotId, contestId } });
    if (shotId !== null && !shot) throw invalid("shotId", "No shot of this contest has this id.");

    const results = await roundResultsOf(tx, contest);
    const about = shot ? results.filter(({ round }) => round === shot.round) : results;
    const closed = about.length > 0 && about.every((each) => each.protestsUntil !== null);
    const until =
      about
        .map((each) => each.protestsUntil ?? "")
        .sort()
        .at(-1) ?? "";
    const late = closed && book.at.toISOString() > until;
    if (late && actor.role === "team")
      throw conflict(
        "too-late",
        `Protests ended at ${until}. Go to an official, who may still take it in with a reason.`,
      );
    if (late && asked.lateReason === undefined)
      throw invalid("lateReason", `Protests ended at ${until}: say why this one is taken in all the same.`);

    const data = {
      id: newId(),
      contestId,
      entrantId,
      shotId,
      text,
      lateReason: late ? (asked.lateReason ?? null) : null,
      badgeId: actor.badgeId,
      sequence: book.next,
      createdAt: book.at,
    };
    await tx.protest.create({ data, select: { id: true } });
    await book.append("protest-entered", data.id, {
      entrant: entrantId,
      shot: shotId,
      textHash: sha256(text),
      ...(late && { lateReason: data.lateReason }),
    });
    const { id, lateReason, sequence } = data;
    const createdAt = book.at.toISOString();
    return { id, entrantId, shotId, text, lateReason, by: actor.label, sequence, createdAt, ruling: null };
  });
}
