/** Signing in with a badge's code. */
import { type Me, signInRequest } from "../api/contracts";
import type { Database, DatabaseTransaction } from "../db";
import { failed, slowly, tryCode } from "./attempts";
import { codeHash, codeTag, normalCode } from "./badge-code";
import { endedBy, endedWords } from "./badge-end";
import { deviceOf } from "./device";
import { isRefusal, parse, Refusal } from "./errors";
import { newId } from "./scorebook";
import { meOf, openSession } from "./sessions";
import { type Call, committed, type Reply } from "./write";

export interface Session {
  /** For the cookie; only its hash is stored. */
  token: string;
  expiresAt: string;
  me: Me;
}

/**
 * Makes a session, and a line in the log of who signed in. A code signs in one device, once, unless its badge is
 * reusable; the same request sent again is answered again. Throws 401 for a code that opens nothing or nothing more, 429
 * for too many of those.
 *
 * @param userAgent the header's text; only what kind of device it names is kept
 */
export async function signIn(
  call: Call,
  body: unknown,
  userAgent: string | null = null,
): Promise<Reply<Session>> {
  const { code } = parse(signInRequest, body);
  const normal = normalCode(code);
  if (!normal)
    throw wrong("A code has twelve letters and digits, such as 7KQM-3XWD-R9TB. Check it on your badge.");
  const badge = await tryCode(normal, () => badgeOfCode(call.db, normal));
  if (!badge)
    throw wrong("No badge has this code. Check it letter by letter, or ask the organiser for a new code.");
  const device = deviceOf(userAgent);
  try {
    const over = endedBy(badge, null, new Date());
    if (over) throw codeOver(`${endedWords(over)}. Ask the organiser for ${HELP[over.how]}.`, over.how);
    // The hash: a new code of the same badge is another request.
    const request = { act: "sign-in", badge: badge.id, code: badge.codeHash };
    return await committed(
      { ...call, actor: null },
      null,
      request,
      async (tx, { at }) => {
        const { id, codeHash: hash } = badge;
        const unused = { id, codeHash: hash, codeUsedAt: null };
        const { count } = await tx.badge.updateMany({ where: unused, data: { codeUsedAt: at } });
        if (count === 0 && !badge.reusable) throw await usedBefore(tx, badge.id);
        const { token, expiresAt } = await openSession(tx, badge.id, at);
        await tx.signIn.create({ data: { id: newId(), badgeId: badge.id, device, at } });
        return { token, expiresAt: expiresAt.toISOString(), me: meOf(badge, expiresAt) };
      },
      { secret: true, status: 200 },
    );
  } catch (error) {
    if (isRefusal(error) && typeof error.more.refused === "string") {
      // So that neither a lost card nor whoever tries it fills the log.
      failed(normal);
      const row = { id: newId(), badgeId: badge.id, device, at: new Date(), refused: error.more.refused };
      await call.db.signIn.create({ data: row });
    }
    throw error;
  }
}

const HELP = {
  revoked: "a new one",
  "past-end":
    "more time: then your device goes on with what it has, or signs in with a code that was not used",
  replaced: "a new code",
} as const;

async function badgeOfCode(db: Database, code: string) {
  // Badges made before there were tags have none.
  const where = { OR: [{ codeTag: codeTag(code) }, { codeTag: null }] };
  if ((await db.badge.count({ where })) === 0) return null;
  const hash = await slowly(() => codeHash(code));
  return db.badge.findUnique({ where: { codeHash: hash }, include: { contest: true } });
}

async function usedBefore(tx: DatabaseTransaction, badgeId: string): Promise<Refusal> {
  const last = await tx.signIn.findFirst({ where: { badgeId, refused: null }, orderBy: { at: "desc" } });
  const where = last ? ` (${last.device}, ${last.at.toISOString().slice(0, 16).replace("T", " ")} UTC)` : "";
  return codeOver(
    `This code has signed in a device already${where}, and a code does so once. Ask the organiser for a new code for this badge: what this device still holds goes out then. If that device was not yours, say so at once.`,
    "used",
  );
}

const codeOver = (message: string, refused: string) =>
  new Refusal(401, "code-over", message, [{ field: "code", message }], { refused });

const wrong = (message: string) => new Refusal(401, "wrong-code", message, [{ field: "code", message }]);
