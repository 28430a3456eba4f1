/**
 * Hazard sheets of machines. A sheet is stored with its canonical inputs and found by their hash: a new revision,
 * another policy or other air has another hash, and a new engine another version, so the old sheet is stale at once and stays in the record. What is
 * missing is computed by the worker threads, outside any transaction, and stored in one with its scorebook entry.
 */
import type { SheetAnswer } from "../api/contracts";
import { type Database, inTransaction, notify } from "../db";
import {
  type Air,
  type Declaration,
  type HazardRequest,
  type HazardSheet,
  hazardRequestSchema,
} from "../throw";
import { CODE_VERSION } from "../throw/version";
import { isRefusal } from "./errors";
import { airOf, type ContestRow, contestBySlug, type MachineRow, machineIn, policyOf } from "./find";
import { hazardQueue } from "./hazard-queue";
import { type Asker, mustBeAllowed } from "./roles";
import { canonical, newId, OpenScorebook, sha256 } from "./scorebook";

/** How long a page waits for a missing sheet before it shows "computing", ms. */
const WAIT = 4000;

interface Wanted {
  revisionId: string;
  request: HazardRequest;
  inputs: string;
  inputHash: string;
}

interface Computing {
  /** By revision and input hash: when it is stored, and how much of it is done, 0 to 1. */
  running: Map<string, { stored: Promise<void>; done: number }>;
  /** Why the engine will not compute it; asked again after a restart. */
  failed: Map<string, string>;
}

const shared = globalThis as typeof globalThis & { fairthrowSheets?: WeakMap<Database, Computing> };
shared.fairthrowSheets ??= new WeakMap();
const ofDatabase = shared.fairthrowSheets;

function computing(db: Database): Computing {
  const known = ofDatabase.get(db);
  if (known) return known;
  const fresh: Computing = { running: new Map(), failed: new Map() };
  ofDatabase.set(db, fresh);
  return fresh;
}

/** What the engine is asked of a declaration under the contest's policy, air and site. */
export function requestOf(contest: ContestRow, declaration: Declaration): HazardRequest {
  const air: Air = airOf(contest);
  return hazardRequestSchema.parse({
    ...declaration,
    policy: policyOf(contest),
    // The ground's height above the ellipsoid stands in for that above sea level: at most some 100 m, 1 % of density.
    air:
      air.pressure === undefined && air.altitude === undefined ? { ...air, altitude: contest.height } : air,
    site: { latitude: contest.latitude, height: contest.height },
  });
}

function wanted(contest: ContestRow, revision: { id: string; declared: string }): Wanted {
  const request = requestOf(contest, JSON.parse(revision.declared) as Declaration);
  const inputs = canonical(request);
  return { revisionId: revision.id, request, inputs, inputHash: sha256(inputs) };
}

/** The current sheet of a machine, waited for up to `wait` ms; `state` says what there is. */
export async function sheetOf(
  db: Database,
  contest: ContestRow,
  machine: Pick<MachineRow, "id" | "revisions">,
  wait = WAIT,
): Promise<SheetAnswer> {
  const revision = machine.revisions[0];
  const nothing: SheetAnswer = {
    state: "none",
    reason: "No dimensions have been declared yet.",
    machineId: machine.id,
    revision: revision?.number ?? null,
    sheetId: null,
    inputHash: null,
    codeVersion: null,
    createdAt: null,
    progress: null,
    sheet: null,
  };
  if (!revision) return nothing;
  const want = wanted(contest, revision);
  let stored = await storedSheet(db, want);
  if (!stored) {
    await Promise.race([computed(db, contest.id, want), passed(wait)]);
    stored = await storedSheet(db, want);
  }
  if (!stored) {
    const { failed, running } = computing(db);
    const reason = failed.get(keyOf(want));
    return {
      ...nothing,
      state: reason ? "failed" : "computing",
      reason: reason ?? null,
      progress: reason ? null : (running.get(keyOf(want))?.done ?? 0),
      inputHash: want.inputHash,
    };
  }
  return {
    ...nothing,
    state: "current",
    reason: null,
    sheetId: stored.id,
    inputHash: stored.inputHash,
    codeVersion: stored.codeVersion,
    createdAt: stored.createdAt.toISOString(),
    sheet: JSON.parse(stored.result) as HazardSheet,
  };
}

