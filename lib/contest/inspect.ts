/** Inspecting a machine revision, and the revision that what was measured makes. The safety officer's. */
import {
  type InspectionInfo,
  inspectionBodySchema,
  inspectionRequest,
  measuredRevisionRequest,
} from "../api/contracts";
import type { Database } from "../db";
import { asMeasured, dimensionsOf, type Measured, offDeclared, whatIsMissing } from "../inspection";
import { type Declaration, declarationSchema } from "../throw";
import { conflict, invalid, parse, Refusal } from "./errors";
import { contestBySlug, type MachineRow, machineIn } from "./find";
import { appendRevision, type RevisionInfo } from "./machines";
import { observed } from "./record-fix";
import { mustBeAllowed } from "./roles";
import { canonical, newId, sha256 } from "./scorebook";
import { thenSheets } from "./sheets";
import { type Call, committed, type Reply } from "./write";

export async function inspectMachine(
  call: Call,
  slug: string,
  machineId: string,
  body: unknown,
): Promise<Reply<InspectionInfo>> {
  const inspection = parse(inspectionRequest, body);
  const contest = await contestBySlug(call.db, slug);
  mustBeAllowed(call.actor, "inspect a machine", contest.id);
  const { badgeId, label } = call.actor;
  const request = { act: "inspection", machineId, inspection };
  return committed(call, contest.id, request, async (tx, book) => {
    const revision = newestOf(await machineIn(tx, contest.id, machineId), inspection.revisionId);
    const { lines, measured, outcome, limits, witness = null } = inspection;
    const { declaration } = revision;
    mustBeDimensions(declaration, measured);
    const wrong = whatIsMissing(declaration.machine, inspection, offDeclared(declaration, measured));
    if (wrong[0]) throw new Refusal(422, "invalid", `${wrong[0].field}: ${wrong[0].message}`, wrong);
    const declared = new Map(dimensionsOf(declaration).map((each) => [each.path, each.declared]));
    const kept = {
      lines,
      measured: measured.map(({ path, value }) => ({ path, value, declared: declared.get(path) as number })),
    };
    const text = canonical(kept);
    const row = await tx.inspection.create({
      data: {
        id: newId(),
        contestId: contest.id,
        machineId,
        revisionId: revision.id,
        outcome,
        limits,
        body: text,
        inspectedAt: observed({ observedAt: inspection.inspectedAt }, book.at, "inspectedAt"),
        witness,
        badgeId,
        sequence: book.next,
        createdAt: book.at,
      },
    });
    await book.append("machine-inspected", row.id, {
      machine: machineId,
      revision: revision.id,
      outcome,
      inspectedAt: row.inspectedAt.toISOString(),
      fails: lines.flatMap(({ id, finding }) => (finding === "fails" ? id : [])),
      limited: lines.flatMap(({ id, finding }) => (finding === "limit" ? id : [])),
      content: sha256(canonical({ ...kept, limits, witness })),
    });
    return inspectionInfo({ ...row, revision: { number: revision.number }, badge: { label } });
  });
}

/** In one step from a number that is off to the revision that has it; its sheet is begun at once. */
export async function declareMeasured(
  call: Call,
  slug: string,
  machineId: string,
  body: unknown,
): Promise<Reply<RevisionInfo>> {
  const { revisionId, measured } = parse(measuredRevisionRequest, body);
  const contest = await contestBySlug(call.db, slug);
  mustBeAllowed(call.actor, "revise a machine as measured", contest.id);
  const request = { act: "measured-revision", machineId, revisionId, measured };
  const written = committed(call, contest.id, request, async (tx, book) => {
    const { declaration } = newestOf(await machineIn(tx, contest.id, machineId), revisionId);
    mustBeDimensions(declaration, measured);
    const off = offDeclared(declaration, measured);
    if (off.length === 0)
      throw invalid(
        "measured",
        "Every measured number lies within its declared tolerance: no new revision is needed.",
      );
    const changed = parse(declarationSchema, asMeasured(declaration, measured));
    const note = `As measured at the inspection: ${off.map(({ label }) => label).join(", ")}`;
    return appendRevision(tx, book, machineId, changed, note.slice(0, 300));
  });
  return thenSheets(call.db, contest.id, written);
}

function newestOf(
  machine: MachineRow,
  revisionId: string,
): { id: string; number: number; declaration: Declaration } {
  const [newest] = machine.revisions;
  if (!newest)
    throw conflict("not-declared", `Nothing is declared of ${machine.name} yet: its team declares it first.`);
  if (newest.id !== revisionId)
    throw conflict(
      "revision-changed",
      `${machine.name} has revision ${newest.number} by now. Open the inspection again: it goes on with that one.`,
    );
  const { id, number } = newest;
  return { id, number, declaration: declarationSchema.parse(JSON.parse(newest.declared)) };
}

function mustBeDimensions(declaration: Declaration, measured: readonly Measured[]): void {
  const known = dimensionsOf(declaration);
  measured.forEach(({ path }, index) => {
    if (!known.some((each) => each.path === path))
      throw invalid(`measured.${index}.path`, `This machine declares no number "${path}".`);
    if (measured.findIndex((each) => each.path === path) !== index)
      throw invalid(`measured.${index}.path`, "This number stands twice: give each once.");
  });
}

/** Of one machine, the newest first. */
export async function inspectionsOf(db: Database, machineId: string): Promise<InspectionInfo[]> {
  const rows = await db.inspection.findMany({
    where: { machineId },
    orderBy: { sequence: "desc" },
    include: { badge: { select: { label: true } }, revision: { select: { number: true } } },
  });
  return rows.map(inspectionInfo);
}

function inspectionInfo(row: {
  id: string;
  machineId: string;
  revisionId: string;
  outcome: string;
  limits: string;
  body: string;
  inspectedAt: Date;
  witness: string | null;
  sequence: number;
  createdAt: Date;
  revision: { number: number };
  badge: { label: string };
}): InspectionInfo {
  const { id, machineId, revisionId, outcome, limits, witness, sequence } = row;
  return {
    ...inspectionBodySchema.parse(JSON.parse(row.body)),
    id,
    machineId,
    revisionId,
    revision: row.revision.number,
    outcome: outcome as InspectionInfo["outcome"],
    limits,
    inspectedAt: row.inspectedAt.toISOString(),
    witness,
    by: row.badge.label,
    sequence,
    createdAt: row.createdAt.toISOString(),
  };
}
