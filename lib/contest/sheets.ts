/**
 * Hazard sheets of machines. A sheet is stored with its canonical inputs and found by their hash: a new revision,
 * another policy or other air has another hash, and a new engine another version, so the old sheet is stale at once and stays in the record. What is
 * missing is computed by the worker threads, outside any transaction, and stored in one with its scorebook entry.
 */
import type { SheetAnswer } from "../api/contracts";
import { type Database, inTransaction, notify } from "../db";
import type { Air, Barrier, Declaration, HazardRequest, HazardSheet, Terrain } from "../throw";
import { CODE_VERSION } from "../throw/version";
import { barriersAround, barriersOf, type StandingBarrier } from "./barriers";
import { isRefusal } from "./errors";
import { airOf, type ContestRow, contestBySlug, type MachineRow, machineIn, policyOf } from "./find";
import { type GroundTaken, groundProblem, groundWords, holds, nextGround, type Stand } from "./ground";
import { hazardQueue } from "./hazard-queue";
import { type KnownGround, measuredGround } from "./heights";
import { type Asker, mustBeAllowed } from "./roles";
import { canonical, newId, OpenScorebook, sha256 } from "./scorebook";
import { siteRequest } from "./site-request";
import { effectiveAir, readingsInForce } from "./wind-now";

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

/** What the day gives every sheet of a contest. */
export interface Circumstances {
  air: Air;
  /** Of the wind, where it is stronger than the limit. */
  words: string[];
  ground: KnownGround | null;
  /** Those that are signed for. */
  barriers: readonly StandingBarrier[];
}

/** As they are now: the limit or the stronger wind that was measured, and the heights of the site. */
export async function circumstancesOf(
  db: Database,
  contest: ContestRow,
  now = new Date(),
): Promise<Circumstances> {
  const [ground, readings, barriers] = await Promise.all([
    measuredGround(db, contest.id),
    readingsInForce(db, contest.id, now),
    barriersOf(db, contest.id, { retired: false }),
  ]);
  const limit = airOf(contest);
  const air = effectiveAir(limit, readings);
  const words =
    air === limit
      ? []
      : [
          `Wind measured today, gusts to ${(air.wind?.gust ?? 0).toFixed(1)} m/s at ${air.wind?.height} m: stronger than the limit in which machines may fire.`,
        ];
  return { air, words, ground, barriers };
}

/** What the engine is asked of a declaration under the contest's policy and site, in this air and on this ground. */
export const requestOf = (
  contest: ContestRow,
  declaration: Declaration,
  day: Parameters<typeof siteRequest>[2],
): HazardRequest => siteRequest({ ...contest, policy: policyOf(contest) }, declaration, day);

type Revision = { id: string; declared: string };
/** A machine with what decides its sheet. */
export type SheetMachine = Pick<MachineRow, "id" | "revisions"> & {
  firingPoint: Stand["firingPoint"] | null;
  bearing: number | null;
};

function wanted(
  contest: ContestRow,
  revision: Revision,
  day: { air: Air; terrain?: Terrain | undefined; barriers: Barrier[] },
): Wanted {
  const request = requestOf(contest, JSON.parse(revision.declared) as Declaration, day);
  const inputs = canonical(request);
  return { revisionId: revision.id, request, inputs, inputHash: sha256(inputs) };
}

type StoredSheet = NonNullable<Awaited<ReturnType<typeof storedSheet>>>;
/** The sheet to be shown, or the one that must be computed first. */
interface Found {
  want: Wanted;
  stored: StoredSheet | null;
  /** Null on the ground that needs no heights. */
  ground: GroundTaken | null;
  problem: string | null;
}

/** The ground that a machine's sheet settled on, by all that decides it: what took several sheets to find. */
const settled = new Map<string, GroundTaken>();
const SETTLED_KEPT = 1000;

/**
 * The sheet of a revision where it stands. On measured ground the first is computed for level ground, its reach says
 * which ground counts, and a sheet holds once it stays on the ground that its plane was laid under.
 */
