/** Signing for a barrier, and retiring it: the safety officer's alone. Every sheet that it concerns is computed anew. */
import { type BarrierInfo, barrierRequest, barrierRetirement } from "../api/contracts";
import { barrierInfo } from "./barriers";
import { conflict, notFound, parse } from "./errors";
import { contestBySlug } from "./find";
import { mustBeNear } from "./fitting";
import { mustBeAllowed } from "./roles";
import { newId } from "./scorebook";
import { thenSheets } from "./sheets";
import { type Call, committed, type Reply } from "./write";

export async function signBarrier(call: Call, slug: string, body: unknown): Promise<Reply<BarrierInfo>> {
  const barrier = parse(barrierRequest, body);
  const contest = await contestBySlug(call.db, slug);
  mustBeAllowed(call.actor, "sign for a barrier", contest.id);
  for (const [longitude, latitude] of barrier.geometry.coordinates)
    mustBeNear(contest, { latitude, longitude }, "geometry.coordinates");
  const { badgeId } = call.actor;
  const request = { act: "barrier", contest: contest.id, barrier };
  const written = committed(call, contest.id, request, async (tx, book) => {
    const { geometry, ...rest } = barrier;
    const row = await tx.barrier.create({
      data: {
        id: newId(),
        contestId: contest.id,
        ...rest,
        geometry: JSON.stringify(geometry),
        badgeId,
        createdAt: book.at,
      },
      include: { badge: true },
    });
    await book.append("barrier-signed", row.id, barrier);
    return barrierInfo(row);
  });
  return thenSheets(call.db, contest.id, written);
}

/** From now on it stops nothing. It stays in the record. */
export async function retireBarrier(
  call: Call,
  slug: string,
  id: string,
  body: unknown,
): Promise<Reply<BarrierInfo>> {
  const { reason } = parse(barrierRetirement, body);
  const contest = await contestBySlug(call.db, slug);
  mustBeAllowed(call.actor, "sign for a barrier", contest.id);
  const request = { act: "retire-barrier", id, reason };
  const written = committed(
    call,
    contest.id,
    request,
    async (tx, book) => {
      const before = await tx.barrier.findFirst({ where: { id, contestId: contest.id } });
      if (!before) throw notFound("barrier");
      if (before.retired) throw conflict("already-retired", "This barrier is retired already.");
      const row = await tx.barrier.update({
        where: { id },
        data: { retired: true },
        include: { badge: true },
      });
      await book.append("barrier-retired", id, { reason });
      return barrierInfo(row);
    },
    { status: 200 },
  );
  return thenSheets(call.db, contest.id, written);
}
