/** Machines: entering one, declaring what it is, placing it on the firing line, and its page. */
import type { z } from "zod";
import {
  type MachinePage,
  machineChange,
  machineRequest,
  type machineSchema,
  placementRequest,
  revisionRequest,
  type revisionSchema,
} from "../api/contracts";
import type { Database, DatabaseTransaction } from "../db";
import { type Declaration, declarationSchema, type HazardSheet } from "../throw";
import { conflict, invalid, parse, taken } from "./errors";
import { contestBySlug, type MachineRow, machineIn } from "./find";
import { firingPointInfo } from "./layout";
import { mustBeMadeSafe } from "./range/made-safe";
import { type Asker, mustBeAllowed } from "./roles";
import { canonical, newId, type OpenScorebook, sha256 } from "./scorebook";
import { computeMissingSheets, sheetOf, thenSheets } from "./sheets";
import { type Call, committed, type Reply } from "./write";

export type MachineInfo = z.infer<typeof machineSchema>;
export type RevisionInfo = z.infer<typeof revisionSchema>;

export async function enterMachine(call: Call, slug: string, body: unknown): Promise<Reply<MachineInfo>> {
  const { entrantId, name, declaration, note } = parse(machineRequest, body);
  const { id: contestId } = await contestBySlug(call.db, slug);
  mustBeAllowed(call.actor, "enter a machine", contestId);
  const request = {
    act: "machine",
    contestId,
    entrantId,
    name,
    declaration: declaration ?? null,
    ...(note && { note }),
  };
  const reply = await committed(call, contestId, request, (tx, book) =>
    insertMachine(tx, book, contestId, { entrantId, name, declaration, note }),
  );
  computeMissingSheets(call.db, contestId);
  return reply;
}

/** The rows and their entries, inside a transaction. */
export async function insertMachine(
  tx: DatabaseTransaction,
  book: OpenScorebook,
  contestId: string,
  {
    entrantId,
    name,
    declaration,
    note,
  }: {
    entrantId: string;
    name: string;
    declaration?: Declaration | undefined;
    /** Of revision 1. */
    note?: string | undefined;
  },
): Promise<MachineInfo> {
  if (!(await tx.entrant.findFirst({ where: { id: entrantId, contestId } })))
    throw invalid("entrantId", "No entrant of this contest has this id.");
  if (await tx.machine.findFirst({ where: { contestId, name } }))
    throw taken("name", `There is a machine ${name} already.`);
  const row = await tx.machine.create({ data: { id: newId(), contestId, entrantId, name } });
  await book.append("machine-entered", row.id, { entrant: entrantId });
  if (declaration) await appendRevision(tx, book, row.id, declaration, note || "As entered");
  return machineInfo({
    ...row,
    revisions: declaration ? [{ number: 1, declared: JSON.stringify(declaration) }] : [],
  });
}

/** A change to a machine makes a new revision; its shots that have no entry yet will be thrown by that one. */
export async function declareRevision(
  call: Call,
  slug: string,
  machineId: string,
  body: unknown,
): Promise<Reply<RevisionInfo>> {
  const { declaration, note } = parse(revisionRequest, body);
  const contest = await contestBySlug(call.db, slug);
  const machine = await machineIn(call.db, contest.id, machineId);
  mustBeAllowed(call.actor, "declare a machine revision", contest.id, machine.entrantId);
  const request = { act: "revision", machineId, declaration, note };
  const reply = await committed(call, contest.id, request, (tx, book) =>
    appendRevision(tx, book, machineId, declaration, note),
  );
  computeMissingSheets(call.db, contest.id);
  return reply;
}

/**
 * Another name, or out of the contest and back in. A machine that leaves stands nowhere any more, so it has no zone;
 * what it threw stays. Refused while it has a turn to throw: a ruling on its team comes first.
 */
export async function changeMachine(
  call: Call,
  slug: string,
  machineId: string,
  body: unknown,
): Promise<Reply<MachineInfo>> {
  const change = parse(machineChange, body);
  const contest = await contestBySlug(call.db, slug);
  mustBeAllowed(call.actor, "enter a machine", contest.id);
  const contestId = contest.id;
  const written = committed(
    call,
    contestId,
    { act: "change-machine", machineId, change },
    async (tx, book) => {
      const before = await machineIn(tx, contestId, machineId);
      const { name = before.name, retired = before.retired } = change;
      if (await tx.machine.findFirst({ where: { contestId, name, NOT: { id: machineId } } }))
        throw taken("name", `There is a machine ${name} already.`);
      const leaves = retired && !before.retired;
      if (leaves) {
        await mustBeMadeSafe(tx, contestId, before);
        await mustHaveThrown(tx, before);
      }
      const row = await tx.machine.update({
        where: { id: machineId },
        data: { name, retired, ...(leaves && { firingPointId: null, bearing: null, pinned: false }) },
      });
      const told = ({ name, retired, firingPointId, bearing }: typeof row) => ({
        name,
        retired,
        firingPoint: firingPointId,
        bearing,
      });
      await book.append("machine-changed", machineId, { from: told(before), to: told(row) });
      return machineInfo({ ...row, revisions: before.revisions });
    },
    { status: 200 },
  );
  return thenSheets(call.db, contestId, written);
}

async function mustHaveThrown(tx: DatabaseTransaction, machine: MachineRow): Promise<void> {
  const { id, name, entrantId, entrant } = machine;
  const turns = await tx.shot.findMany({
    where: { machineId: id, fixes: { none: {} } },
    orderBy: { round: "asc" },
  });
  if (turns.length === 0) return;
  const last = await tx.ruling.findFirst({ where: { entrantId }, orderBy: { sequence: "desc" } });
  if (last && last.decision !== "competing") return;
  const rounds = turns.map(({ round }) => round).join(", ");
  throw conflict(
    "turn-to-throw",
    `${name} has a turn in round ${rounds} that has no entry yet. Rule ${entrant.name} out first (did not start, did not finish), or enter what happened.`,
  );
}

