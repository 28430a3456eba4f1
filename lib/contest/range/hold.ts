/**
 * Hold: told to every open page before anything is written, kept in memory until it is stored, and lifted only once it
 * is. It needs no free disk.
 */
import { type HoldAnswer, holdRequest } from "../../api/contracts";
import { type Database, inTransaction, notify } from "../../db";
import { type Hold, type HoldDone, LATE, type RangeState, withHold } from "../../range";
import { isRefusal } from "../errors";
import { contestBySlug } from "../find";
import { type Actor, mustBeAllowed } from "../roles";
import { OpenScorebook, sha256 } from "../scorebook";
import { answeredBefore, type Call, committed, type Reply } from "../write";
import { briefOf } from "./brief";
import { memoryOf, tell } from "./memory";
import { rangeNow, storedRange, storeRange } from "./store";

const AGAIN = 2000; // ms
const CALLED = "An official called it.";

/** Any official; of what is sent nothing is refused, so that a hold is never lost to a wrong field. */
export async function callHold(call: Call, slug: string, body: unknown): Promise<Reply<HoldAnswer>> {
  const contest = await contestBySlug(call.db, slug);
  mustBeAllowed(call.actor, "hold the range", contest.id);
  const before = await answered(call, contest.id);
  if (before) return before;
  const at = Date.now();
  const asked = holdRequest.safeParse(body);
  const { pressedAgo, standing } = asked.success ? asked.data : { pressedAgo: 0, standing: false };
  const id = sha256(`${call.actor.badgeId}:${call.key}`).slice(0, 20);
  const pressed = { id, at: at - pressedAgo, by: call.actor.label, why: CALLED };
  // What stands already does not grow old while the disk is full.
  const known = memoryOf(contest.id).holds.find((hold) => hold.id === id);
  const hold = known ?? (standing ? { ...pressed, at: Math.max(pressed.at, at - LATE) } : pressed);
  const done = await stopNow(call.db, contest.id, hold, at);
  const said = known ? "applied" : done;
  const store = () => stored({ ...call, actor: call.actor as Actor }, contest.id, hold, said, at);
  try {
    return await store();
  } catch (error) {
    if (isRefusal(error)) throw error;
    console.error("A hold stands, and could not be stored yet.", error);
    if (!known) void again(store);
    return { status: 200, answer: { id, done: said, stored: false }, replayed: false };
  }
}

/** The request is the key alone: a phone that tries again says another `pressedAgo`. */
const requestOf = (contestId: string) => ({ act: "hold", contest: contestId });

/** Also refuses a call without a key. What cannot be read stops no hold. */
const answered = (call: Call, contestId: string): Promise<Reply<HoldAnswer> | null> =>
  answeredBefore<HoldAnswer>(call, requestOf(contestId)).catch((error) => {
    if (isRefusal(error)) throw error;
    return null;
  });

/** Whether it applies, and if so tells it. What cannot be read is no reason to go on. */
async function stopNow(db: Database, contestId: string, hold: Hold, at: number): Promise<HoldDone> {
  const before = await rangeNow(db, contestId, at).catch(() => null);
  const { state, done } = before ? withHold(before, hold, at) : { state: null, done: "applied" as const };
  if (done !== "applied") return done;
  tellHold(db, contestId, hold, state, at);
  return done;
}

function tellHold(db: Database, contestId: string, hold: Hold, state: RangeState | null, at: number): void {
  const now = state ?? { turn: 0, holds: [hold], hot: null };
  tell(db, contestId, { hold, brief: briefOf(contestId, now as RangeState, { machines: [] }, at) });
}

/** In the scorebook, once. */
async function stored(
  call: Call & { actor: Actor },
  contestId: string,
  hold: Hold,
  said: HoldDone,
  at: number,
): Promise<Reply<HoldAnswer>> {
  return committed(call, contestId, requestOf(contestId), async (tx, book) => {
    // Told as applied it is applied, however long the disk was full.
    const since = said === "applied" ? Math.min(at, hold.at + LATE) : at;
    const { state, done } = withHold(await storedRange(tx, contestId), hold, since);
    if (done !== "already") {
      await storeRange(tx, contestId, state, book.at);
      const pressedAt = new Date(hold.at).toISOString();
      await book.append(done === "late" ? "hold-late" : "hold-called", hold.id, { pressedAt });
    }
    return { id: hold.id, done: said, stored: true };
  });
}

/** By the program itself. */
export async function programHold(db: Database, contestId: string, hold: Hold): Promise<void> {
  if ((await stopNow(db, contestId, hold, hold.at)) !== "applied") return;
  const store = () =>
    inTransaction(db, async (tx) => {
      const { state, done } = withHold(await storedRange(tx, contestId), hold, hold.at);
      if (done !== "applied") return;
      const book = await OpenScorebook.at(tx, contestId, null);
      await storeRange(tx, contestId, state, book.at);
      await book.append("hold-called", hold.id, { pressedAt: new Date(hold.at).toISOString() });
      await notify(tx, contestId, book.sequence);
    });
  await store().catch((error) => {
    console.error("A hold stands, and could not be stored yet.", error);
    void again(store);
  });
}

async function again(store: () => Promise<unknown>): Promise<void> {
  for (;;) {
    await new Promise((resolve) => setTimeout(resolve, AGAIN).unref());
    try {
      await store();
      return;
    } catch (error) {
      if (isRefusal(error)) return;
    }
  }
}
