/** Signing a firing permit and taking it back: the safety officer's alone. No command makes one stand again. */
import { type PermitInfo, permitRequest, permitWithdrawal } from "../api/contracts";
import { tooWide, widestLimits } from "../inspection";
import { declarationSchema } from "../throw";
import { conflict, notFound, parse, Refusal } from "./errors";
import { airOf, type ContestRow, contestBySlug, type MachineRow, machineIn, policyOf } from "./find";
import { permitOf } from "./permits";
import { observed } from "./record-fix";
import { mustBeAllowed } from "./roles";
import { newId } from "./scorebook";
import { sheetOf } from "./sheets";
import { isBeyond, limitOf, readingsInForce } from "./wind-now";
import { type Call, committed, type Reply } from "./write";

export async function signPermit(
  call: Call,
  slug: string,
  machineId: string,
  body: unknown,
): Promise<Reply<PermitInfo>> {
  const permit = parse(permitRequest, body);
  const contest = await contestBySlug(call.db, slug);
  mustBeAllowed(call.actor, "sign and withdraw firing permits", contest.id);
  const { badgeId } = call.actor;
  const machine = await machineIn(call.db, contest.id, machineId);
  const sheet = await sheetOf(call.db, contest, machine);
  const winds = await readingsInForce(call.db, contest.id, new Date());
  const request = { act: "permit", machineId, permit };
  const written = await committed(call, contest.id, request, async (tx, book) => {
    const { limits, conditions, paper, ...what } = permit;
    mustBeAsSeen(await machineIn(tx, contest.id, machineId), what);
    if (winds.some((wind) => isBeyond(wind, limits.wind)))
      throw conflict(
        "wind",
        "The wind that was measured is beyond this limit: wait until it has calmed down.",
      );
    if (sheet.sheetId !== what.sheetId)
      throw conflict(
        "sheet-changed",
        sheet.sheetId
          ? `The hazard sheet of ${machine.name} is another one by now: read that first, then sign.`
          : `${machine.name} has no hazard sheet as it stands: wait until it is computed, and read it.`,
      );
    const inspection = await tx.inspection.findFirst({ where: { machineId }, orderBy: { sequence: "desc" } });
    if (inspection?.id !== what.inspectionId || inspection.revisionId !== what.revisionId)
      throw conflict(
        "not-inspected",
        `A permit rests on the newest inspection of this very revision of ${machine.name}: inspect it, then sign.`,
      );
    if (inspection.outcome === "refused")
      throw conflict(
        "refused",
        `The inspection refused ${machine.name}: put right what it names, and inspect it again.`,
      );
    mustBeWithin(contest, machine, permit, inspection.outcome === "meets-with-limits");
    const last = await tx.permit.findFirst({ where: { contestId: contest.id }, orderBy: { number: "desc" } });
    const number = (last?.number ?? 0) + 1;
    const row = await tx.permit.create({
      data: {
        ...what,
        id: newId(),
        contestId: contest.id,
        number,
        machineId,
        limits: JSON.stringify(limits),
        conditions,
        ...(paper && {
          paperAt: observed({ observedAt: paper.signedAt }, book.at, "paper.signedAt"),
          witness: paper.witness,
        }),
        badgeId,
        sequence: book.next,
        createdAt: book.at,
      },
    });
    await book.append("permit-signed", row.id, {
      machine: machineId,
      number,
      revision: what.revisionId,
      inspection: what.inspectionId,
      sheet: what.sheetId,
      firingPoint: what.firingPointId,
      bearing: what.bearing,
      wind: limits.wind,
      bearingTolerance: limits.bearing,
      ...(paper && { paperAt: row.paperAt?.toISOString() }),
    });
    return { id: row.id };
  });
  return { ...written, answer: await permitOf(call.db, contest, written.answer.id) };
}

/** What was on the page when it was signed is what is there now. */
function mustBeAsSeen(
  machine: MachineRow,
  seen: { revisionId: string; firingPointId: string; bearing: number },
): void {
  if (machine.retired) throw conflict("retired", `${machine.name} is retired: it does not throw.`);
  if (machine.revisions[0]?.id !== seen.revisionId)
    throw conflict(
      "revision-changed",
      `${machine.name} has another revision by now: inspect that one first.`,
    );
  if (machine.firingPointId !== seen.firingPointId || machine.bearing !== seen.bearing)
    throw conflict(
      "placed-meanwhile",
      `${machine.name} has been placed or turned meanwhile: look at its zone again.`,
    );
}

function mustBeWithin(
  contest: ContestRow,
  machine: MachineRow,
  { limits, conditions }: { limits: PermitInfo["limits"]; conditions: string },
  limited: boolean,
): void {
  const declaration = declarationSchema.parse(JSON.parse(machine.revisions[0]?.declared ?? "null"));
  const wrong = tooWide(limits, widestLimits(declaration, policyOf(contest), limitOf(airOf(contest))));
  if (limited && conditions === "")
    wrong.push({ field: "conditions", message: "The inspection set limits: write them into the permit." });
  if (wrong[0]) throw new Refusal(422, "invalid", `${wrong[0].field}: ${wrong[0].message}`, wrong);
}

export async function withdrawPermit(
  call: Call,
  slug: string,
  id: string,
  body: unknown,
): Promise<Reply<PermitInfo>> {
  const { reason } = parse(permitWithdrawal, body);
  const contest = await contestBySlug(call.db, slug);
  mustBeAllowed(call.actor, "sign and withdraw firing permits", contest.id);
  const { badgeId } = call.actor;
  const request = { act: "withdraw-permit", id, reason };
  const written = await committed(call, contest.id, request, async (tx, book) => {
    const permit = await tx.permit.findFirst({
      where: { id, contestId: contest.id },
      include: { withdrawal: true },
    });
    if (!permit) throw notFound("firing permit");
    if (permit.withdrawal) throw conflict("already-withdrawn", "This permit has been taken back already.");
    await tx.permitWithdrawal.create({
      data: { permitId: id, reason, badgeId, sequence: book.next, createdAt: book.at },
    });
    await book.append("permit-withdrawn", id, { machine: permit.machineId, number: permit.number, reason });
    return { id };
  });
  return { ...written, answer: await permitOf(call.db, contest, id) };
}
