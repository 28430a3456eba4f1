/** What a measured mark says of the model: against the worst throw of its revision's sheet, and against the others. */
import type { Database } from "../db";
import { turnOf } from "../earth";
import type { Located } from "../survey";
import type { Calibration, HazardRequest, HazardSheet, MeasuredThrow } from "../throw";
import { hazardQueue } from "./hazard-queue";
import { currentFixes } from "./judging";

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

/** A landing point with the machine and the newest sheet of what threw it. */
export const markOf = (db: Database, fixId: string) =>
  db.fix.findUniqueOrThrow({
    where: { id: fixId },
    include: {
      shot: {
        include: {
          machine: { select: { name: true } },
          revision: { include: { sheets: { orderBy: { createdAt: "desc" }, take: 1 } } },
        },
      },
    },
  });
export type MarkRow = Awaited<ReturnType<typeof markOf>>;

/** What it comes to without the other throws. */
export function onItsOwn({ shot, ...fix }: MarkRow): Judged {
  const own = landing(fix, shot.bearing);
  const [sheet] = shot.revision.sheets;
  const plain = { fixId: fix.id, predicted: null, upper99: null, distance: own?.distance ?? 0 };
  if (!own || !sheet) {
    const remark = "Nothing was computed to hold it against.";
    return { ...plain, verdict: "unjudged", worst: null, remark };
  }
  const { forward, backward } = (JSON.parse(sheet.result) as HazardSheet).worst;
  const worst = own.forward ? forward.distance : backward.distance;
  const verdict = own.distance > worst ? "model-wrong" : own.forward ? "unjudged" : "expected";
  const remark = !own.forward
    ? null
    : !own.firstImpact
      ? "Where it came to rest says little of how far it flew."
      : own.distance > 0
        ? null
        : "It landed where it stood.";
  return { ...plain, verdict, worst, remark };
}

/** Of the entry itself, and of the other throws of its revision in its light. */
export async function verdictsBy(db: Database, mark: MarkRow): Promise<Judged[]> {
  const alone = onItsOwn(mark);
  const { shot, id } = mark;
  const [sheet] = shot.revision.sheets;
  const { worst } = alone;
  // Where nothing was computed, behind the machine, or not where it first struck, others say nothing of it.
  if (!sheet || worst === null || alone.verdict === "expected" || alone.remark !== null) return [alone];
  if (!landing(mark, shot.bearing)?.forward) return [alone];
  const throws = await throwsOf(db, shot.revisionId, id);
  try {
    const { marks } = await hazardQueue().calibrate(
      JSON.parse(sheet.inputs) as HazardRequest,
      throws.map(({ measured }) => measured),
      worst,
    );
    return marks.map(({ verdict, distance, predicted, upper99, remark }, index) => ({
      fixId: (throws[index] as { fixId: string }).fixId,
      verdict,
      distance,
      predicted,
      upper99,
      worst,
      remark,
    }));
  } catch (error) {
    if ((error as Error).name !== "EngineRefusal") throw error;
    return [{ ...alone, remark: (error as Error).message }];
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
