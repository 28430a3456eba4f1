/**
 * A machine as it stood when something happened: its revision, its place and aim, and the hazard sheet that its zone was
 * drawn by. Read from what was entered by then, for machine, place and policy may have changed since.
 */
import type { Database, DatabaseTransaction } from "../../db";
import { policySchema } from "../../throw";
import type { ContestRow } from "../find";
import { canonical } from "../scorebook";

type Reader = Database | DatabaseTransaction;

/** As an IncidentReport keeps it. */
export interface Stood {
  revisionId: string | null;
  sheetId: string | null;
  firingPointId: string | null;
  latitude: number | null;
  longitude: number | null;
  height: number | null;
  accuracy: number | null;
  bearing: number | null;
}

export async function stoodThen(
  db: Reader,
  contest: ContestRow,
  machineId: string,
  at: Date,
): Promise<Stood> {
  const revision =
    (await db.machineRevision.findFirst({
      where: { machineId, createdAt: { lte: at } },
      orderBy: { number: "desc" },
      select: { id: true },
    })) ??
    // Written down later than it was built.
    (await db.machineRevision.findFirst({
      where: { machineId },
      orderBy: { number: "asc" },
      select: { id: true },
    }));
  const { firingPointId, bearing } = await aimedThen(db, contest.id, machineId, at);
  const place = firingPointId === null ? null : await pointThen(db, contest.id, firingPointId, at);
  const nowhere = { latitude: null, longitude: null, height: null, accuracy: null };
  const where = { machineId, firingPointId, bearing };
  return {
    revisionId: revision?.id ?? null,
    sheetId: revision && place ? await sheetThen(db, contest, revision.id, where, at) : null,
    firingPointId: place && firingPointId,
    ...(place ?? nowhere),
    bearing: place && bearing,
  };
}

interface Aim {
  firingPointId: string | null;
  bearing: number | null;
}

/** The last placement by then. */
async function aimedThen(db: Reader, contestId: string, machineId: string, at: Date): Promise<Aim> {
  const placed = await db.scorebookEntry.findFirst({
    where: {
      contestId,
      subjectId: machineId,
      act: { in: ["machine-placed", "machine-changed"] },
      createdAt: { lte: at },
    },
    orderBy: { sequence: "desc" },
    select: { body: true },
  });
  if (!placed) return { firingPointId: null, bearing: null };
  const { to } = JSON.parse(placed.body) as { to: { firingPoint: string | null; bearing: number | null } };
  return { firingPointId: to.firingPoint, bearing: to.bearing };
}

interface Place {
  latitude: number;
  longitude: number;
  height: number;
  accuracy: number;
}

/** Where a firing point was before it was moved since. */
async function pointThen(db: Reader, contestId: string, id: string, at: Date): Promise<Place | null> {
  const point = await db.firingPoint.findFirst({ where: { id, contestId } });
  if (!point) return null;
  const moved = await db.scorebookEntry.findFirst({
    where: { contestId, subjectId: id, act: "firing-point-moved", createdAt: { gt: at } },
    orderBy: { sequence: "asc" },
    select: { body: true },
  });
  const from = moved ? (JSON.parse(moved.body) as { from: Partial<Place> }).from : {};
  const { latitude, longitude, height, accuracy } = { ...point, ...from };
  return { latitude, longitude, height, accuracy };
}

/**
 * That of the firing permit that was signed then, if its policy held still; else the newest that was computed by then under
 * the policy of then; else, while none was there yet, the first that came.
 */
async function sheetThen(
  db: Reader,
  contest: ContestRow,
  revisionId: string,
  { machineId, firingPointId, bearing }: Aim & { machineId: string },
  at: Date,
): Promise<string | null> {
  const policy = await policyThen(db, contest, at);
  const sheets = await db.hazardSheet.findMany({
    where: { revisionId },
    orderBy: { createdAt: "desc" },
    select: { id: true, inputs: true, createdAt: true },
  });
  const under = ({ inputs }: { inputs: string }) =>
    policy === null || canonical((JSON.parse(inputs) as { policy: unknown }).policy) === policy;
  const permit = await db.permit.findFirst({
    where: { machineId, createdAt: { lte: at } },
    orderBy: { sequence: "desc" },
  });
  const signed =
    permit && permit.firingPointId === firingPointId && permit.bearing === bearing
      ? sheets.find(({ id }) => id === permit.sheetId)
      : undefined;
  const by = sheets.filter(({ createdAt }) => createdAt <= at);
  const found = (signed && under(signed) ? signed : undefined) ?? by.find(under) ?? by[0] ?? sheets.at(-1);
  return found?.id ?? null;
}

/** In canonical JSON; null where nobody knows. */
async function policyThen(db: Reader, contest: ContestRow, at: Date): Promise<string | null> {
  const set = { contestId: contest.id, act: "policy-set" };
  const before = await db.scorebookEntry.findFirst({
    where: { ...set, createdAt: { lte: at } },
    orderBy: { sequence: "desc" },
    select: { body: true },
  });
  if (before) return canonical((JSON.parse(before.body) as { policy: unknown }).policy);
  const later = await db.scorebookEntry.findFirst({ where: { ...set, createdAt: { gt: at } } });
  return later ? null : canonical(policySchema.parse(JSON.parse(contest.policy)));
}
