/** Shots as pages show them: a round in its firing order, one shot with its whole history, the judge's view. */
import type {
  Ended,
  FixAnswer,
  JudgeView,
  ShotHistory,
  ShotInfo,
  ShotResult,
  SiteGeometry,
} from "../api/contracts";
import type { Database, DatabaseTransaction } from "../db";
import { afterSaves } from "../live";
import type { Fix, Located } from "../survey";
import { contestSummary } from "./contests";
import type { EntryRow } from "./entry-reading";
import { notFound } from "./errors";
import { type ContestRow, contestBySlug } from "./find";
import { currentFixes, locatedOf, type Marking, markBy, markingOf, type Place, resultOf } from "./judging";
import { firingPointInfo } from "./layout";
import { protestsOf } from "./protests";
import { controlPointInfo } from "./range-points";
import { type Asker, mustBeAllowed } from "./roles";
import { roundResultsOf } from "./round-results";
import { rulingInfo } from "./ruling-info";
import { SharedReading } from "./shared-reading";
import { lastMark } from "./shot-results";
import { roughPoint, sightingInfo, sightingsInForce } from "./sightings";
import { inDayOrder, placeOf, turnsOf, withdrawn } from "./turns";
import { worstThrows } from "./worst-throws";

type Reader = Database | DatabaseTransaction;

const WITH_ALL = {
  entrant: true,
  machine: true,
  revision: true,
  firingPoint: true,
  fixes: { orderBy: { createdAt: "desc" }, include: { badge: true } },
  heldFixes: {
    orderBy: { sequence: "desc" },
    include: { badge: true, decision: { include: { badge: true } } },
  },
  sightings: { include: { badge: true, controlPoint: true } },
  turn: true,
  rulings: { orderBy: { sequence: "desc" }, include: { badge: true } },
} as const;

export const findShots = (
  db: Reader,
  where: { contestId: string; round?: number; id?: string | { in: string[] } },
) => db.shot.findMany({ where, include: WITH_ALL, orderBy: [{ round: "asc" }, { position: "asc" }] });

export type ShotRow = Awaited<ReturnType<typeof findShots>>[number];
export type HeldRow = ShotRow["heldFixes"][number];

/** One shot with all that hangs on it. Throws 404. */
export async function shotIn(db: Reader, contestId: string, id: string): Promise<ShotRow> {
  const [shot] = await findShots(db, { contestId, id });
  if (!shot) throw notFound("shot");
  return shot;
}

interface Round {
  round: number | null;
  shots: ShotInfo[];
}

const rounds = new SharedReading<Round>();

/** Shots of one round in firing order; of the round that is being thrown, or the newest, if none is named. Open to all. */
export const roundShots = (db: Database, slug: string, round?: number): Promise<Round> =>
  rounds.read(`${slug} ${round}`, () => afterSaves().then(() => readRound(db, slug, round)));

async function readRound(db: Database, slug: string, round?: number): Promise<Round> {
  const contest = await contestBySlug(db, slug);
  const chosen = round ?? (await roundAt(db, contest.id));
  if (chosen === null) return { round: null, shots: [] };
  const shots = await findShots(db, { contestId: contest.id, round: chosen });
  const how = readAs(contest);
  return { round: chosen, shots: shots.map((shot) => shotInfo(shot, how)) };
}

/** Whoever walks to a splash looks no farther back. */
const MOST_SPLASHES = 12;

/** The shots that spotters saw land last, the newest first. Open to all. */
export async function sightedShots(db: Database, slug: string): Promise<{ shots: ShotInfo[] }> {
  const contest = await contestBySlug(db, slug);
  const newest = await db.sighting.groupBy({
    by: ["shotId"],
    where: { shot: { contestId: contest.id } },
    _max: { observedAt: true },
    orderBy: { _max: { observedAt: "desc" } },
    take: MOST_SPLASHES,
  });
  const found = await findShots(db, {
    contestId: contest.id,
    id: { in: newest.map(({ shotId }) => shotId) },
  });
  const byId = new Map(found.map((shot) => [shot.id, shot]));
  const how = readAs(contest);
  const shots = newest.flatMap(({ shotId }) => byId.get(shotId) ?? []).map((shot) => shotInfo(shot, how));
  return { shots: shots.filter(({ sightings }) => sightings.length > 0) };
}

