/** Badges: how an official or a team signs in. Made by organisers; the code is shown once. */

import type { z } from "zod";
import { type BadgeInfo, badgeRequest, type newBadgeSchema, type Role } from "../api/contracts";
import type { Database, DatabaseTransaction } from "../db";
import { type PreparedCode, preparedCode } from "./badge-code";
import { endOf } from "./badge-end";
import { invalid, parse } from "./errors";
import { contestBySlug } from "./find";
import { type Asker, mustBeAllowed } from "./roles";
import { newId, type OpenScorebook } from "./scorebook";
import { type Call, committed, type Reply } from "./write";

export type NewBadge = z.infer<typeof newBadgeSchema>;

/** @param reusable for a demo, whose codes are there to be tried out: they sign in again and again */
export async function makeBadge(
  call: Call,
  slug: string,
  body: unknown,
  reusable = false,
): Promise<Reply<NewBadge>> {
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
      const endsAt = endOf(contest, badge.role, badge.endsAt, book.at);
      return addBadge(
        tx,
        book,
        contest.id,
        { ...badge, endsAt, reusable: reusable || endsAt === null },
        code,
      );
    },
    { secret: true },
  );
}

export const WITH_SIGN_INS = {
  signIns: {
    where: { refused: null },
    orderBy: { at: "desc" },
    take: 5,
    select: { at: true, device: true },
  },
  sessions: { where: { endedAt: null }, select: { expiresAt: true } },
  _count: { select: { signIns: { where: { refused: null } } } },
} as const;

/** The row and its entry, inside a transaction. */
export async function addBadge(
  tx: DatabaseTransaction,
  book: OpenScorebook,
  contestId: string,
  badge: {
    role: Role;
    label: string;
    entrantId?: string | undefined;
    endsAt: Date | null;
    reusable: boolean;
  },
  { code, hash, tag }: PreparedCode,
): Promise<NewBadge> {
  const row = await tx.badge.create({
    data: {
      id: newId(),
      contestId,
      role: badge.role,
      label: badge.label,
      entrantId: badge.entrantId ?? null,
      codeHash: hash,
      codeTag: tag,
      endsAt: badge.endsAt,
      reusable: badge.reusable,
      createdAt: book.at,
    },
    include: WITH_SIGN_INS,
  });
  await book.append("badge-made", row.id, {
    role: row.role,
    entrant: row.entrantId,
    endsAt: row.endsAt?.toISOString() ?? null,
  });
  return { ...badgeInfo(row), code };
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

export function badgeInfo(row: {
  id: string;
  role: string;
  label: string;
  entrantId: string | null;
  createdAt: Date;
  revokedAt: Date | null;
  endsAt: Date | null;
  reusable: boolean;
  codeUsedAt: Date | null;
  sessions: { expiresAt: Date }[];
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
    endsAt: row.endsAt?.toISOString() ?? null,
    reusable: row.reusable,
    codeUsedAt: row.codeUsedAt?.toISOString() ?? null,
    devices: row.sessions.filter(({ expiresAt }) => expiresAt > new Date()).length,
    signIns: {
      count: row._count.signIns,
      last: row.signIns.map(({ at, device }) => ({ at: at.toISOString(), device })),
    },
  };
}
