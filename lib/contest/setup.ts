/** The first contest: made with the setup code that the terminal showed at the start. */
import { setupRequest } from "../api/contracts";
import type { Database } from "../db";
import { slowly, tryCode } from "./attempts";
import { codeHash, codeTag, normalCode, preparedCode } from "./badge-code";
import { addContest, type NewContest } from "./contests";
import { parse, Refusal } from "./errors";
import { newId } from "./scorebook";
import { type Call, committed, type Reply } from "./write";

const SETTING = "setup-code";

/**
 * A new setup code to print while there is no contest yet; it replaces the one before. Null once there is one, and no
 * code works then. Only its tag and its hash are stored.
 */
export async function ensureSetupCode(db: Database): Promise<string | null> {
  if ((await db.contest.count()) > 0) {
    await db.setting.deleteMany({ where: { key: SETTING } });
    return null;
  }
  const { code, tag, hash } = await preparedCode();
  const value = `${tag} ${hash}`;
  await db.setting.upsert({ where: { key: SETTING }, create: { key: SETTING, value }, update: { value } });
  return code;
}

/** Whether a setup code is waiting to be used. */
export async function needsSetup(db: Database): Promise<boolean> {
  return (await db.setting.findUnique({ where: { key: SETTING } })) !== null;
}

/** The first contest and its organiser's badge, for the setup code. The code works once. */
export async function setUp(asked: Call, body: unknown): Promise<Reply<NewContest>> {
  const { setupCode, contest } = parse(setupRequest, body);
  const normal = normalCode(setupCode);
  if (!normal) throw wrong();
  const call = { ...asked, actor: null };
  const code = await preparedCode();
  const contestId = newId();
  const made = await tryCode(normal, async () => {
    const setting = await call.db.setting.findUnique({ where: { key: SETTING } });
    const tag = codeTag(normal);
    // After it has worked there is none, and the same request is answered again.
    if (setting && !setting.value.startsWith(`${tag} `)) return null;
    const value = `${tag} ${await slowly(() => codeHash(normal))}`;
    if (setting && setting.value !== value) return null;
    return committed(
      call,
      contestId,
      { act: "setup", value, contest },
      async (tx, book) => {
        const { count } = await tx.setting.deleteMany({ where: { key: SETTING, value } });
        if (count === 0) throw wrong();
        return addContest(tx, book, contestId, contest, code);
      },
      { secret: true },
    );
  });
  if (!made) throw wrong();
  return made;
}

function wrong(): Refusal {
  const message =
    "This is not the setup code. The terminal where Fairthrow runs shows it at every start until the first contest is made.";
  return new Refusal(401, "wrong-setup-code", message, [{ field: "setupCode", message }]);
}
