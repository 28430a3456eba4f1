/**
 * Entering an incident, correcting its report, and the places where pieces came down. What counts as outside the zone, or
 * went beyond the model, puts the range on hold before anything is written, as any hold. Nothing is refused that a person
 * may have seen: what cannot be held against a zone is kept, and counts as outside.
 */
import {
  type IncidentReceipt,
  incidentReportRequest,
  incidentRequest,
  type PieceRequest,
  pieceRequest,
} from "../../api/contracts";
import type { DatabaseTransaction } from "../../db";
import { conflict, invalid, parse } from "../errors";
import { type ContestRow, contestBySlug, machineIn } from "../find";
import { agoWords } from "../range/alarm";
import { programHold } from "../range/hold";
import { observed } from "../record-fix";
import { type Actor, mustBeAllowed } from "../roles";
import { newId, type OpenScorebook, sha256 } from "../scorebook";
import { answeredBefore, type Call, committed, type Reply } from "../write";
import type { Compared, Scene } from "./compare";
import { saltedHash } from "./hashed";
import { comparedIn, currentPieces, type IncidentRow, incidentIn, reportOf, sceneOf } from "./read";
import { type Stood, stoodThen } from "./stood";
import { insertWords, lastDay } from "./words";

/** Somebody may be lying there: seen no longer ago than this, ms, the range holds for that alone. Common practice, no source. */
const FRESH = 10 * 60_000;

type AsActor = Call & { actor: Actor };

export async function enterIncident(
  call: Call,
  slug: string,
  body: unknown,
): Promise<Reply<IncidentReceipt>> {
  const entry = parse(incidentRequest, body);
  const { contest, as } = await asked(call, slug);
  const request = { act: "incident", contest: contest.id, entry };
  const before = await answeredBefore<IncidentReceipt>(call, request);
  if (before) return before;
  const machine = await machineIn(call.db, contest.id, entry.machineId);
  const observedAt = observed(entry, new Date());
  const stood = await stoodThen(call.db, contest, machine.id, observedAt);
  const scene = await sceneOf(call.db, contest, stood);
  const { part, hurt, witness = null, account, piece } = entry;
  const compared = piece ? judged(piece, scene) : null;
  const age = Date.now() - observedAt.getTime();
  const held = (compared !== null && isAlarming(compared)) || isLying(entry, age);
  if (held) await hold(as, contest, machine.name, age);
  return committed(call, contest.id, request, async (tx, book) => {
    const last = await tx.incident.findFirst({
      where: { contestId: contest.id },
      orderBy: { number: "desc" },
      select: { number: true },
    });
    const number = (last?.number ?? 0) + 1;
    const { badgeId } = as.actor;
    const made = { badgeId, sequence: book.next, createdAt: book.at };
    const incident = await tx.incident.create({
      data: { id: newId(), contestId: contest.id, number, machineId: machine.id, ...made },
    });
    const report = { part, hurt, ...stood, observedAt, witness };
    const { content } = await insertReport(tx, incident.id, report, made);
    await book.append("incident-entered", incident.id, { machine: machine.id, content });
    const { sequence } = incident;
    const where = { id: incident.id, machineId: machine.id };
    const pieceId = piece
      ? await insertPiece(tx, book, where, { ...piece, observedAt, witness }, badgeId)
      : "";
    if (account)
      await insertWords(
        tx,
        book,
        where,
        { kind: "account", text: account, keepUntil: lastDay(contest) },
        badgeId,
      );
    return receipt(
      { id: incident.id, number, machine },
      sequence,
      compared && { id: pieceId, ...compared },
      held,
    );
  });
}

/** Its places are held anew against the machine as it stood when it is now said to have happened. */
export async function correctReport(
  call: Call,
  slug: string,
  id: string,
  body: unknown,
): Promise<Reply<IncidentReceipt>> {
  const entry = parse(incidentReportRequest, body);
  const { contest, as } = await asked(call, slug);
  const request = { act: "incident-report", contest: contest.id, id, entry };
  const before = await answeredBefore<IncidentReceipt>(call, request);
  if (before) return before;
  const incident = await incidentIn(call.db, contest.id, id);
  const was = reportOf(incident);
  const observedAt = entry.observedAt === undefined ? was.observedAt : observed(entry, new Date());
  const stood = await stoodThen(call.db, contest, incident.machineId, observedAt);
  const scene = await sceneOf(call.db, contest, stood);
  const alarmedBefore = alarmingIn(incident, await sceneOf(call.db, contest, was));
  const alarming = alarmingIn(incident, scene);
  const age = Date.now() - observedAt.getTime();
  const held =
    alarming.some((id) => !alarmedBefore.includes(id)) || (was.hurt === "nobody" && isLying(entry, age));
  if (held) await hold(as, contest, incident.machine.name, age);
  return committed(call, contest.id, request, async (tx, book) => {
    const { badgeId } = as.actor;
    const made = { badgeId, sequence: book.next, createdAt: book.at };
    const { part, hurt, reason, witness = was.witness } = entry;
    const { content } = await insertReport(tx, id, { part, hurt, ...stood, observedAt, witness }, made);
    await book.append("incident-added", id, { machine: incident.machineId, content });
    await insertWords(
      tx,
      book,
      incident,
      { kind: "reason", text: reason, keepUntil: lastDay(contest) },
      badgeId,
    );
    return receipt(incident, made.sequence, null, held);
  });
}

