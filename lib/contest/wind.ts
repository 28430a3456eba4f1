/** The wind of the day: reading it, and which distances no longer hold in it. */
import {
  READING_LASTS,
  READING_LASTS_AT_MOST,
  type WindHistory,
  type WindOfDay,
  type WindReadingInfo,
  windReadingRequest,
} from "../api/contracts";
import type { Database } from "../db";
import { normalBearing } from "../earth";
import type { HazardSheet } from "../throw";
import { zoneDistances } from "../zones";
import { invalid, parse } from "./errors";
import { airOf, type ContestRow, contestBySlug, machinesWhere } from "./find";
import { mustBeAllowed } from "./roles";
import { newId } from "./scorebook";
import { circumstancesOf, sheetOf, thenSheets } from "./sheets";
import { isBeyond, limitOf, readingsInForce, windAtHeight } from "./wind-now";
import { type Call, committed, type Reply } from "./write";

const MINUTE = 60_000;
/** A phone's clock may be ahead by this much, ms: its now counts as ours. */
const CLOCK_AHEAD = MINUTE;
const SHOWN = 200;
/** Distances closer than this are the same, m. */
const SAME = 0.05;

/** A reading may come late; where it is stronger than the limit every sheet is computed anew at once. */
export async function readWind(call: Call, slug: string, body: unknown): Promise<Reply<WindReadingInfo>> {
  const reading = parse(windReadingRequest, body);
  const contest = await contestBySlug(call.db, slug);
  mustBeAllowed(call.actor, "read the wind", contest.id);
  const { badgeId, label } = call.actor;
  const request = { act: "wind", contest: contest.id, reading };
  const written = committed(call, contest.id, request, async (tx, book) => {
    const { speed, gust, magnetic, height, observer } = reading;
    const times = timesOf(reading, book.at);
    const direction = normalBearing(reading.direction + (magnetic ? contest.declination : 0));
    const measured = { speed, gust, direction, height };
    const row = await tx.windReading.create({
      data: {
        id: newId(),
        contestId: contest.id,
        ...measured,
        observer,
        ...times,
        badgeId,
        createdAt: book.at,
      },
    });
    // Who observed stays out of it: somebody may have written a name after all.
    await book.append("wind-read", row.id, {
      ...measured,
      observedAt: times.observedAt.toISOString(),
      expiresAt: times.expiresAt.toISOString(),
    });
    return readingInfo({ ...row, badge: { label } });
  });
  return thenSheets(call.db, contest.id, written);
}

function timesOf(
  reading: { observedAt?: string | undefined; expiresAt?: string | undefined },
  now: Date,
): { observedAt: Date; expiresAt: Date } {
  const asked = reading.observedAt ? Date.parse(reading.observedAt) : now.getTime();
  if (asked > now.getTime() + CLOCK_AHEAD)
    throw invalid("observedAt", "This lies in the future: give the time at which the wind was read.");
  const observed = Math.min(asked, now.getTime());
  const expires = reading.expiresAt ? Date.parse(reading.expiresAt) : observed + READING_LASTS * MINUTE;
  if (expires <= observed)
    throw invalid("expiresAt", "A reading expires after it was made: give a later time.");
  if (expires > observed + READING_LASTS_AT_MOST * 60 * MINUTE)
    throw invalid(
      "expiresAt",
      `No reading says anything of the wind after ${READING_LASTS_AT_MOST} hours: give an earlier time, and read the wind again.`,
    );
  return { observedAt: new Date(observed), expiresAt: new Date(expires) };
}

/** The wind as it counts now, and the readings so far. Open to all. */
export async function windReadings(db: Database, slug: string): Promise<WindHistory> {
  const contest = await contestBySlug(db, slug);
  const [now, rows] = await Promise.all([
    windOf(db, contest, new Date()),
    db.windReading.findMany({
      where: { contestId: contest.id },
      orderBy: [{ observedAt: "desc" }, { createdAt: "desc" }],
      take: SHOWN,
      include: { badge: { select: { label: true } } },
    }),
  ]);
  return { now, readings: rows.map(readingInfo) };
}

