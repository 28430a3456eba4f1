/**
 * Measured marks held against what was computed: each against the worst throw of its revision's sheet, and against what the
 * other throws of that revision say of the model. Done by the worker threads once an entry is written, and asked for again
 * by whoever wants to know whether a permit stands: until a mark is judged, none of its machine does. A mark that was
 * judged an alarm stays one, whatever it is corrected to: the permit fell for it. Only of machines with a permit.
 */
import { type Database, inTransaction, notify } from "../db";
import { turnOf } from "../earth";
import { afterSaves } from "../live";
import type { Located } from "../survey";
import type { Calibration, HazardRequest, HazardSheet, MeasuredThrow } from "../throw";
import { isRefusal } from "./errors";
import { hazardQueue } from "./hazard-queue";
import { currentFixes } from "./judging";
import { newId, OpenScorebook } from "./scorebook";

type Verdict = Calibration["marks"][number]["verdict"];

export interface Judged {
  fixId: string;
  verdict: Verdict;
  /** From the firing point, m. */
  distance: number;
  predicted: number | null;
  upper99: number | null;
  /** The worst throw of the sheet that way, m; null without a sheet. */
  worst: number | null;
  remark: string | null;
}

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

/** Judges what was just entered of a machine that has a permit; returns at once, and gives way to entries that wait. */
export function judgeNew(db: Database, contestId: string, shotId: string): void {
  void afterSaves()
    .then(() =>
      db.permit.findFirst({
        where: { machine: { shots: { some: { id: shotId } } } },
        orderBy: { sequence: "asc" },
        select: { machineId: true, sequence: true },
      }),
    )
    .then((oldest) => oldest && pendingMarks(db, contestId, oldest.machineId, oldest.sequence))
    .catch(() => {
      // Nothing is lost: whoever asks whether the permit stands begins it again.
    });
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
  const judged = await verdictsBy(db, fixId);
  const by = await db.fix.findUniqueOrThrow({ where: { id: fixId }, include: { shot: true } });
  await inTransaction(db, async (tx) => {
    // Another instance may have been faster.
    if (await tx.markJudgement.findFirst({ where: { fixId, byId: fixId } })) return;
    const before = await tx.markJudgement.findMany({
      where: { fixId: { in: judged.map((each) => each.fixId) } },
    });
    const book = await OpenScorebook.at(tx, contestId, null);
    const start = book.sequence;
    for (const { fixId: id, verdict, ...body } of judged) {
      const known = before.some((each) => each.fixId === id && isAlarm(each.verdict));
      // Of the others only what is news: that they are an alarm after all.
      if (id !== fixId && (known || !isAlarm(verdict))) continue;
      const sequence = isAlarm(verdict) ? book.next : null;
      const row = { id: newId(), fixId: id, byId: fixId, verdict, body: JSON.stringify(body), sequence };
      await tx.markJudgement.create({ data: { ...row, createdAt: book.at } });
      if (sequence === null) continue;
      await book.append("alarm-raised", row.id, {
        machine: by.shot.machineId,
        fix: id,
        by: fixId,
        verdict,
        ...body,
      });
    }
    if (book.sequence > start) await notify(tx, contestId, book.sequence);
  });
}