/** All of one shot, newest fix first: who entered what, when and why. Open to all. */
export async function shotHistory(db: Database, slug: string, shotId: string): Promise<ShotHistory> {
  const contest = await contestBySlug(db, slug);
  const shot = await shotIn(db, contest.id, shotId);
  const marking = markingOf(contest);
  const results = (await roundResultsOf(db, contest)).find(({ round }) => round === shot.round);
  if (!results) throw new Error("A shot makes its round.");
  return {
    shot: shotInfo(shot, readAs(contest)),
    results,
    firingPoint: firingPointInfo(shot.firingPoint),
    fixes: shot.fixes.map((fix) => fixInfo(fix, shot.firingPoint, marking, heldBefore(shot, fix))),
    held: shot.heldFixes
      .filter(({ decision }) => !decision?.confirmed)
      .map((held) => ({ ...heldFixInfo(held, shot.firingPoint, marking), ...UNSAID })),
    rulings: shot.rulings.map(rulingInfo),
    protests: await protestsOf(db, { contestId: contest.id, shotId }),
  };
}

/**
 * What a judge's phone needs of a round, in the order of the day: its shots, and those of earlier rounds that are made up
 * for in its course. By default the round that is being thrown, or else the newest.
 */
export async function judgeView(
  db: Database,
  actor: Asker,
  slug: string,
  round?: number,
): Promise<JudgeView> {
  const contest = await contestBySlug(db, slug);
  mustBeAllowed(actor, "see the judge's view", contest.id);
  const [found, out, features, pegs] = await Promise.all([
    findShots(db, { contestId: contest.id }),
    withdrawn(db, contest.id),
    db.siteFeature.findMany({ where: { contestId: contest.id, kind: "boundary", retired: false } }),
    db.controlPoint.findMany({ where: { contestId: contest.id, retired: false }, orderBy: { name: "asc" } }),
  ]);
  const all = found
    .map((shot) => ({ ...shot, ...placeOf(shot), out: out.has(shot.entrantId) }))
    .sort(inDayOrder);
  const marking = markingOf(contest);
  const { rule, centre } = marking;
  const results = new Map(all.map((shot) => [shot.id, resultOf(shot, marking)]));
  const marked = all.map((shot) => ({ ...shot, mark: results.get(shot.id)?.mark ?? null }));
  const waiting = (shot: (typeof all)[number]) => !shot.out && results.get(shot.id)?.how === "none";
  const rounds = [...new Set(all.map((shot) => shot.round))].sort((a, b) => a - b);
  const open = all.find(waiting)?.stage;
  const chosen = round ?? open ?? rounds.at(-1) ?? null;
  const shots = all.filter((shot) => shot.round === chosen || shot.stage === chosen);
  const worstOf = await worstThrows(db, [...new Set(shots.map((shot) => shot.revisionId))]);
  return {
    contest: contestSummary(contest),
    round: chosen,
    rounds,
    upId: shots.find(waiting)?.id ?? null,
    shots: shots.map((shot) => {
      const worst = worstOf.get(shot.revisionId);
      return {
        ...shotInfo(shot, readAs(contest), results.get(shot.id)),
        firingPoint: firingPointInfo(shot.firingPoint),
        lastMark: lastMark(marked, shot),
        worstForward: worst?.forward ?? null,
        worstBackward: worst?.backward ?? null,
        out: shot.out,
      };
    }),
    boundary: features.map((feature) => JSON.parse(feature.geometry) as SiteGeometry),
    controlPoints: pegs.map(controlPointInfo),
    markRule: { rule, centre },
  };
}

/** The round of the next shot; the newest when nothing is left to throw, null before the first is made. */
async function roundAt(db: Reader, contestId: string): Promise<number | null> {
  const turns = await turnsOf(db, contestId);
  const next = turns.find(({ state }) => state === "to-throw");
  return next?.round ?? (turns.length > 0 ? Math.max(...turns.map(({ round }) => round)) : null);
}

