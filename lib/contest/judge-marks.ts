/**
 * Measured marks held against what was computed: each against the worst throw of its revision's sheet, and against what the
 * other throws of that revision say of the model. Done by the worker threads once an entry is written, and asked for again
 * by whoever wants to know whether a permit stands: until a mark is judged, none of its machine does. A mark that was
 * judged an alarm stays one, whatever it is corrected to: the permit fell for it. Only of machines with a permit; but a throw
 * beyond the worst one holds the range, permit or none, before it is held against anything else.
 */
import { type Database, type DatabaseTransaction, inTransaction, notify } from "../db";
import { afterSaves } from "../live";
import { isRefusal } from "./errors";
import { type Judged, type MarkRow, markOf, onItsOwn, verdictsBy } from "./mark-verdicts";
import { holdForThrow } from "./range/alarm";
import { newId, OpenScorebook } from "./scorebook";

const isAlarm = (verdict: string) => verdict === "alarm" || verdict === "model-wrong";

const running = new WeakMap<Database, Map<string, Promise<void>>>();

/**
 * Scorebook sequences of a machine's landing points, later than one, that are not judged yet. Judging them is begun.
 */
export async function pendingMarks(
  db: Database,
  contestId: string,
  machineId: string,
  since: number,
): Promise<number[]> {
  const fixes = await db.fix.findMany({
    where: { shot: { machineId }, sequence: { gt: since }, located: { not: null } },
    select: { id: true, sequence: true, judgements: { select: { byId: true } } },
    orderBy: { sequence: "asc" },
  });
  const pending = fixes.filter(({ id, judgements }) => !judgements.some(({ byId }) => byId === id));
  if (pending.length > 0)
    judgeSoon(
      db,
      contestId,
      pending.map(({ id }) => id),
    );
  return pending.map(({ sequence }) => sequence);
}

/**
 * Judges what was just entered of a machine that has a permit, and holds for what went too far of one that has none; returns
 * at once, and gives way to entries that wait.
 */
export function judgeNew(db: Database, contestId: string, shotId: string): void {
  void afterSaves()
    .then(() =>
      db.permit.findFirst({
        where: { machine: { shots: { some: { id: shotId } } } },
        orderBy: { sequence: "asc" },
        select: { machineId: true, sequence: true },
      }),
    )
    .then(async (oldest) => {
      if (oldest) await pendingMarks(db, contestId, oldest.machineId, oldest.sequence);
      else await holdForShot(db, contestId, shotId);
    })
    .catch((error: unknown) => {
      // Of a machine with a permit nothing is lost: whoever asks whether it stands begins it again.
      console.error("A mark could not be held against its sheet.", error);
    });
}

/** A machine that was never permitted is one that nobody has looked at: what it does beyond its sheet weighs no less. */
async function holdForShot(db: Database, contestId: string, shotId: string): Promise<void> {
  // Each of its entries, once: what was corrected in the next breath was called out all the same.
  const where = { shotId, located: { not: null } };
  for (const { id } of await db.fix.findMany({ where, select: { id: true }, orderBy: { sequence: "asc" } })) {
    const mark = await markOf(db, id);
    await hold(db, contestId, mark, [onItsOwn(mark)]);
  }
}

function judgeSoon(db: Database, contestId: string, fixIds: readonly string[]): void {
  const own = running.get(db) ?? new Map<string, Promise<void>>();
  running.set(db, own);
  for (const fixId of fixIds) {
    if (own.has(fixId)) continue;
    const work = judge(db, contestId, fixId)
      .catch((error: unknown) => {
        if (!isRefusal(error)) console.error("A mark could not be held against its sheet.", error);
      })
      .finally(() => own.delete(fixId));
    own.set(fixId, work);
  }
}

async function judge(db: Database, contestId: string, fixId: string): Promise<void> {
  const mark = await markOf(db, fixId);
  const { shot } = mark;
  await hold(db, contestId, mark, [onItsOwn(mark)]);
  const judged = await verdictsBy(db, mark);
  await hold(db, contestId, mark, judged);
  await inTransaction(db, async (tx) => {
    // Another instance may have been faster.
    if (await tx.markJudgement.findFirst({ where: { fixId, byId: fixId } })) return;
    const alarms = await alarmsAmong(tx, judged);
    const book = await OpenScorebook.at(tx, contestId, null);
    const start = book.sequence;
    for (const { fixId: id, verdict, ...body } of judged) {
      // Of the others only what is news: that they are an alarm after all.
      if (id !== fixId && (alarms.has(id) || !isAlarm(verdict))) continue;
      const sequence = isAlarm(verdict) ? book.next : null;
      const row = { id: newId(), fixId: id, byId: fixId, verdict, body: JSON.stringify(body), sequence };
      await tx.markJudgement.create({ data: { ...row, createdAt: book.at } });
      if (sequence === null) continue;
      await book.append("alarm-raised", row.id, {
        machine: shot.machineId,
        fix: id,
        by: fixId,
        verdict,
        ...body,
      });
    }
    if (book.sequence > start) await notify(tx, contestId, book.sequence);
  });
}

async function alarmsAmong(
  db: Database | DatabaseTransaction,
  judged: readonly Judged[],
): Promise<Set<string>> {
  const rows = await db.markJudgement.findMany({
    where: { fixId: { in: judged.map(({ fixId }) => fixId) } },
  });
  return new Set(rows.filter(({ verdict }) => isAlarm(verdict)).map(({ fixId }) => fixId));
}

/** Before the alarm is written down: were the program to stop in between, the mark would be judged again. */
async function hold(
  db: Database,
  contestId: string,
  { shot }: MarkRow,
  judged: readonly Judged[],
): Promise<void> {
  const beyond = judged.filter(({ verdict }) => verdict === "model-wrong");
  if (beyond.length === 0) return;
  const alarms = await alarmsAmong(db, beyond);
  for (const { fixId, distance, worst } of beyond) {
    if (alarms.has(fixId)) continue;
    const { observedAt } = await db.fix.findUniqueOrThrow({ where: { id: fixId } });
    const machineName = shot.machine.name;
    await holdForThrow(db, contestId, { fixId, machineName, distance, worst: worst ?? 0, observedAt });
  }
}
