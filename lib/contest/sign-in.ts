/** Signing in with a badge's code, and who a session belongs to. */
import { randomBytes } from "node:crypto";
import { type Me, type Role, signInRequest } from "../api/contracts";
import type { Database } from "../db";
import { failed, mayTry } from "./attempts";
import { codeHash, normalCode } from "./badge-code";
import { deviceOf } from "./device";
import { parse, Refusal } from "./errors";
import type { Actor, Asker } from "./roles";
import { newId, sha256 } from "./scorebook";
import { type Call, committed, type Reply } from "./write";

/** A fair's weekend and the evenings around it. */
const SESSION = 7 * 24 * 3600_000; // ms

export interface Session {
  /** For the cookie; only its hash is stored. */
  token: string;
  expiresAt: string;
  me: Me;
}

/**
 * Makes a session, and a line in the log of who signed in. Throws 401 for a code that opens nothing, 429 for too many of
 * those.
 *
 * @param userAgent the header's text; only what kind of device it names is kept
 */
export async function signIn(
  call: Call,
  body: unknown,
  userAgent: string | null = null,
): Promise<Reply<Session>> {
  const { code } = parse(signInRequest, body);
  const badge = await badgeOfCode(call.db, code);
  return committed(
    { ...call, actor: null },
    null,
    { act: "sign-in", badge: badge.id },
    async (tx, { at }) => {
      const token = randomBytes(32).toString("base64url");
      const expiresAt = new Date(at.getTime() + SESSION);
      await tx.session.deleteMany({ where: { badgeId: badge.id, expiresAt: { lt: at } } });
      await tx.session.create({
        data: { tokenHash: sha256(token), badgeId: badge.id, createdAt: at, expiresAt },
      });
      await tx.signIn.create({
        data: { id: newId(), badgeId: badge.id, device: deviceOf(userAgent), at },
      });
      return { token, expiresAt: expiresAt.toISOString(), me: meOf(badge, expiresAt) };
    },
    { secret: true, status: 200 },
  );
}

async function badgeOfCode(db: Database, code: string) {
  const normal = normalCode(code);
  const wrong = (message: string) => new Refusal(401, "wrong-code", message, [{ field: "code", message }]);
  if (!normal)
    throw wrong("A code has twelve letters and digits, such as 7KQM-3XWD-R9TB. Check it on your badge.");
  await mayTry(normal);
  const badge = await db.badge.findUnique({
    where: { codeHash: await codeHash(normal) },
    include: { contest: true },
  });
  if (!badge) {
    failed(normal);
    throw wrong("No badge has this code. Check it letter by letter, or ask the organiser for a new badge.");
  }
  if (badge.revokedAt) throw wrong("This badge was revoked. Ask the organiser for a new one.");
  return badge;
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
      return { badge: null };
    },
    { status: 200 },
  );
}

/** Who a cookie's token belongs to; null when it is unknown, has expired, or its badge was revoked. */
export async function actorOfToken(db: Database, token: string | null | undefined): Promise<Asker> {
  const session = await sessionOf(db, token);
  return session && !session.badge.revokedAt ? actorOf(session.badge) : null;
}

export async function whoAmI(db: Database, token: string | null | undefined): Promise<Me> {
  const session = await sessionOf(db, token);
  return session && !session.badge.revokedAt ? meOf(session.badge, session.expiresAt) : { badge: null };
}

/** Whose badge was revoked while this session was not over: it may deliver what was observed before, nothing else. */
export interface RevokedActor {
  actor: Actor;
  revokedAt: Date;
}

/** Null for every session of a badge in force, and for none. */
export async function revokedOfToken(
  db: Database,
  token: string | null | undefined,
): Promise<RevokedActor | null> {
  const session = await sessionOf(db, token);
  return session?.badge.revokedAt
    ? { actor: actorOf(session.badge), revokedAt: session.badge.revokedAt }
    : null;
}

/** Asked with every request, so in one statement where the client would make three. */
async function sessionOf(db: Database, token: string | null | undefined) {
  if (!token) return null;
  const [row] = await db.$queryRaw<SessionRow[]>`
    SELECT s."expiresAt", b."id", b."role", b."label", b."contestId", b."entrantId", b."revokedAt", c."slug", c."name"
    FROM "Session" s JOIN "Badge" b ON b."id" = s."badgeId" JOIN "Contest" c ON c."id" = b."contestId"
    WHERE s."tokenHash" = ${sha256(token)}`;
  if (!row || row.expiresAt <= new Date()) return null;
  const { expiresAt, slug, name, ...badge } = row;
  return { expiresAt, badge: { ...badge, contest: { slug, name } } };
}

interface SessionRow extends Omit<BadgeRow, "contest"> {
  expiresAt: Date;
  revokedAt: Date | null;
  slug: string;
  name: string;
}

interface BadgeRow {
  id: string;
  role: string;
  label: string;
  contestId: string;
  entrantId: string | null;
  contest: { slug: string; name: string };
}

const actorOf = (badge: BadgeRow): Actor => ({
  badgeId: badge.id,
  role: badge.role as Role,
  label: badge.label,
  contestId: badge.contestId,
  contestSlug: badge.contest.slug,
  entrantId: badge.entrantId,
});

function meOf(badge: BadgeRow, expiresAt: Date): Me {
  return {
    badge: {
      id: badge.id,
      role: badge.role as Role,
      label: badge.label,
      contestSlug: badge.contest.slug,
      contestName: badge.contest.name,
      entrantId: badge.entrantId,
      expiresAt: expiresAt.toISOString(),
    },
  };
}