export async function addPiece(
  call: Call,
  slug: string,
  id: string,
  body: unknown,
): Promise<Reply<IncidentReceipt>> {
  const entry = parse(pieceRequest, body);
  const { contest, as } = await asked(call, slug);
  const request = { act: "incident-piece", contest: contest.id, id, entry };
  const before = await answeredBefore<IncidentReceipt>(call, request);
  if (before) return before;
  const incident = await incidentIn(call.db, contest.id, id);
  const report = reportOf(incident);
  mustReplace(incident, entry);
  const observedAt = entry.observedAt === undefined ? report.observedAt : observed(entry, new Date());
  const scene = await sceneOf(call.db, contest, report);
  const compared = entry.fix === null ? null : judged(entry, scene);
  const held = compared !== null && isAlarming(compared);
  if (held) await hold(as, contest, incident.machine.name, Date.now() - observedAt.getTime());
  return committed(call, contest.id, request, async (tx, book) => {
    mustReplace(await incidentIn(tx, contest.id, id), entry);
    const sequence = book.next;
    const { witness = null } = entry;
    const pieceId = await insertPiece(
      tx,
      book,
      incident,
      { ...entry, observedAt, witness },
      as.actor.badgeId,
    );
    return receipt(incident, sequence, compared && { id: pieceId, ...compared }, held);
  });
}

async function asked(call: Call, slug: string): Promise<{ contest: ContestRow; as: AsActor }> {
  const contest = await contestBySlug(call.db, slug);
  mustBeAllowed(call.actor, "enter an incident", contest.id);
  return { contest, as: { ...call, actor: call.actor } };
}

/** Outside the zone, or beyond the model that every zone of its kind rests on. */
const isAlarming = ({ outside, beyondModel }: Compared) => outside || beyondModel;

const isLying = ({ hurt }: { hurt: string }, age: number) => hurt !== "nobody" && age <= FRESH;

const judged = ({ found, place, fix }: Pick<PieceRequest, "found" | "place" | "fix">, scene: Scene | null) =>
  comparedIn({ found, place, input: JSON.stringify(fix) }, scene);

const alarmingIn = ({ pieces }: IncidentRow, scene: Scene | null): string[] =>
  currentPieces(pieces)
    .filter((piece) => isAlarming(comparedIn(piece, scene)))
    .map(({ id }) => id);

/** However long ago it was seen: what is in doubt is the zone that people rely on now. No more is said of it in public. */
async function hold(call: AsActor, contest: ContestRow, machineName: string, age: number): Promise<void> {
  const id = `incident-${sha256(`${call.actor.badgeId}:${call.key}`).slice(0, 20)}`;
  const why = `An incident was entered for ${machineName}: the safety officer looks into it.${agoWords(age)}`;
  await programHold(call.db, contest.id, { id, at: Date.now(), by: null, why });
}

/** A correction needs the newest of its chain; what is taken back must be named. */
function mustReplace({ pieces }: IncidentRow, { replacesId, fix }: PieceRequest): void {
  if (replacesId === undefined) {
    if (fix === null) throw invalid("replacesId", "Name the place that is taken back.");
    return;
  }
  const before = pieces.find(({ id }) => id === replacesId);
  if (!before) throw invalid("replacesId", "This incident has no such place: look at it again.");
  if (before.replaced || before.input === null)
    throw conflict(
      "already-corrected",
      "Somebody has corrected or taken back this place meanwhile: look at it again.",
    );
}

type Made = { badgeId: string; sequence: number; createdAt: Date };

async function insertReport(
  tx: DatabaseTransaction,
  incidentId: string,
  report: Stood & { part: string; hurt: string; observedAt: Date; witness: string | null },
  made: Made,
): Promise<{ content: string }> {
  const salt = newId();
  await tx.incidentReport.create({ data: { id: newId(), incidentId, ...report, salt, ...made } });
  return { content: saltedHash(salt, report) };
}

async function insertPiece(
  tx: DatabaseTransaction,
  book: OpenScorebook,
  incident: { id: string; machineId: string },
  piece: Omit<PieceRequest, "observedAt" | "witness"> & { observedAt: Date; witness: string | null },
  badgeId: string,
): Promise<string> {
  const { found, place, fix, replacesId = null, observedAt, witness } = piece;
  const salt = newId();
  const kept = { found, place, input: fix && JSON.stringify(fix), replacesId, observedAt, witness };
  const made = { badgeId, sequence: book.next, createdAt: book.at };
  const row = await tx.incidentPiece.create({
    data: { id: newId(), incidentId: incident.id, ...kept, salt, ...made },
  });
  await book.append("incident-added", incident.id, {
    machine: incident.machineId,
    content: saltedHash(salt, kept),
  });
  return row.id;
}

const receipt = (
  { id, number, machine }: { id: string; number: number; machine: { name: string } },
  sequence: number,
  piece: IncidentReceipt["piece"],
  held: boolean,
): IncidentReceipt => ({ id, number, machineName: machine.name, sequence, piece, held });
