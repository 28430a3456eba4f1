/** One event told to the range: in one transaction with its entry, then to every open page. */
import type { RangeBrief } from "../../api/contracts";
import type { DatabaseTransaction } from "../../db";
import { apply, type RangeEvent, type RangeState } from "../../range";
import { conflict } from "../errors";
import type { ContestRow } from "../find";
import type { OpenScorebook, ScorebookDraft } from "../scorebook";
import { answeredBefore, type Call, committed, type Reply } from "../write";
import { factsOf, factsSequence } from "./facts";
import { memoryOf, withBeats } from "./memory";
import { rangeNow, storedRange, storeRange } from "./store";
import { tellNow } from "./tell";
import { watchRange } from "./watch";

type Timed<E> = E extends RangeEvent ? Omit<E, "at"> : never;
export type Said = Timed<RangeEvent>;

interface Change {
  /** What makes two requests the same. */
  request: Record<string, unknown>;
  /** The machine that it is about. */
  machineId?: string;
  /** Made inside the transaction, with the rows that go with it; the entry of what was new. */
  say: (tx: DatabaseTransaction, book: OpenScorebook) => Promise<{ event: Said; entry: ScorebookDraft }>;
  status?: 200 | 201;
}

const TRIES = 4;
class Stale extends Error {}

/** Throws 409 with every reason as a sentence. */
export async function changeRange(
  call: Call,
  contest: ContestRow,
  change: Change,
): Promise<Reply<RangeBrief>> {
  const { db } = call;
  const before = await answeredBefore<{ id: string }>(call, change.request);
  const reply = before ?? (await written(call, contest, change));
  const brief = await tellNow(db, contest);
  if (brief.hot) watchRange(db, contest);
  return { ...reply, answer: brief };
}

/** What the range hangs on may change while it is read: then it is read anew. */
async function written(call: Call, contest: ContestRow, change: Change): Promise<Reply<object>> {
  for (let tries = 1; ; tries++) {
    try {
      return await once(call, contest, change);
    } catch (error) {
      if (!(error instanceof Stale)) throw error;
      if (tries === TRIES)
        throw conflict(
          "changed-meanwhile",
          "The site is being changed at this moment. Look again, and send it again.",
        );
    }
  }
}

async function once(call: Call, contest: ContestRow, change: Change): Promise<Reply<object>> {
  const { db } = call;
  const contestId = contest.id;
  const { hot } = await rangeNow(db, contestId);
  const facts = await factsOf(db, contest, [hot?.machineId, change.machineId]);
  return committed(
    call,
    contestId,
    change.request,
    async (tx, book) => {
      const { event, entry } = await change.say(tx, book);
      if (event.do === "hot" && (await factsSequence(tx, contestId)) !== facts.sequence) throw new Stale();
      const stored = await storedRange(tx, contestId);
      mustKnowHolds(stored, contestId, event);
      const outcome = apply(
        withBeats(stored, contestId),
        { ...event, at: book.at.getTime() } as RangeEvent,
        facts,
      );
      if (outcome.done === "refused")
        throw conflict("range", outcome.because.join(" "), { because: outcome.because });
      if (outcome.done !== "already") await book.append(entry.act, entry.subjectId, entry.details);
      await storeRange(tx, contestId, outcome.state, book.at);
      for (const hold of outcome.state.holds.filter(({ id }) => !stored.known.includes(id)))
        await book.append("hold-called", hold.id, { pressedAt: new Date(hold.at).toISOString() });
      return { id: entry.subjectId };
    },
    { status: change.status ?? 200 },
  );
}

/** One that was told to every page and is not stored yet stands like any other. */
function mustKnowHolds(stored: RangeState, contestId: string, event: Said): void {
  if (!["hot", "lift", "machine"].includes(event.do)) return;
  if (event.do === "machine" && event.to !== "raising") return;
  if (memoryOf(contestId).holds.some(({ id }) => !stored.known.includes(id)))
    throw conflict("range", "A hold has just been called, and is still being written down. Look again.");
}