/** Of the entry itself, and of the other throws of its revision in its light. */
async function verdictsBy(db: Database, fixId: string): Promise<Judged[]> {
  const { shot, ...fix } = await db.fix.findUniqueOrThrow({
    where: { id: fixId },
    include: {
      shot: { include: { revision: { include: { sheets: { orderBy: { createdAt: "desc" }, take: 1 } } } } },
    },
  });
  const own = landing(fix, shot.bearing);
  const [sheet] = shot.revision.sheets;
  const unjudged = { fixId, predicted: null, upper99: null, distance: own?.distance ?? 0 };
  if (!own || !sheet)
    return [
      { ...unjudged, verdict: "unjudged", worst: null, remark: "Nothing was computed to hold it against." },
    ];
  const { worst } = JSON.parse(sheet.result) as HazardSheet;
  if (!own.forward) {
    const { distance } = worst.backward;
    const verdict = own.distance > distance ? "model-wrong" : "expected";
    return [{ ...unjudged, verdict, worst: distance, remark: null }];
  }
  const beyond = own.distance > worst.forward.distance;
  const alone = (remark: string): Judged[] => [
    {
      ...unjudged,
      verdict: beyond ? "model-wrong" : "unjudged",
      worst: worst.forward.distance,
      remark,
    },
  ];
  if (!own.firstImpact) return alone("Where it came to rest says little of how far it flew.");
  if (!(own.distance > 0)) return alone("It landed where it stood.");
  const throws = await throwsOf(db, shot.revisionId, fixId);
  try {
    const { marks } = await hazardQueue().calibrate(
      JSON.parse(sheet.inputs) as HazardRequest,
      throws.map(({ measured }) => measured),
      worst.forward.distance,
    );
    return marks.map(({ verdict, distance, predicted, upper99, remark }, index) => ({
      fixId: (throws[index] as { fixId: string }).fixId,
      verdict,
      distance,
      predicted,
      upper99,
      worst: worst.forward.distance,
      remark,
    }));
  } catch (error) {
    if ((error as Error).name !== "EngineRefusal") throw error;
    return alone((error as Error).message);
  }
}

/** Distance and way of a landing point; null for what has no point. */
function landing({ located }: { located: string | null }, bearing: number) {
  if (located === null) return null;
  const { mark, uncertainty, bearing: to, landing } = JSON.parse(located) as Located;
  const forward = Math.abs(turnOf(bearing, to)) <= 90;
  return { distance: mark, standard: uncertainty / 2, forward, firstImpact: landing !== "rest" };
}

/** Forward landing points of a revision, in the order in which they were seen: those that count, and the asked one. */
async function throwsOf(
  db: Database,
  revisionId: string,
  fixId: string,
): Promise<{ fixId: string; measured: MeasuredThrow }[]> {
  const shots = await db.shot.findMany({
    where: { revisionId },
    include: { fixes: { orderBy: { sequence: "asc" } }, rulings: true },
  });
  const contestId = shots[0]?.contestId ?? "";
  const found = shots.flatMap((shot) => {
    // One throw, one mark: the newest that counts, or the one that is asked for.
    const current = currentFixes(shot);
    const fix = shot.fixes.find(({ id }) => id === fixId) ?? current.at(-1);
    const at = fix && landing(fix, shot.bearing);
    return fix && at?.forward && at.firstImpact && at.distance > 0
      ? [{ fix, bearing: shot.bearing, distance: at.distance, standard: at.standard }]
      : [];
  });
  found.sort(
    (a, b) => a.fix.observedAt.getTime() - b.fix.observedAt.getTime() || a.fix.sequence - b.fix.sequence,
  );
  const readings = await db.windReading.findMany({
    where: { contestId, observedAt: { lte: found.at(-1)?.fix.observedAt ?? new Date(0) } },
    orderBy: [{ observedAt: "desc" }, { createdAt: "desc" }],
  });
  return found.map(({ fix, bearing, distance, standard }) => {
    const wind = windAt(readings, fix.observedAt, bearing);
    const measured = { distance, uncertainty: Math.min(100, standard), ...(wind && { wind }) };
    return { fixId: fix.id, measured };
  });
}

interface Reading {
  observedAt: Date;
  expiresAt: Date;
  speed: number;
  direction: number;
  height: number;
}

/** The newest reading that held when something was seen, as a throw on a bearing met it. `readings`: newest first. */
function windAt(readings: readonly Reading[], at: Date, bearing: number) {
  const reading = readings.find(({ observedAt, expiresAt }) => observedAt <= at && expiresAt > at);
  if (!reading) return null;
  const { speed, direction, height } = reading;
  // It was read as where it blows from; the engine takes where it blows to, from the bearing on.
  return { speed, direction: turnOf(bearing, direction + 180), height };
}
