/** The first contest: made with the setup code that the terminal showed at the start. */
import { setupRequest } from "../api/contracts";
import type { Database } from "../db";
import { failed, mayTry } from "./attempts";
import { codeHash, newCode, normalCode } from "./badge-code";
import { preparedCode } from "./badges";
import { addContest, type NewContest } from "./contests";
import { isRefusal, parse, Refusal } from "./errors";
import { newId } from "./scorebook";
import { type Call, committed, type Reply } from "./write";

const SETTING = "setup-code";
const WRONG = "wrong-setup-code";

/**
 * A new setup code to print while there is no contest yet; it replaces the one before. Null once there is one, and no
 * code works then. Only its hash is stored.
 */
export async function ensureSetupCode(db: Database): Promise<string | null> {
  if ((await db.contest.count()) > 0) {
    await db.setting.deleteMany({ where: { key: SETTING } });
    return null;
  }
  const code = newCode();
  const value = await codeHash(code);
  await db.setting.upsert({ where: { key: SETTING }, create: { key: SETTING, value }, update: { value } });
  return code;
}

/** Whether a setup code is waiting to be used. */
export async function needsSetup(db: Database): Promise<boolean> {
  return (await db.setting.findUnique({ where: { key: SETTING } })) !== null;
}

/** The first contest and its organiser's badge, for the setup code. The code works once. */
export async function setUp(call: Call, body: unknown): Promise<Reply<NewContest>> {
  const { setupCode, contest } = parse(setupRequest, body);
  const normal = normalCode(setupCode);
  if (!normal) throw wrong();
  await mayTry(normal);
  const hash = await codeHash(normal);
  const code = await preparedCode();
  const contestId = newId();
  try {
    return await committed(
      { ...call, actor: null },
      contestId,
      { act: "setup", hash, contest },
      async (tx, book) => {
        const setting = await tx.setting.findUnique({ where: { key: SETTING } });
        if (setting?.value !== hash) throw wrong();
        await tx.setting.delete({ where: { key: SETTING } });
        return addContest(tx, book, contestId, contest, code);
      },
      { secret: true },
    );
  } catch (error) {
    if (isRefusal(error) && error.code === WRONG) failed(normal);
    throw error;
  }
}

function wrong(): Refusal {
  const message =
    "This is not the setup code. The terminal where Fairthrow runs shows it at every start until the first contest is made.";
  return new Refusal(401, WRONG, message, [{ field: "setupCode", message }]);
}
