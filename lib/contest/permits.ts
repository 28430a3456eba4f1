/** Firing permits: whether one stands, and why not. Nothing of that is stored: it follows from what happened since. */
import type { ClearanceList, MachineClearance, PermitInfo } from "../api/contracts";
import type { Database } from "../db";
import { fallsOf, type PermitLimits, type Wind } from "../inspection";
import { type ContestRow, contestBySlug, type MachineRow, machineIn, machinesWhere } from "./find";
import { inspectionsOf } from "./inspect";
import { pendingMarks } from "./judge-marks";
import { concerning, type Told, toldSince } from "./permit-history";
import { type Asker, may, mustBeAllowed } from "./roles";
import { type Circumstances, circumstancesOf, sheetOf } from "./sheets";
import { readingsInForce } from "./wind-now";

export type Permit = PermitInfo;
export type PermitStanding = { stands: true; permit: Permit } | { stands: false; reasons: string[] };

const SEE = "see inspections and firing permits";

/** Whether a machine may go hot as far as its permit goes; the reasons are sentences for people. */
export async function permitStanding(
  db: Database,
  contestId: string,
  machineId: string,
): Promise<PermitStanding> {
  const contest = await db.contest.findUniqueOrThrow({ where: { id: contestId } });
  const machine = await machineIn(db, contestId, machineId);
  const [newest] = await findPermits(db, { contestId, machineId }, 1);
  if (!newest) return { stands: false, reasons: [`No firing permit has been signed for ${machine.name}.`] };
  const [permit] = await withStanding(db, contest, [newest], [machine]);
  return permit?.state === "stands"
    ? { stands: true, permit }
    : { stands: false, reasons: permit?.falls.map(({ text }) => text) ?? [] };
}

/** Those of some machines of which one stands; null while none is signed in this contest. */
export async function standingPermits(
  db: Database,
  contestId: string,
  machineIds: readonly string[],
): Promise<Set<string> | null> {
  if ((await db.permit.findFirst({ where: { contestId }, select: { id: true } })) === null) return null;
  const contest = await db.contest.findUniqueOrThrow({ where: { id: contestId } });
  const [machines, rows] = await Promise.all([
    machinesWhere(db, { contestId, id: { in: [...machineIds] } }),
    findPermits(db, { contestId, machineId: { in: [...machineIds] } }),
  ]);
  const permits = await withStanding(db, contest, newestOf(machines, rows), machines);
  return new Set(permits.filter(({ state }) => state === "stands").map(({ machineId }) => machineId));
}

/** One permit; it must be there. */
export async function permitOf(db: Database, contest: ContestRow, id: string): Promise<PermitInfo> {
  const rows = await findPermits(db, { contestId: contest.id, id });
  const [permit] = await withStanding(db, contest, rows, [
    await machineIn(db, contest.id, rows[0]?.machineId ?? ""),
  ]);
  return permit as PermitInfo;
}

/** Inspections and permits of one machine. Officials, and the team whose machine it is. */
export async function machineClearance(
  db: Database,
  actor: Asker,
  slug: string,
  machineId: string,
): Promise<MachineClearance> {
  const contest = await contestBySlug(db, slug);
  const machine = await machineIn(db, contest.id, machineId);
  mustBeAllowed(actor, SEE, contest.id, machine.entrantId);
  const [inspections, rows] = await Promise.all([
    inspectionsOf(db, machineId),
    findPermits(db, { contestId: contest.id, machineId }),
  ]);
  return { inspections, permits: await withStanding(db, contest, rows, [machine]) };
}

/** How far every machine has come. Officials; a team sees its own. */
export async function listClearance(db: Database, actor: Asker, slug: string): Promise<ClearanceList> {
  const contest = await contestBySlug(db, slug);
  mustBeAllowed(actor, SEE, contest.id, actor?.entrantId ?? undefined);
  const all = await machinesWhere(db, { contestId: contest.id, retired: false });
  const machines = all.filter(({ entrantId }) => may(actor, SEE, contest.id, entrantId));
  const [inspections, permits] = await Promise.all([
    db.inspection.findMany({
      where: { contestId: contest.id },
      orderBy: { sequence: "desc" },
      select: {
        id: true,
        machineId: true,
        outcome: true,
        inspectedAt: true,
        revision: { select: { number: true } },
      },
    }),
    findPermits(db, { contestId: contest.id }),
  ]);
  const standing = await withStanding(db, contest, newestOf(machines, permits), machines);
  return {
    machines: machines.map(({ id, name, entrant, firingPoint, bearing, revisions }) => {
      const inspection = inspections.find(({ machineId }) => machineId === id);
      return {
        machineId: id,
        machineName: name,
        entrantId: entrant.id,
        entrantNumber: entrant.number,
        entrantName: entrant.name,
        firingPointNumber: firingPoint?.number ?? null,
        bearing,
        revision: revisions[0]?.number ?? null,
        inspection: inspection
          ? {
              id: inspection.id,
              revision: inspection.revision.number,
              outcome: inspection.outcome as "meets" | "meets-with-limits" | "refused",
              inspectedAt: inspection.inspectedAt.toISOString(),
            }
          : null,
        permit: standing.find(({ machineId }) => machineId === id) ?? null,
      };
    }),
  };
}

