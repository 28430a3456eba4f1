/** A spotter at a post sends the bearing in which a shot was seen to land. Judges. */
import { type SightingInfo, sightingRequest } from "../api/contracts";
import { invalid, parse } from "./errors";
import { contestBySlug, mustHaveShot } from "./find";
import { observed } from "./record-fix";
import { mustBeAllowed } from "./roles";
import { newId } from "./scorebook";
import { sightingInfo } from "./sightings";
import { type Call, committed, type Reply } from "./write";

export async function sightSplash(
  call: Call,
  slug: string,
  shotId: string,
  body: unknown,
): Promise<Reply<SightingInfo>> {
  const entry = parse(sightingRequest, body);
  const contest = await contestBySlug(call.db, slug);
  const { actor } = call;
  mustBeAllowed(actor, "sight a splash", contest.id);
  await mustHaveShot(call.db, contest.id, shotId);
  return committed(call, contest.id, { act: "sighting", shotId, entry }, async (tx, book) => {
    const { from, bearing, north, uncertainty, way } = entry;
    // A retired one too: it may have stood there when this was seen, hours ago.
    const post = await tx.controlPoint.findFirst({ where: { id: from, contestId: contest.id } });
    if (!post)
      throw invalid("from", "The site has no such control point: choose the post at which you stand.");
    // A phone's clock may be a little ahead: its now counts as ours.
    const observedAt = new Date(Math.min(observed(entry, book.at).getTime(), book.at.getTime()));
    const row = await tx.sighting.create({
      data: {
        id: newId(),
        shotId,
        controlPointId: post.id,
        bearing,
        north,
        uncertainty,
        way,
        observedAt,
        badgeId: actor.badgeId,
        sequence: book.next,
        createdAt: book.at,
      },
    });
    await book.append("sighting-made", row.id, {
      shot: shotId,
      post: post.id,
      bearing,
      north,
      uncertainty,
      way,
      observedAt: observedAt.toISOString(),
    });
    return sightingInfo({ ...row, controlPoint: post, badge: actor }, contest.declination);
  });
}