/** What the wind of the day does to the contest's distances. Open to all. */
export async function windOfDay(db: Database, slug: string, now = new Date()): Promise<WindOfDay> {
  return windOf(db, await contestBySlug(db, slug), now);
}

async function windOf(db: Database, contest: ContestRow, now: Date): Promise<WindOfDay> {
  const air = airOf(contest);
  const limit = limitOf(air);
  const readings = await readingsInForce(db, contest.id, now);
  const [strongest] = readings;
  const expired = strongest
    ? null
    : await db.windReading.findFirst({
        where: { contestId: contest.id, expiresAt: { lte: now } },
        orderBy: [{ observedAt: "desc" }, { createdAt: "desc" }],
        include: { badge: { select: { label: true } } },
      });
  const beyond = strongest !== undefined && isBeyond(strongest, limit);
  const expiries = readings.map(({ expiresAt }) => expiresAt.getTime());
  return {
    state: beyond ? "beyond" : strongest ? "within" : "not-measured",
    at: now.toISOString(),
    limit,
    inForce: readings.map(readingInfo),
    atLimitHeight: strongest ? windAtHeight(strongest, limit.height) : null,
    nextExpiry: expiries.length > 0 ? new Date(Math.min(...expiries)).toISOString() : null,
    expired: expired && readingInfo(expired),
    machines: beyond ? await machinesMoved(db, contest, await circumstancesOf(db, contest, now)) : [],
  };
}

/** Every placed machine whose distances are others in the measured wind, or not known yet. */
async function machinesMoved(
  db: Database,
  contest: ContestRow,
  measured: Awaited<ReturnType<typeof circumstancesOf>>,
): Promise<WindOfDay["machines"]> {
  const machines = await machinesWhere(db, {
    contestId: contest.id,
    firingPointId: { not: null },
    bearing: { not: null },
  });
  const atLimit = { ...measured, air: airOf(contest), words: [] };
  const found = await Promise.all(
    machines.map(async (machine) => {
      const [now, before] = await Promise.all([
        sheetOf(db, contest, machine, 0, measured),
        sheetOf(db, contest, machine, 0, atLimit),
      ]);
      const same = now.sheet && before.sheet && holdsIn(before.sheet, now.sheet);
      if (same || now.state === "none") return [];
      const accuracy = machine.firingPoint?.accuracy ?? 0;
      return {
        machineId: machine.id,
        machineName: machine.name,
        entrantName: machine.entrant.name,
        firingPointNumber: machine.firingPoint?.number ?? 0,
        state: now.state,
        atLimit: distancesOf(before.sheet, accuracy),
        now: distancesOf(now.sheet, accuracy),
      };
    }),
  );
  return found.flat();
}

/** Whether a zone still covers all that another reaches. */
const holdsIn = (zone: HazardSheet, other: HazardSheet): boolean =>
  other.exclusion.reach.every((metres, degree) => metres <= (zone.exclusion.reach[degree] as number) + SAME);

const distancesOf = (sheet: HazardSheet | null, accuracy: number) =>
  sheet && zoneDistances(sheet.exclusion, accuracy);

function readingInfo(row: {
  id: string;
  speed: number;
  gust: number;
  direction: number;
  height: number;
  observer: string;
  observedAt: Date;
  expiresAt: Date;
  createdAt: Date;
  badge: { label: string };
}): WindReadingInfo {
  const { id, speed, gust, direction, height, observer } = row;
  return {
    id,
    speed,
    gust,
    direction,
    height,
    observer,
    observedAt: row.observedAt.toISOString(),
    expiresAt: row.expiresAt.toISOString(),
    by: row.badge.label,
    createdAt: row.createdAt.toISOString(),
  };
}