async function found(
  db: Database,
  contest: ContestRow,
  revision: Revision,
  { firingPoint, bearing }: Pick<SheetMachine, "firingPoint" | "bearing">,
  { air, ground, barriers: signed }: Circumstances,
): Promise<Found> {
  const barriers = firingPoint && bearing !== null ? barriersAround(signed, { firingPoint, bearing }) : [];
  const level = wanted(contest, revision, { air, barriers });
  if (!ground || !firingPoint || bearing === null)
    return { want: level, stored: await storedSheet(db, level), ground: null, problem: null };
  const { latitude, longitude, height, accuracy } = firingPoint;
  const key = [level.inputHash, ground.signature, latitude, longitude, height, accuracy, bearing].join(" ");
  let taken = settled.get(key) ?? null;
  const reaches: number[][] = [];
  for (;;) {
    const want = taken ? wanted(contest, revision, { air, terrain: taken.terrain, barriers }) : level;
    const stored = await storedSheet(db, want);
    if (!stored) return { want, stored, ground: taken, problem: null };
    const { reach } = (JSON.parse(stored.result) as HazardSheet).exclusion;
    if (taken && holds(taken, reach)) {
      if (settled.size >= SETTLED_KEPT) settled.clear();
      settled.set(key, taken);
      return { want, stored, ground: taken, problem: null };
    }
    reaches.push(reach);
    taken = nextGround(ground, { firingPoint, bearing }, reaches);
    const problem = groundProblem(taken);
    if (problem) return { want, stored: null, ground: taken, problem };
  }
}

/** The current sheet of a machine, waited for up to `wait` ms; `state` says what there is. */
export async function sheetOf(
  db: Database,
  contest: ContestRow,
  machine: SheetMachine,
  wait = WAIT,
  circumstances?: Circumstances,
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
    air: null,
    terrain: null,
    given: [],
    sheet: null,
  };
  if (!revision) return nothing;
  const given = circumstances ?? (await circumstancesOf(db, contest));
  const until = performance.now() + wait;
  let now = await found(db, contest, revision, machine, given);
  while (!now.stored && !now.problem) {
    const left = until - performance.now();
    await Promise.race([computed(db, contest.id, now.want), passed(Math.max(0, left))]);
    const { inputHash } = now.want;
    now = await found(db, contest, revision, machine, given);
    // Not there in time, or never: the same one is still missing.
    if (!now.stored && (left <= 0 || now.want.inputHash === inputHash)) break;
  }
  const { want, stored, ground, problem } = now;
  if (!stored) {
    const { failed, running } = computing(db);
    const reason = problem ?? failed.get(keyOf(want));
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
    air: given.air,
    terrain: want.request.terrain ?? null,
    given: [
      ...given.words,
      ...(ground && machine.firingPoint ? groundWords(ground, machine.firingPoint) : []),
    ],
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

/** A write after which sheets may be missing: they are begun once it is done. */
export async function thenSheets<T>(db: Database, contestId: string, write: Promise<T>): Promise<T> {
  const reply = await write;
  computeMissingSheets(db, contestId);
  return reply;
}

/** Computes every sheet that a contest lacks; resolves when all are stored or have failed. */
export async function allSheets(db: Database, contestId: string): Promise<void> {
  const contest = await db.contest.findUniqueOrThrow({ where: { id: contestId } });
  const machines = await db.machine.findMany({
    where: { contestId, retired: false },
    include: { firingPoint: true, revisions: { orderBy: { number: "desc" }, take: 1 } },
  });
  const given = await circumstancesOf(db, contest);
  await Promise.all(
    machines.map(async (machine) => {
      const [revision] = machine.revisions;
      if (!revision) return;
      let before: string | null = null;
      for (;;) {
        const { want, stored, problem } = await found(db, contest, revision, machine, given);
        // Settled, or the one that was asked for could not be computed.
        if (stored || problem || want.inputHash === before) return;
        before = want.inputHash;
        await computed(db, contestId, want);
      }
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
