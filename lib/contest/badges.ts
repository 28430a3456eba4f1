/** Badges: how an official or a team signs in. Made and revoked by organisers; the code is shown once. */

import type { z } from "zod";
import { type BadgeInfo, badgeRequest, type newBadgeSchema, type Role } from "../api/contracts";
import type { Database, DatabaseTransaction } from "../db";
import { codeHash, newCode } from "./badge-code";
import { invalid, notFound, parse } from "./errors";
import { contestBySlug } from "./find";
import { type Asker, mustBeAllowed } from "./roles";
import { newId, type OpenScorebook } from "./scorebook";
import { type Call, committed, type Reply } from "./write";

export type NewBadge = z.infer<typeof newBadgeSchema>;

export async function makeBadge(call: Call, slug: string, body: unknown): Promise<Reply<NewBadge>> {
  const badge = parse(badgeRequest, body);
  const contest = await contestBySlug(call.db, slug);
  mustBeAllowed(call.actor, "make and revoke badges", contest.id);
  const code = await preparedCode();
  return committed(
    call,
    contest.id,
    { act: "badge", contest: contest.id, badge },
    async (tx, book) => {
      const { entrantId } = badge;
      if (entrantId && !(await tx.entrant.findFirst({ where: { id: entrantId, contestId: contest.id } })))
        throw invalid("entrantId", "No entrant of this contest has this id.");
      return addBadge(tx, book, contest.id, badge, code);
    },
    { secret: true },
  );
}

/** A code with its hash, which takes some milliseconds: made before the transaction begins. */
export async function preparedCode(): Promise<{ code: string; hash: string }> {
  const code = newCode();
  return { code, hash: await codeHash(code) };
}

const WITH_SIGN_INS = {
  signIns: { orderBy: { at: "desc" }, take: 5, select: { at: true, device: true } },
  _count: { select: { signIns: true } },
} as const;

/** The row and its entry, inside a transaction. */
export async function addBadge(
  tx: DatabaseTransaction,
  book: OpenScorebook,
  contestId: string,
  badge: { role: Role; label: string; entrantId?: string | undefined },
  { code, hash }: { code: string; hash: string },
): Promise<NewBadge> {
  const row = await tx.badge.create({
    data: {
      id: newId(),
      contestId,
      role: badge.role,
      label: badge.label,
      entrantId: badge.entrantId ?? null,
      codeHash: hash,
      createdAt: book.at,
    },
    include: WITH_SIGN_INS,
  });
  await book.append("badge-made", row.id, { role: row.role, entrant: row.entrantId });
  return { ...badgeInfo(row), code };
}

/**
 * Ends at once what its sessions may do; what it entered before stands. The sessions stay, so that a phone without a
 * network can still deliver what was observed before (held-fixes.ts).
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
      if (badge.role === "organiser") {
        const others = { contestId: contest.id, role: "organiser", revokedAt: null, NOT: { id: badgeId } };
        if ((await tx.badge.count({ where: others })) === 0)
          throw invalid("id", "This is the contest's last organiser. Make another organiser's badge first.");
      }
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

export async function listBadges(db: Database, actor: Asker, slug: string): Promise<BadgeInfo[]> {
  const contest = await contestBySlug(db, slug);
  mustBeAllowed(actor, "make and revoke badges", contest.id);
  const rows = await db.badge.findMany({
    where: { contestId: contest.id },
    orderBy: { createdAt: "asc" },
    include: WITH_SIGN_INS,
  });
  return rows.map(badgeInfo);
}

function badgeInfo(row: {
  id: string;
  role: string;
  label: string;
  entrantId: string | null;
  createdAt: Date;
  revokedAt: Date | null;
  signIns: { at: Date; device: string }[];
  _count: { signIns: number };
}): BadgeInfo {
  return {
    id: row.id,
    role: row.role as Role,
    label: row.label,
    entrantId: row.entrantId,
    createdAt: row.createdAt.toISOString(),
    revokedAt: row.revokedAt?.toISOString() ?? null,
    signIns: {
      count: row._count.signIns,
      last: row.signIns.map(({ at, device }) => ({ at: at.toISOString(), device })),
    },
  };
}
