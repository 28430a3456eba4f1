/** What becomes of a badge: another code, another end, or no more at all. */
import { type BadgeInfo, badgeChange, codeRequest, type Role } from "../api/contracts";
import type { DatabaseTransaction } from "../db";
import { preparedCode } from "./badge-code";
import { endOf } from "./badge-end";
import { badgeInfo, type NewBadge, WITH_SIGN_INS } from "./badges";
import { conflict, invalid, notFound, parse } from "./errors";
import { type ContestRow, contestBySlug } from "./find";
import { mustBeAllowed } from "./roles";
import { type Call, committed, type Reply } from "./write";

/**
 * Another code for the same badge, for a device that lost its sign-in or one more beside it; the code before works no
 * more. What a device that is replaced had observed before is held like that of a revoked badge.
 */
export async function renewCode(
  call: Call,
  slug: string,
  badgeId: string,
  body: unknown,
): Promise<Reply<NewBadge>> {
  const { devices } = parse(codeRequest, body);
  const contest = await contestBySlug(call.db, slug);
  mustBeAllowed(call.actor, "make and revoke badges", contest.id);
  if (devices === "replace" && badgeId === call.actor.badgeId)
    throw invalid(
      "devices",
      "This is your own badge, and you would be signed out here. Add a device, or have another organiser do this.",
    );
  const { code, hash, tag } = await preparedCode();
  return committed(
    call,
    contest.id,
    { act: "badge-code", badge: badgeId, devices },
    async (tx, book) => {
      const badge = await inForce(tx, contest, badgeId);
      if (badge.endsAt && badge.endsAt <= book.at)
        throw conflict("badge-ended", "This badge has ended: give it a later end first.");
      if (devices === "replace")
        await tx.session.updateMany({ where: { badgeId, endedAt: null }, data: { endedAt: book.at } });
      const row = await tx.badge.update({
        where: { id: badgeId },
        data: { codeHash: hash, codeTag: tag, codeUsedAt: null },
        include: WITH_SIGN_INS,
      });
      await book.append("badge-code-made", badgeId, { devices });
      return { ...badgeInfo(row), code };
    },
    { secret: true },
  );
}

/** An earlier or a later end, also of a badge that has ended: its devices go on then without a new code. */
export async function changeBadge(
  call: Call,
  slug: string,
  badgeId: string,
  body: unknown,
): Promise<Reply<BadgeInfo>> {
  const change = parse(badgeChange, body);
  const contest = await contestBySlug(call.db, slug);
  mustBeAllowed(call.actor, "make and revoke badges", contest.id);
  return committed(
    call,
    contest.id,
    { act: "badge-end", badge: badgeId, change },
    async (tx, book) => {
      const badge = await inForce(tx, contest, badgeId);
      const endsAt = endOf(contest, badge.role as Role, change.endsAt, book.at);
      if (badge.role === "organiser" && badge.endsAt === null && endsAt !== null)
        await mustLeaveOrganiser(tx, contest.id, badgeId, "endsAt");
      // An account signs in again and again; what had an end and gets none becomes one.
      const data = { endsAt, ...(endsAt === null && { reusable: true }) };
      const row = await tx.badge.update({ where: { id: badgeId }, data, include: WITH_SIGN_INS });
      await book.append("badge-end-set", badgeId, { endsAt: endsAt?.toISOString() ?? null });
      return badgeInfo(row);
    },
    { status: 200 },
  );
}

async function inForce(tx: DatabaseTransaction, contest: ContestRow, id: string) {
  const badge = await tx.badge.findFirst({ where: { id, contestId: contest.id } });
  if (!badge) throw notFound("badge");
  if (badge.revokedAt) throw conflict("badge-revoked", "This badge was revoked, for good: make another one.");
  return badge;
}

/** One with no end: with an end everybody would be locked out after it. */
async function mustLeaveOrganiser(
  tx: DatabaseTransaction,
  contestId: string,
  badgeId: string,
  field: string,
) {
  const others = { contestId, role: "organiser", revokedAt: null, endsAt: null, NOT: { id: badgeId } };
  if ((await tx.badge.count({ where: others })) === 0)
    throw invalid(
      field,
      "This is the contest's last organiser without an end. Make another organiser's badge without an end first.",
    );
}

/**
 * Ends at once, and for good, what its sessions may do; what it entered before stands. The sessions stay, so that a phone
 * without a network can still deliver what was observed before (held-fixes.ts).
 */
export async function revokeBadge(call: Call, slug: string, badgeId: string): Promise<Reply<BadgeInfo>> {
  const contest = await contestBySlug(call.db, slug);
  mustBeAllowed(call.actor, "make and revoke badges", contest.id);
  return committed(
    call,
    contest.id,
    { act: "revoke", badge: badgeId },
    async (tx, book) => {
      const where = { id: badgeId, contestId: contest.id };
      const badge = await tx.badge.findFirst({ where, include: WITH_SIGN_INS });
      if (!badge) throw notFound("badge");
      if (badge.revokedAt) return badgeInfo(badge);
      if (badge.role === "organiser" && badge.endsAt === null)
        await mustLeaveOrganiser(tx, contest.id, badgeId, "id");
      const revoked = await tx.badge.update({
        where: { id: badgeId },
        data: { revokedAt: book.at },
        include: WITH_SIGN_INS,
      });
      await book.append("badge-revoked", badgeId, {});
      return badgeInfo(revoked);
    },
    { status: 200 },
  );
}
