/** Who a session belongs to: while its badge is in force it acts, afterwards it delivers what was observed before. */
import { randomBytes } from "node:crypto";
import type { Ended, Me, Role } from "../api/contracts";
import type { Database, DatabaseTransaction } from "../db";
import { endedBy } from "./badge-end";
import type { Actor, Asker } from "./roles";
import { sha256 } from "./scorebook";
import { type Call, committed, type Reply } from "./write";

const DAY = 24 * 3600_000; // ms
/** As long as browsers keep a cookie: the badge's end is what ends a session. */
const SESSION = 400 * DAY;
/** How long a phone without a network may still deliver after its badge has ended. */
const DELIVERS = 7 * DAY;

export interface BadgeRow {
  id: string;
  role: string;
  label: string;
  contestId: string;
  entrantId: string | null;
  endsAt: Date | null;
  reusable: boolean;
  contest: { slug: string; name: string };
}

/** The token of a new one; only its hash is stored. */
export async function openSession(
  tx: DatabaseTransaction,
  badgeId: string,
  at: Date,
): Promise<{ token: string; expiresAt: Date }> {
  const token = randomBytes(32).toString("base64url");
  const expiresAt = new Date(at.getTime() + SESSION);
  await tx.session.deleteMany({ where: { badgeId, expiresAt: { lt: at } } });
  await tx.session.create({ data: { tokenHash: sha256(token), badgeId, createdAt: at, expiresAt } });
  return { token, expiresAt };
}

/** Ends the session; doing so twice is the same as once. */
export async function signOut(call: Call, token: string | null): Promise<Reply<Me>> {
  const tokenHash = token && sha256(token);
  return committed(
    { ...call, actor: null },
    null,
    { act: "sign-out", session: tokenHash },
    async (tx) => {
      if (tokenHash) await tx.session.deleteMany({ where: { tokenHash } });
      return { badge: null, ended: null };
    },
    { status: 200 },
  );
}

/** Who a cookie's token belongs to; null when it is unknown, has expired, or its badge is not in force. */
export async function actorOfToken(db: Database, token: string | null | undefined): Promise<Asker> {
  const session = await sessionOf(db, token);
  return session && !session.over ? actorOf(session.badge) : null;
}

export async function whoAmI(db: Database, token: string | null | undefined): Promise<Me> {
  const session = await sessionOf(db, token);
  if (!session) return { badge: null, ended: null };
  const { badge, expiresAt, over } = session;
  if (!over) return meOf(badge, expiresAt);
  const { label, contest } = badge;
  return {
    badge: null,
    ended: { label, contestSlug: contest.slug, how: over.how, at: over.at.toISOString() },
  };
}

/** Whose badge has ended: it may deliver what was observed before, nothing else. */
export interface EndedActor {
  actor: Actor;
  over: { how: Ended; at: Date };
}

/** Null for every session of a badge in force, and for none. */
export async function endedOfToken(
  db: Database,
  token: string | null | undefined,
): Promise<EndedActor | null> {
  const session = await sessionOf(db, token);
  return session?.over ? { actor: actorOf(session.badge), over: session.over } : null;
}

/** Asked with every request, so in one statement where the client would make three. */
async function sessionOf(db: Database, token: string | null | undefined) {
  if (!token) return null;
  const [row] = await db.$queryRaw<SessionRow[]>`
    SELECT s."expiresAt", s."endedAt", b."id", b."role", b."label", b."contestId", b."entrantId", b."revokedAt",
      b."endsAt", b."reusable", c."slug", c."name"
    FROM "Session" s JOIN "Badge" b ON b."id" = s."badgeId" JOIN "Contest" c ON c."id" = b."contestId"
    WHERE s."tokenHash" = ${sha256(token)}`;
  const now = new Date();
  if (!row || row.expiresAt <= now) return null;
  const { expiresAt, endedAt, slug, name, ...badge } = row;
  const over = endedBy(badge, { endedAt }, now);
  if (over && now.getTime() > over.at.getTime() + DELIVERS) return null;
  return { expiresAt, over, badge: { ...badge, contest: { slug, name } } };
}

interface SessionRow extends Omit<BadgeRow, "contest"> {
  expiresAt: Date;
  endedAt: Date | null;
  revokedAt: Date | null;
  slug: string;
  name: string;
}

const actorOf = (badge: BadgeRow): Actor => ({
  badgeId: badge.id,
  role: badge.role as Role,
  label: badge.label,
  contestId: badge.contestId,
  contestSlug: badge.contest.slug,
  entrantId: badge.entrantId,
});

export function meOf(badge: BadgeRow, expiresAt: Date): Me {
  const ends = badge.endsAt && badge.endsAt < expiresAt ? badge.endsAt : expiresAt;
  return {
    badge: {
      id: badge.id,
      role: badge.role as Role,
      label: badge.label,
      contestSlug: badge.contest.slug,
      contestName: badge.contest.name,
      entrantId: badge.entrantId,
      expiresAt: ends.toISOString(),
      reusable: Boolean(badge.reusable),
    },
    ended: null,
  };
}