/** Officials, and the team whose machine it is. */
export async function machineSheet(
  db: Database,
  actor: Asker,
  slug: string,
  machineId: string,
): Promise<SheetAnswer> {
  const contest = await contestBySlug(db, slug);
  const machine = await machineIn(db, contest.id, machineId);
  mustBeAllowed(actor, "see a machine's declaration and sheet", contest.id, machine.entrantId);
  return sheetOf(db, contest, machine);
}

/** Starts computing every sheet that a contest lacks, and returns at once. */
export function computeMissingSheets(db: Database, contestId: string): void {
  void allSheets(db, contestId).catch(() => {
    // Nothing is lost: whoever asks for the sheet starts it again.
  });
}

/** Computes every sheet that a contest lacks; resolves when all are stored or have failed. */
export async function allSheets(db: Database, contestId: string): Promise<void> {
  const contest = await db.contest.findUniqueOrThrow({ where: { id: contestId } });
  const machines = await db.machine.findMany({
    where: { contestId },
    include: { revisions: { orderBy: { number: "desc" }, take: 1 } },
  });
  await Promise.all(
    machines.map(async ({ revisions: [revision] }) => {
      if (!revision) return;
      const want = wanted(contest, revision);
      if (!(await storedSheet(db, want))) await computed(db, contestId, want);
    }),
  );
}

const keyOf = (want: Wanted) => `${want.revisionId} ${want.inputHash}`;

function storedSheet(db: Database, want: Wanted) {
  return db.hazardSheet.findFirst({
    where: { revisionId: want.revisionId, inputHash: want.inputHash, codeVersion: CODE_VERSION },
  });
}

/** Computes and stores one sheet, whoever and however often it is asked for. Never rejects. */
function computed(db: Database, contestId: string, want: Wanted): Promise<void> {
  const { running, failed } = computing(db);
  const key = keyOf(want);
  if (failed.has(key)) return Promise.resolve();
  const known = running.get(key);
  if (known) return known.stored;
  const entry = { stored: Promise.resolve(), done: 0 };
  entry.stored = hazardQueue()
    .compute(want.request, "official", (done) => {
      entry.done = done;
    })
    .then((sheet) => store(db, contestId, want, sheet))
    .catch((error: unknown) => {
      if ((error as Error).name === "EngineRefusal") failed.set(key, (error as Error).message);
      else if (!isRefusal(error)) console.error("A hazard sheet could not be computed or stored.", error);
    })
    .finally(() => running.delete(key));
  running.set(key, entry);
  return entry.stored;
}

async function store(db: Database, contestId: string, want: Wanted, sheet: HazardSheet): Promise<void> {
  const { revisionId, inputs, inputHash } = want;
  const { codeVersion } = sheet;
  const result = JSON.stringify(sheet);
  const resultHash = sha256(result);
  await inTransaction(db, async (tx) => {
    // Another instance may have been faster.
    if (await tx.hazardSheet.findFirst({ where: { revisionId, inputHash, codeVersion } })) return;
    const book = await OpenScorebook.at(tx, contestId, null);
    const row = await tx.hazardSheet.create({
      data: { id: newId(), revisionId, inputHash, inputs, result, codeVersion, createdAt: book.at },
      select: { id: true },
    });
    await book.append("sheet-computed", row.id, { revision: revisionId, inputHash, resultHash, codeVersion });
    await notify(tx, contestId, book.sequence);
  });
}

function passed(ms: number): Promise<void> {
  return new Promise((resolve) => setTimeout(resolve, ms).unref());
}