/** The newest first: of a machine that one counts. */
const findPermits = (
  db: Database,
  where: { contestId: string; machineId?: string | { in: string[] }; id?: string },
  take?: number,
) =>
  db.permit.findMany({
    where,
    orderBy: { sequence: "desc" },
    ...(take !== undefined && { take }),
    include: {
      machine: { include: { entrant: true } },
      revision: { select: { number: true } },
      firingPoint: { select: { number: true } },
      badge: { select: { label: true } },
    },
  });
type PermitRow = Awaited<ReturnType<typeof findPermits>>[number];

/** Of each machine the one that counts, if there is one. */
const newestOf = (machines: readonly { id: string }[], permits: readonly PermitRow[]): PermitRow[] =>
  machines.flatMap(({ id }) => permits.find(({ machineId }) => machineId === id) ?? []);

/** What has happened since the oldest of some permits, and the wind of now. */
interface Day {
  told: Told[];
  winds: Wind[];
  windWasRead: boolean;
}

async function withStanding(
  db: Database,
  contest: ContestRow,
  rows: readonly PermitRow[],
  machines: readonly MachineRow[],
): Promise<PermitInfo[]> {
  if (rows.length === 0) return [];
  const since = Math.min(...rows.map(({ sequence }) => sequence));
  const given = await circumstancesOf(db, contest);
  const asTheyStand = new Map<string, Standing>();
  for (const machine of machines)
    if (rows.some(({ machineId }) => machineId === machine.id))
      asTheyStand.set(machine.id, await asItStands(db, contest, machine, given, since));
  const [told, winds, readings] = await Promise.all([
    // After the marks that wait: one that is judged in between would neither wait nor be told.
    toldSince(db, contest.id, since),
    readingsInForce(db, contest.id, new Date()),
    db.windReading.count({ where: { contestId: contest.id } }),
  ]);
  const day: Day = { told, winds, windWasRead: readings > 0 };
  return rows.map((row) => permitInfo(row, asTheyStand.get(row.machineId) as Standing, day));
}

interface Standing {
  revisionId: string | null;
  firingPointId: string | null;
  bearing: number | null;
  retired: boolean;
  sheetId: string | null;
  /** Scorebook sequences of marks that nothing has judged yet. */
  pending: number[];
}

async function asItStands(
  db: Database,
  contest: ContestRow,
  machine: MachineRow,
  given: Circumstances,
  since: number,
): Promise<Standing> {
  const [{ sheetId }, pending] = await Promise.all([
    sheetOf(db, contest, machine, 0, given),
    pendingMarks(db, contest.id, machine.id, since),
  ]);
  const { revisions, firingPointId, bearing, retired } = machine;
  return { revisionId: revisions[0]?.id ?? null, firingPointId, bearing, retired, sheetId, pending };
}

function permitInfo(row: PermitRow, { pending, ...standing }: Standing, { told, ...day }: Day): PermitInfo {
  const limits = JSON.parse(row.limits) as PermitLimits;
  const markPending = pending.some((sequence) => sequence > row.sequence);
  const falls = fallsOf({ ...row, limits, at: row.createdAt }, concerning(told, row), {
    ...standing,
    ...day,
    markPending,
  });
  const { id, number, machineId, revisionId, firingPointId, bearing, sheetId, inspectionId } = row;
  return {
    id,
    number,
    machineId,
    machineName: row.machine.name,
    entrantId: row.machine.entrantId,
    entrantNumber: row.machine.entrant.number,
    entrantName: row.machine.entrant.name,
    revisionId,
    revision: row.revision.number,
    firingPointId,
    firingPointNumber: row.firingPoint.number,
    bearing,
    sheetId,
    inspectionId,
    limits,
    conditions: row.conditions,
    signedBy: row.badge.label,
    signedAt: row.createdAt.toISOString(),
    paper: row.paperAt && { signedAt: row.paperAt.toISOString(), witness: row.witness ?? "" },
    sequence: row.sequence,
    state: falls.length === 0 ? "stands" : falls.some(({ lasting }) => lasting) ? "fallen" : "waits",
    falls: falls.map(({ at, ...fall }) => ({ ...fall, at: at?.toISOString() ?? null })),
  };
}
