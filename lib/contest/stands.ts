/**
 * A machine at a firing point on a bearing, as it is or as it might be, with the ground that its zone is held against.
 * Sheets of what is only tried out are official in every number and stored nowhere.
 */
import type { SheetAnswer } from "../api/contracts";
import type { Database } from "../db";
import { type Declaration, declarationSchema, type HazardRequest, type HazardSheet } from "../throw";
import { CODE_VERSION } from "../throw/version";
import { type Agreement, agreementOf, layOut, type Site } from "../zones";
import { barriersAround } from "./barriers";
import { daysOf, today } from "./days";
import { conflict, invalid, Refusal } from "./errors";
import { type FeatureInfo, featureInfo } from "./features";
import {
  type ContestRow,
  contestBySlug,
  firingPointIn,
  type MachineRow,
  machineIn,
  machinesWhere,
} from "./find";
import { deepestLevel, sheetOnGround } from "./ground";
import { EngineRefusal, hazardQueue } from "./hazard-queue";
import { type Asker, mustBeAllowed } from "./roles";
import { canonical, sha256 } from "./scorebook";
import { type Circumstances, circumstancesOf, requestOf, sheetOf } from "./sheets";

export type PointRow = Awaited<ReturnType<typeof firingPointIn>>;

export interface Place {
  point: PointRow;
  bearing: number;
}

/** What a contest's zones are held against, with what the day gives their sheets. */
export interface Ground {
  features: GroundFeature[];
  site: Site;
  given: Circumstances;
}
export type GroundFeature = FeatureInfo & { agreement: Agreement | null };

export interface Standing extends Place, Ground {
  db: Database;
  contest: ContestRow;
  machine: MachineRow;
  revision: MachineRow["revisions"][number];
  declaration: Declaration;
  /** Of what is declared, at this place. */
  sheet: HazardSheet;
}

/** How long a missing official sheet is waited for, ms. */
const WAIT = 15_000;

/**
 * A declared machine with its sheet, at the point and on the bearing that are asked about. Throws 422 when it stands
 * nowhere and no place is named, 409 while there is no sheet.
 */
export async function standing(
  db: Database,
  actor: Asker,
  slug: string,
  asked: { machine: string; firingPoint?: string | undefined; bearing?: number | undefined },
): Promise<Standing> {
  const contest = await contestBySlug(db, slug);
  mustBeAllowed(actor, "place a machine", contest.id);
  const machine = await machineIn(db, contest.id, asked.machine);
  const pointId = asked.firingPoint ?? machine.firingPointId;
  if (!pointId) throw invalid("firingPoint", "This machine stands nowhere yet: say at which firing point.");
  const point = await firingPointIn(db, contest.id, pointId);
  const revision = machine.revisions[0];
  if (!revision) throw invalid("machine", "Nothing is declared for this machine yet, so it has no zone.");
  const ground = await groundOf(db, contest);
  const { state, reason, sheet } = await sheetOf(db, contest, machine, WAIT, ground.given);
  if (!sheet)
    throw conflict(
      "no-sheet",
      state === "computing"
        ? "The hazard sheet of this machine is still being computed. Ask again in some seconds."
        : `This machine has no hazard sheet: ${reason ?? "its page says why"}`,
    );
  const declaration = declarationSchema.parse(JSON.parse(revision.declared));
  const there = { point, bearing: asked.bearing ?? machine.bearing ?? 0 };
  const base = { db, contest, machine, revision, declaration, ...ground };
  const { firingPoint, bearing } = machine;
  const asItStands = firingPoint && bearing !== null && samePlace({ point: firingPoint, bearing }, there);
  return { ...base, ...there, sheet: asItStands ? sheet : await settledSheet(base, declaration, there) };
}

export async function groundOf(db: Database, contest: ContestRow): Promise<Ground> {
  const [rows, consents, given] = await Promise.all([
    db.siteFeature.findMany({ where: { contestId: contest.id, retired: false }, orderBy: { name: "asc" } }),
    db.consent.findMany({
      where: { contestId: contest.id, retired: false, featureId: { not: null } },
      select: { kind: true, featureId: true, givenOn: true, expiresOn: true },
    }),
    circumstancesOf(db, contest),
  ]);
  // A fair that was put off: a paper that has ended since allows nothing any more.
  const { first, last } = daysOf(contest);
  const days = { first, last: [last, today()].sort().at(-1) ?? last };
  const features = rows.map(featureInfo).map((feature) => ({
    ...feature,
    agreement: agreementOf(feature, consents, days),
  }));
  return { features, site: layOut(features, contest, contest.height), given };
}

export interface Placed {
  machine: AnyMachine;
  /** Null for a machine that stands nowhere. */
  place: Place | null;
  sheet: SheetAnswer;
}