/** Rounds that have a firing order, ascending. */
export async function roundsOf(db: Reader, contestId: string): Promise<number[]> {
  const rows = await db.shot.findMany({
    where: { contestId },
    distinct: ["round"],
    select: { round: true },
    orderBy: { round: "asc" },
  });
  return rows.map((row) => row.round);
}

/** What of a contest a shot is read by. */
interface ReadAs {
  marking: Marking;
  declination: number;
}
export const readAs = (contest: ContestRow): ReadAs => ({
  marking: markingOf(contest),
  declination: contest.declination,
});

export function shotInfo(
  shot: ShotRow,
  { marking, declination }: ReadAs,
  result: ShotResult = resultOf(shot, marking),
): ShotInfo {
  const { id, round, position, entrantId, machineId, firingPointId, bearing } = shot;
  const [newest] = currentFixes(shot);
  const fix = shot.fixes.find((each) => result.fixIds.includes(each.id)) ?? newest;
  const sightings = sightingsInForce(shot);
  return {
    id,
    round,
    position,
    entrantId,
    entrantNumber: shot.entrant.number,
    entrantName: shot.entrant.name,
    divisionId: shot.entrant.divisionId,
    machineId,
    machineName: shot.machine.name,
    revision: shot.revision.number,
    firingPointId,
    firingPointNumber: shot.firingPoint.number,
    bearing,
    fix: fix ? fixInfo(fix, shot.firingPoint, marking, heldBefore(shot, fix)) : null,
    result,
    ruling: shot.rulings[0] ? rulingInfo(shot.rulings[0]) : null,
    toConfirm: shot.heldFixes.filter(({ decision }) => decision === null).length,
    sightings: sightings.map((each) => sightingInfo(each, declination)),
    rough: roughPoint(shot, sightings, declination),
  };
}

/** The held entry that was confirmed to be this one. */
const heldBefore = (shot: ShotRow, { id }: { id: string }) =>
  shot.heldFixes.find((held) => held.id === id) ?? null;

/** Whoever has a lost phone can write what it likes: only officials read it until one has confirmed it. */
const UNSAID = { witness: null, reason: null };

export function fixInfo(
  fix: EntryRow,
  firingPoint: Place,
  marking: Marking,
  held: HeldRow | null = null,
): FixAnswer {
  const located = locatedOf(fix, firingPoint);
  const mark = located && markBy(located, firingPoint, marking);
  return {
    id: fix.id,
    outcome: fix.outcome as FixAnswer["outcome"],
    method: fix.method,
    input: JSON.parse(fix.input) as Fix,
    latitude: fix.latitude,
    longitude: fix.longitude,
    covariance: located?.covariance ?? null,
    mark: mark?.mark ?? null,
    uncertainty: mark?.uncertainty ?? null,
    bearing: mark?.bearing ?? null,
    sector: mark?.sector ?? null,
    // What hangs on the rule is said anew, since the rule may have changed.
    flags: [...(JSON.parse(fix.flags) as FixAnswer["flags"]), ...(mark?.warnings ?? [])],
    observedAt: fix.observedAt.toISOString(),
    createdAt: fix.createdAt.toISOString(),
    by: fix.badge.label,
    witness: fix.witness,
    replacesId: fix.replacesId,
    reason: fix.reason,
    held: held && heldInfo(held),
  };
}

/** An entry that is held, as it would be read if it were confirmed. */
export function heldFixInfo(held: HeldRow, firingPoint: Place, marking: Marking): FixAnswer {
  const point = held.located === null ? null : (JSON.parse(held.located) as Located).point;
  const { latitude = null, longitude = null } = point ?? {};
  return fixInfo({ ...held, latitude, longitude }, firingPoint, marking, held);
}

function heldInfo({ createdAt, badge, ended, endedAt, decision }: HeldRow): FixAnswer["held"] {
  return {
    state: decision === null ? "waiting" : decision.confirmed ? "confirmed" : "rejected",
    arrivedAt: createdAt.toISOString(),
    ended: (ended ?? "revoked") as Ended,
    endedAt: (endedAt ?? badge.revokedAt ?? createdAt).toISOString(),
    decision: decision && {
      by: decision.badge.label,
      reason: decision.reason,
      at: decision.createdAt.toISOString(),
      sequence: decision.sequence,
    },
  };
}
