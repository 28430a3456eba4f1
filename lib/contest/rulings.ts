/** Rulings: what an official decided about an entrant or a shot. The newest of a subject counts; all are kept. */
import { type RulingInfo, rulingRequest } from "../api/contracts";
import { invalid, parse } from "./errors";
import { contestBySlug } from "./find";
import { mustBeAllowed } from "./roles";
import { rulingInfo } from "./ruling-info";
import { newId } from "./scorebook";
import { type Call, committed, type Reply } from "./write";

export async function rule(call: Call, slug: string, body: unknown): Promise<Reply<RulingInfo>> {
  const ruling = parse(rulingRequest, body);
  const { entrantId, shotId, protestId, fixId, decision, reason } = ruling;
  const contest = await contestBySlug(call.db, slug);
  const { actor } = call;
  mustBeAllowed(
    actor,
    shotId ? "rule on a shot" : entrantId ? "rule on an entrant" : "rule on a protest",
    contest.id,
  );
  if (protestId) mustBeAllowed(actor, "rule on a protest", contest.id);
  return committed(call, contest.id, { act: "ruling", contest: contest.id, ruling }, async (tx, book) => {
    if (entrantId && !(await tx.entrant.findFirst({ where: { id: entrantId, contestId: contest.id } })))
      throw invalid("entrantId", "No entrant of this contest has this id.");
    if (shotId && !(await tx.shot.findFirst({ where: { id: shotId, contestId: contest.id } })))
      throw invalid("shotId", "No shot of this contest has this id.");
    if (protestId) {
      const protest = await tx.protest.findFirst({ where: { id: protestId, contestId: contest.id } });
      if (!protest) throw invalid("protestId", "No protest of this contest has this id.");
      if (shotId && protest.shotId && protest.shotId !== shotId)
        throw invalid("protestId", "This protest is against another shot.");
    }
    if (fixId && !(await tx.fix.findFirst({ where: { id: fixId, shotId: shotId ?? "" } })))
      throw invalid("fixId", "No entry of this shot has this id.");
    const row = await tx.ruling.create({
      data: {
        id: newId(),
        contestId: contest.id,
        entrantId: entrantId ?? null,
        shotId: shotId ?? null,
        protestId: protestId ?? null,
        fixId: fixId ?? null,
        decision,
        reason,
        badgeId: actor.badgeId,
        sequence: book.next,
        createdAt: book.at,
      },
      include: { badge: true },
    });
    await book.append("ruling-made", row.id, {
      entrant: row.entrantId,
      shot: row.shotId,
      ...(protestId && { protest: protestId }),
      ...(fixId && { countingFix: fixId }),
      decision,
      reason,
    });
    return rulingInfo(row);
  });
}