/** The dimensions stay with officials and the team: the scorebook, open to all, carries their hash. */
export async function appendRevision(
  tx: DatabaseTransaction,
  book: OpenScorebook,
  machineId: string,
  declaration: Declaration,
  note: string,
): Promise<RevisionInfo> {
  const last = await tx.machineRevision.findFirst({ where: { machineId }, orderBy: { number: "desc" } });
  const number = (last?.number ?? 0) + 1;
  const declared = canonical(declaration);
  const row = await tx.machineRevision.create({
    data: { id: newId(), machineId, number, declared, note, createdAt: book.at },
  });
  const pending = { machineId, fixes: { none: {} } };
  await tx.shot.updateMany({ where: pending, data: { revisionId: row.id } });
  await book.append("revision-declared", row.id, { machine: machineId, number, declared: sha256(declared) });
  return { id: row.id, number, note, declaration, createdAt: book.at.toISOString() };
}

/** Where it stands and aims. */
export async function placeMachine(
  call: Call,
  slug: string,
  machineId: string,
  body: unknown,
): Promise<Reply<MachineInfo>> {
  const placement = parse(placementRequest, body);
  const contest = await contestBySlug(call.db, slug);
  mustBeAllowed(call.actor, "place a machine", contest.id);
  if (placement.firingPointId !== null && placement.bearing === null)
    throw invalid("bearing", "Give the bearing on which the machine throws.");
  const written = committed(
    call,
    contest.id,
    { act: "place", machineId, ...placement },
    (tx, book) => putAt(tx, book, contest.id, machineId, placement),
    { status: 200 },
  );
  // On measured ground another place has another ground under its throws.
  return thenSheets(call.db, contest.id, written);
}

/** Puts a machine where it is to stand. Its shots that have no entry yet go with it; measured ones stay where they were. */
export async function putAt(
  tx: DatabaseTransaction,
  book: OpenScorebook,
  contestId: string,
  machineId: string,
  placement: z.output<typeof placementRequest>,
): Promise<MachineInfo> {
  const { firingPointId, bearing } = placement;
  const before = await machineIn(tx, contestId, machineId);
  const pinned = placement.pinned ?? before.pinned;
  if (before.retired)
    throw conflict("retired", `${before.name} is retired: bring it back before it is placed.`);
  const point = firingPointId
    ? await tx.firingPoint.findFirst({ where: { id: firingPointId, contestId } })
    : null;
  if (firingPointId && !point) throw invalid("firingPointId", "No firing point of this contest has this id.");
  if (point?.retired)
    throw invalid(
      "firingPointId",
      `Firing point ${point.number} is retired: choose another, or bring it back.`,
    );
  if (firingPointId !== before.firingPointId || bearing !== before.bearing)
    await mustBeMadeSafe(tx, contestId, before);
  const row = await tx.machine.update({
    where: { id: machineId },
    data: { firingPointId, bearing, pinned },
  });
  if (firingPointId && bearing !== null)
    await tx.shot.updateMany({
      where: { machineId, fixes: { none: {} } },
      data: { firingPointId, bearing },
    });
  await book.append("machine-placed", machineId, {
    from: { firingPoint: before.firingPointId, bearing: before.bearing, pinned: before.pinned },
    to: { firingPoint: firingPointId, bearing, pinned },
  });
  return machineInfo({ ...row, revisions: before.revisions });
}

/** A machine with its revisions and sheets. Officials, and the team whose machine it is. */
export async function machinePage(
  db: Database,
  actor: Asker,
  slug: string,
  machineId: string,
): Promise<MachinePage> {
  const contest = await contestBySlug(db, slug);
  const machine = await machineIn(db, contest.id, machineId);
  mustBeAllowed(actor, "see a machine's declaration and sheet", contest.id, machine.entrantId);
  const current = await sheetOf(db, contest, machine);
  const revisions = await db.machineRevision.findMany({
    where: { machineId },
    orderBy: { number: "desc" },
    include: { sheets: { orderBy: { createdAt: "desc" } } },
  });
  const { id, divisionId, number, name } = machine.entrant;
  return {
    machine: machineInfo(machine),
    entrant: { id, divisionId, number, name },
    firingPoint: machine.firingPoint && firingPointInfo(machine.firingPoint),
    revisions: revisions.map((revision) => ({
      id: revision.id,
      number: revision.number,
      note: revision.note,
      declaration: declarationSchema.parse(JSON.parse(revision.declared)),
      createdAt: revision.createdAt.toISOString(),
      sheets: revision.sheets.map((sheet) => {
        const { exclusion } = JSON.parse(sheet.result) as HazardSheet;
        return {
          id: sheet.id,
          inputHash: sheet.inputHash,
          codeVersion: sheet.codeVersion,
          createdAt: sheet.createdAt.toISOString(),
          current: sheet.id === current.sheetId,
          forward: exclusion.forward,
          backward: exclusion.backward,
        };
      }),
    })),
    current,
  };
}

export function machineInfo(row: {
  id: string;
  entrantId: string;
  name: string;
  firingPointId: string | null;
  bearing: number | null;
  pinned: boolean;
  retired: boolean;
  revisions: { number: number; declared: string }[];
}): MachineInfo {
  const { id, entrantId, name, firingPointId, bearing, pinned, retired, revisions } = row;
  const newest = revisions[0];
  const kind = newest ? (JSON.parse(newest.declared) as Declaration).machine.kind : null;
  const revision = newest?.number ?? null;
  return { id, entrantId, name, kind, firingPointId, bearing, pinned, retired, revision };
}
