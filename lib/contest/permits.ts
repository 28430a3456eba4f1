/** Firing permits: whether one stands, and why not. Nothing of that is stored: it follows from what happened since. */
import type { PermitInfo } from "../api/contracts";
import type { Database } from "../db";
import { fallsOf, type PermitLimits, type Wind } from "../inspection";
import { type ContestRow, type MachineRow, machineIn } from "./find";
import { concerning, type Told, toldSince } from "./permit-history";
import { type Circumstances, circumstancesOf, sheetOf } from "./sheets";
import { readingsInForce } from "./wind-now";

export type Permit = PermitInfo;
export type PermitStanding = { stands: true; permit: Permit } | { stands: false; reasons: string[] };

/** Whether a machine may go hot as far as its permit goes; the reasons are sentences for people. */
export async function permitStanding(
  db: Database,
  contestId: string,
  machineId: string,
): Promise<PermitStanding> {
  const contest = await db.contest.findUniqueOrThrow({ where: { id: contestId } });
  const machine = await machineIn(db, contestId, machineId);
  const [permit] = await permitsOfMachine(db, contest, machine);
  if (!permit) return { stands: false, reasons: [`No firing permit has been signed for ${machine.name}.`] };
  return permit.state === "stands"
    ? { stands: true, permit }
    : { stands: false, reasons: permit.falls.map(({ text }) => text) };
}

/** Of one machine, the newest first: that one counts. */
export async function permitsOfMachine(
  db: Database,
  contest: ContestRow,
  machine: MachineRow,
): Promise<PermitInfo[]> {
  const rows = await findPermits(db, { contestId: contest.id, machineId: machine.id });
  if (rows.length === 0) return [];
  const [day, now] = await Promise.all([
    dayOf(db, contest, Math.min(...rows.map(({ sequence }) => sequence))),
    circumstancesOf(db, contest).then((given) => asItStands(db, contest, machine, given)),
  ]);
  return rows.map((row) => permitInfo(row, now, day));
}

const findPermits = (db: Database, where: { contestId: string; machineId?: string }) =>
  db.permit.findMany({
    where,
    orderBy: { sequence: "desc" },
    include: {
      machine: { include: { entrant: true } },
      revision: { select: { number: true } },
      firingPoint: { select: { number: true } },
      badge: { select: { label: true } },
    },
  });
type PermitRow = Awaited<ReturnType<typeof findPermits>>[number];

interface Day {
  told: Told[];
  winds: Wind[];
  windWasRead: boolean;
}

/** What has happened after an entry of the scorebook, and the wind of now. */
async function dayOf(db: Database, contest: ContestRow, sequence: number): Promise<Day> {
  const [told, winds, readings] = await Promise.all([
    toldSince(db, contest.id, sequence),
    readingsInForce(db, contest.id, new Date()),
    db.windReading.count({ where: { contestId: contest.id } }),
  ]);
  return { told, winds, windWasRead: readings > 0 };
}

interface Standing {
  revisionId: string | null;
  firingPointId: string | null;
  bearing: number | null;
  retired: boolean;
  sheetId: string | null;
}

async function asItStands(
  db: Database,
  contest: ContestRow,
  machine: MachineRow,
  given: Circumstances,
): Promise<Standing> {
  const { sheetId } = await sheetOf(db, contest, machine, 0, given);
  const { revisions, firingPointId, bearing, retired } = machine;
  return { revisionId: revisions[0]?.id ?? null, firingPointId, bearing, retired, sheetId };
}

function permitInfo(row: PermitRow, standing: Standing, { told, winds, windWasRead }: Day): PermitInfo {
  const limits = JSON.parse(row.limits) as PermitLimits;
  const falls = fallsOf({ ...row, limits, at: row.createdAt }, concerning(told, row), {
    ...standing,
    winds,
    windWasRead,
    markPending: false,
  });
  return {
    id: row.id,
    number: row.number,
    machineId: row.machineId,
    machineName: row.machine.name,
    entrantId: row.machine.entrantId,
    entrantNumber: row.machine.entrant.number,
    entrantName: row.machine.entrant.name,
    revisionId: row.revisionId,
    revision: row.revision.number,
    firingPointId: row.firingPointId,
    firingPointNumber: row.firingPoint.number,
    bearing: row.bearing,
    sheetId: row.sheetId,
    inspectionId: row.inspectionId,
    limits,
    conditions: row.conditions,
    signedBy: row.badge.label,
    signedAt: row.createdAt.toISOString(),
    sequence: row.sequence,
    state: falls.length === 0 ? "stands" : falls.some(({ lasting }) => lasting) ? "fallen" : "waits",
    falls: falls.map(({ at, ...fall }) => ({ ...fall, at: at?.toISOString() ?? null })),
  };
}
