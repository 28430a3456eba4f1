/** Shots as pages show them: a round in its firing order, one shot with its whole history, the judge's view. */
import type { FixAnswer, JudgeView, RulingInfo, ShotHistory, ShotInfo, SiteGeometry } from "../api/contracts";
import type { Database, DatabaseTransaction } from "../db";
import { inverse } from "../earth";
import type { Fix } from "../survey";
import type { HazardSheet } from "../throw";
import { contestSummary } from "./contests";
import { notFound } from "./errors";
import { contestBySlug } from "./find";
import { firingPointInfo } from "./layout";
import { type Asker, mustBeAllowed } from "./roles";

type Reader = Database | DatabaseTransaction;

const WITH_ALL = {
  entrant: true,
  machine: true,
  revision: true,
  firingPoint: true,
  fixes: { orderBy: { createdAt: "desc" }, include: { badge: true } },
  rulings: { orderBy: { sequence: "desc" }, include: { badge: true } },
} as const;

const findShots = (db: Reader, where: { contestId: string; round?: number; id?: string }) =>
  db.shot.findMany({ where, include: WITH_ALL, orderBy: [{ round: "asc" }, { position: "asc" }] });

export type ShotRow = Awaited<ReturnType<typeof findShots>>[number];
type FixRow = ShotRow["fixes"][number];

/** One shot with all that hangs on it. Throws 404. */
export async function shotIn(db: Reader, contestId: string, id: string): Promise<ShotRow> {
  const [shot] = await findShots(db, { contestId, id });
  if (!shot) throw notFound("shot");
  return shot;
}

/** The fix that counts: the one that no other replaces. */
export function currentFix<F extends { id: string; replacesId: string | null }>(shot: {
  fixes: F[];
}): F | null {
  const replaced = new Set(shot.fixes.map((fix) => fix.replacesId));
  return shot.fixes.find((fix) => !replaced.has(fix.id)) ?? null;
}

/** Shots of one round in firing order; of the newest round if none is named. Open to all. */
export async function roundShots(
  db: Database,
  slug: string,
  round?: number,
): Promise<{ round: number | null; shots: ShotInfo[] }> {
  const contest = await contestBySlug(db, slug);
  const chosen = round ?? (await roundsOf(db, contest.id)).at(-1) ?? null;
  if (chosen === null) return { round: null, shots: [] };
  const shots = await findShots(db, { contestId: contest.id, round: chosen });
  return { round: chosen, shots: shots.map(shotInfo) };
}

/** All of one shot, newest fix first: who entered what, when and why. Open to all. */
export async function shotHistory(db: Database, slug: string, shotId: string): Promise<ShotHistory> {
  const contest = await contestBySlug(db, slug);
  const shot = await shotIn(db, contest.id, shotId);
  return {
    shot: shotInfo(shot),
    firingPoint: firingPointInfo(shot.firingPoint),
    fixes: shot.fixes.map((fix) => fixInfo(fix, shot.firingPoint)),
    rulings: shot.rulings.map(rulingInfo),
  };
}