type AnyMachine = Omit<MachineRow, "entrant"> & { entrant: { number: number; name: string } };

/** Every machine with its sheet as it is now: a missing one is begun, and not waited for. */
export async function allMachines(
  db: Database,
  contest: ContestRow,
  given: Circumstances,
): Promise<Placed[]> {
  const machines = await machinesWhere(db, { contestId: contest.id, retired: false });
  return Promise.all(
    machines.map(async (machine) => ({
      machine,
      place:
        machine.firingPoint && machine.bearing !== null
          ? { point: machine.firingPoint, bearing: machine.bearing }
          : null,
      sheet: await sheetOf(db, contest, machine, 0, given),
    })),
  );
}

/**
 * The sheet of a machine as it might be declared, at a place. Throws EngineRefusal for what cannot be computed, 503
 * when too many ask.
 */
export async function sheetAt(
  at: Standing,
  declaration: Declaration,
  place: Place,
  onProgress?: (done: number) => void,
): Promise<HazardSheet> {
  if (declaration === at.declaration && samePlace(at, place)) return at.sheet;
  return settledSheet(at, declaration, place, onProgress);
}

/** On measured ground on the plane that holds at the place, as `sheetOf` settles it. */
async function settledSheet(
  at: Pick<Standing, "db" | "contest" | "revision" | "given">,
  declaration: Declaration,
  place: Place,
  onProgress: (done: number) => void = () => {},
): Promise<HazardSheet> {
  const { air, ground } = at.given;
  const firingPoint = place.point;
  const barriers = barriersAround(at.given.barriers, { firingPoint, bearing: place.bearing });
  const { sheet } = await sheetOnGround(
    ground,
    { firingPoint, bearing: place.bearing },
    (terrain) => trialSheet(at, requestOf(at.contest, declaration, { air, terrain, barriers }), onProgress),
    (problem) => new EngineRefusal(problem, null),
  );
  return sheet;
}

const samePlace = (a: Place, b: Place) =>
  a.bearing === b.bearing && a.point.latitude === b.point.latitude && a.point.longitude === b.point.longitude;

/**
 * How far a machine reaches whichever way it is turned at any of these points, m by azimuth: on measured ground it is
 * taken on a level plane below all of that, for the plane of a sheet holds on its own bearing alone. Throws
 * 409 for ground too low and for what cannot be computed there, 503 when too many ask.
 */
export async function reachAnyWay(
  at: Omit<Standing, keyof Place | "machine">,
  points: readonly PointRow[],
): Promise<number[]> {
  const { air, ground } = at.given;
  // A barrier stands where it stands: what is turned is the zone without it.
  if (!ground) return openReach(at.sheet);
  const level = deepestLevel(ground, points);
  if (!level) return openReach(at.sheet);
  const { problem, terrain } = level;
  if (problem) throw conflict("ground", problem);
  const request = requestOf(at.contest, at.declaration, { air, terrain });
  const sheet = await trialSheet(at, request).catch((error: Error) => {
    if (error.name === "EngineRefusal") throw conflict("no-sheet", error.message);
    throw error;
  });
  return sheet.exclusion.reach;
}

/** How far a machine reaches where no barrier stands: what counts as soon as it is moved or turned. */
export const openReach = ({ exclusion }: HazardSheet): number[] => exclusion.open ?? exclusion.reach;

/** Throws once nobody waits for the answer any more. */
export function mustBeWanted(signal: AbortSignal | undefined): void {
  if (signal?.aborted) throw new Refusal(503, "given-up", "Whoever asked for this has gone. Ask again.");
}

/** Sheets remembered for who asks the same again; about 30 kB each. */
const REMEMBERED = 120;
const shared = globalThis as typeof globalThis & { fairthrowTrials?: Map<string, HazardSheet> };
shared.fairthrowTrials ??= new Map();
const trials = shared.fairthrowTrials;

async function trialSheet(
  { db, revision }: Pick<Standing, "db" | "revision">,
  request: HazardRequest,
  onProgress: (done: number) => void = () => {},
): Promise<HazardSheet> {
  const inputHash = sha256(canonical(request));
  const known = trials.get(inputHash);
  const where = { revisionId: revision.id, inputHash, codeVersion: CODE_VERSION };
  const stored = known ? null : await db.hazardSheet.findFirst({ where, select: { result: true } });
  const sheet =
    known ??
    (stored
      ? (JSON.parse(stored.result) as HazardSheet)
      : await hazardQueue().compute(request, "trial", onProgress));
  trials.delete(inputHash);
  trials.set(inputHash, sheet);
  for (const oldest of trials.keys()) {
    if (trials.size <= REMEMBERED) break;
    trials.delete(oldest);
  }
  return sheet;
}
