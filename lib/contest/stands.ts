/**
 * A machine at a firing point on a bearing, as it is or as it might be, with the ground that its zone is held against.
 * Sheets of what is only tried out are official in every number and stored nowhere.
 */

import type { Database } from "../db";
import { type Declaration, declarationSchema, type HazardRequest, type HazardSheet } from "../throw";
import { conflict, invalid } from "./errors";
import { type ContestRow, contestBySlug, firingPointIn, type MachineRow, machineIn } from "./find";
import { hazardQueue } from "./hazard-queue";
import type { FeatureInfo } from "./layout";
import { featureInfo } from "./layout";
import { type Asker, mustBeAllowed } from "./roles";
import { canonical, sha256 } from "./scorebook";
import { requestOf, sheetOf } from "./sheets";

export type PointRow = Awaited<ReturnType<typeof firingPointIn>>;

export interface Place {
  point: PointRow;
  bearing: number;
}

export interface Standing extends Place {
  contest: ContestRow;
  machine: MachineRow;
  revision: number;
  declaration: Declaration;
  /** The one in force, for where it stands now. */
  official: { sheet: HazardSheet; inputHash: string };
  /** All that is not retired. */
  features: FeatureInfo[];
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
  const { state, reason, sheet, inputHash } = await sheetOf(db, contest, machine, WAIT);
  if (!sheet || !inputHash)
    throw conflict(
      "no-sheet",
      state === "computing"
        ? "The hazard sheet of this machine is still being computed. Ask again in some seconds."
        : `This machine has no hazard sheet: ${reason ?? "its page says why"}`,
    );
  return {
    contest,
    machine,
    revision: revision.number,
    declaration: declarationSchema.parse(JSON.parse(revision.declared)),
    point,
    bearing: asked.bearing ?? machine.bearing ?? 0,
    official: { sheet, inputHash },
    features: await groundOf(db, contest.id),
  };
}

/** The site features that zones are held against. */
export async function groundOf(db: Database, contestId: string): Promise<FeatureInfo[]> {
  const rows = await db.siteFeature.findMany({
    where: { contestId, retired: false },
    orderBy: { name: "asc" },
  });
  return rows.map(featureInfo);
}

/** The sheet of a machine as it might be declared, at a place; the stored one where that is the same question. */
export async function sheetAt(
  { contest, official }: Pick<Standing, "contest" | "official">,
  declaration: Declaration,
  onProgress: (done: number) => void = () => {},
): Promise<HazardSheet> {
  const request = requestOf(contest, declaration);
  if (sha256(canonical(request)) === official.inputHash) return official.sheet;
  return trialSheet(request, onProgress);
}

/** Sheets remembered for who asks the same again; about 30 kB each. */
const REMEMBERED = 120;
const shared = globalThis as typeof globalThis & { fairthrowTrials?: Map<string, HazardSheet> };
shared.fairthrowTrials ??= new Map();
const trials = shared.fairthrowTrials;

/** Throws EngineRefusal for what cannot be computed, 503 when too many ask. */
export async function trialSheet(
  request: HazardRequest,
  onProgress: (done: number) => void = () => {},
): Promise<HazardSheet> {
  const hash = sha256(canonical(request));
  const sheet = trials.get(hash) ?? (await hazardQueue().compute(request, "trial", onProgress));
  trials.delete(hash);
  trials.set(hash, sheet);
  for (const oldest of trials.keys()) {
    if (trials.size <= REMEMBERED) break;
    trials.delete(oldest);
  }
  return sheet;
}