/** What a judge's phone needs of a round: by default the first that is not finished, or else the newest. */
export async function judgeView(
  db: Database,
  actor: Asker,
  slug: string,
  round?: number,
): Promise<JudgeView> {
  const contest = await contestBySlug(db, slug);
  mustBeAllowed(actor, "see the judge's view", contest.id);
  const [all, features] = await Promise.all([
    findShots(db, { contestId: contest.id }),
    db.siteFeature.findMany({ where: { contestId: contest.id, kind: "boundary", retired: false } }),
  ]);
  const rounds = [...new Set(all.map((shot) => shot.round))];
  const open = all.find((shot) => currentFix(shot) === null)?.round;
  const chosen = round ?? open ?? rounds.at(-1) ?? null;
  const shots = all.filter((shot) => shot.round === chosen);
  const sheets = await newestSheets(db, [...new Set(shots.map((shot) => shot.revisionId))]);
  return {
    contest: contestSummary(contest),
    round: chosen,
    rounds,
    upId: shots.find((shot) => currentFix(shot) === null)?.id ?? null,
    shots: shots.map((shot) => {
      const worst = sheets.get(shot.revisionId)?.worst;
      return {
        ...shotInfo(shot),
        firingPoint: firingPointInfo(shot.firingPoint),
        lastMark: lastMark(all, shot),
        worstForward: worst?.forward.distance ?? null,
        worstBackward: worst?.backward.distance ?? null,
      };
    }),
    boundary: features.map((feature) => JSON.parse(feature.geometry) as SiteGeometry),
  };
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

/** The newest sheet of each revision, whatever policy it was computed under: its worst throw is in it. */
export async function newestSheets(db: Reader, revisionIds: string[]): Promise<Map<string, HazardSheet>> {
  const rows = await db.hazardSheet.findMany({
    where: { revisionId: { in: revisionIds } },
    orderBy: { createdAt: "asc" },
    select: { revisionId: true, result: true },
  });
  return new Map(rows.map((row) => [row.revisionId, JSON.parse(row.result) as HazardSheet]));
}

/** The entrant's mark in its last measured shot before this one, m. */
export function lastMark(
  shots: readonly (Pick<ShotRow, "entrantId" | "round"> & {
    fixes: Pick<FixRow, "id" | "replacesId" | "mark">[];
  })[],
  shot: Pick<ShotRow, "entrantId" | "round">,
): number | null {
  return shots
    .filter((other) => other.entrantId === shot.entrantId && other.round < shot.round)
    .sort((a, b) => a.round - b.round)
    .reduce<number | null>((last, other) => currentFix(other)?.mark ?? last, null);
}

export function shotInfo(shot: ShotRow): ShotInfo {
  const { id, round, position, entrantId, machineId, firingPointId, bearing } = shot;
  const fix = currentFix(shot);
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
    fix: fix && fixInfo(fix, shot.firingPoint),
    ruling: shot.rulings[0] ? rulingInfo(shot.rulings[0]) : null,
  };
}

export function fixInfo(
  fix: Omit<FixRow, "badge"> & { badge: { label: string } },
  firingPoint: { latitude: number; longitude: number },
): FixAnswer {
  const covariance = fix.covariance ? (JSON.parse(fix.covariance) as [number, number, number]) : null;
  return {
    id: fix.id,
    outcome: fix.outcome as FixAnswer["outcome"],
    method: fix.method,
    input: JSON.parse(fix.input) as Fix,
    latitude: fix.latitude,
    longitude: fix.longitude,
    covariance,
    mark: fix.mark,
    uncertainty: covariance && uncertaintyAlong(covariance, firingPoint, fix),
    flags: JSON.parse(fix.flags) as FixAnswer["flags"],
    observedAt: fix.observedAt.toISOString(),
    createdAt: fix.createdAt.toISOString(),
    by: fix.badge.label,
    replacesId: fix.replacesId,
    reason: fix.reason,
  };
}

/** Expanded uncertainty (k = 2) of the distance from the firing point, m: 2·√(dᵀCd), d the line's direction. */
function uncertaintyAlong(
  [eastEast, eastNorth, northNorth]: [number, number, number],
  from: { latitude: number; longitude: number },
  to: { latitude: number | null; longitude: number | null },
): number | null {
  if (to.latitude === null || to.longitude === null) return null;
  const { bearing } = inverse(from, { latitude: to.latitude, longitude: to.longitude });
  const east = Math.sin((bearing * Math.PI) / 180);
  const north = Math.cos((bearing * Math.PI) / 180);
  return (
    2 *
    Math.sqrt(Math.max(0, eastEast * east * east + 2 * eastNorth * east * north + northNorth * north * north))
  );
}

export function rulingInfo(
  row: Omit<ShotRow["rulings"][number], "badge"> & { badge: { label: string } },
): RulingInfo {
  return {
    id: row.id,
    entrantId: row.entrantId,
    shotId: row.shotId,
    decision: row.decision as RulingInfo["decision"],
    reason: row.reason,
    by: row.badge.label,
    sequence: row.sequence,
    createdAt: row.createdAt.toISOString(),
  };
}
