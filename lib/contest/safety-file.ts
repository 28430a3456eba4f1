/**
 * The safety file: what insurer, landowner and emergency services get. It is frozen as canonical JSON with its hash,
 * append-only, and the scorebook holds the same hash; what was missing stands in it too.
 */
import type { z } from "zod";
import {
  type SafetyFileAnswer,
  type SafetyFileBody,
  type SafetyFileSummary,
  safetyFileRequest,
  type safetyFilesSchema,
} from "../api/contracts";
import type { Database } from "../db";
import { consentsOf } from "./consents";
import { conflict, notFound, parse } from "./errors";
import { type ContestRow, contestBySlug } from "./find";
import { readRangePlan, steadily } from "./range-plan";
import { type Actor, type Asker, mustBeAllowed } from "./roles";
import { safetyGaps } from "./safety-gaps";
import { safetyPlanOf } from "./safety-plan";
import { ACTS, canonical, newId, sha256 } from "./scorebook";
import { answeredBefore, type Call, committed, type Reply } from "./write";

const SEE = "see consents, safety plan and safety files";

/** What a file says once it is frozen, but for its number and who froze it. */
export type SafetyFileDraft = Omit<SafetyFileBody, "number" | "madeAt" | "madeBy" | "note">;

/** Kinds of official act after which a file no longer says how things stand. */
const CHANGING = new Set(["layout", "entry", "machine", "conditions", "sheet"]);
const CHANGING_ACTS = Object.entries(ACTS)
  .filter(([act, kind]) => CHANGING.has(kind) || act === "safety-plan-set")
  .map(([act]) => act);

/** What would be frozen now. Officials only. */
export async function safetyFileDraft(db: Database, actor: Asker, slug: string): Promise<SafetyFileDraft> {
  const contest = await contestBySlug(db, slug);
  mustBeAllowed(actor, SEE, contest.id);
  return draftOf(db, slug);
}

async function draftOf(db: Database, slug: string): Promise<SafetyFileDraft> {
  const { id } = await contestBySlug(db, slug);
  return steadily(db, id, async (head) => {
    const contest = await contestBySlug(db, slug);
    const [range, policySetBy, airSetBy, { plan, updatedAt }, { consents, gaps }] = await Promise.all([
      readRangePlan(db, slug, head),
      setBy(db, contest.id, "policy-set"),
      setBy(db, contest.id, "air-set"),
      safetyPlanOf(db, contest.id),
      consentsOf(db, contest),
    ]);
    const written = updatedAt === null ? null : plan;
    return {
      format: 1 as const,
      missing: safetyGaps(range, written, gaps, policySetBy !== null),
      range,
      policySetBy,
      airSetBy,
      plan: written,
      consents: consents.filter(({ retired }) => !retired).map(({ retired: _, ...consent }) => consent),
    };
  });
}

async function setBy(
  db: Database,
  contestId: string,
  act: "policy-set" | "air-set",
): Promise<SafetyFileBody["policySetBy"]> {
  const last = await db.scorebookEntry.findFirst({
    where: { contestId, act },
    orderBy: { sequence: "desc" },
    include: { badge: true },
  });
  if (!last) return null;
  const { reason } = JSON.parse(last.body) as { reason?: string };
  return { by: last.badge?.label ?? "Fairthrow", at: last.createdAt.toISOString(), reason: reason ?? "" };
}

/** Freezes how things stand. What is missing does not stop it: it stands on the first page. */
export async function freezeSafetyFile(
  call: Call,
  slug: string,
  body: unknown,
): Promise<Reply<SafetyFileSummary>> {
  const { note } = parse(safetyFileRequest, body);
  const contest = await contestBySlug(call.db, slug);
  const { actor } = call;
  mustBeAllowed(actor, "freeze a safety file", contest.id);
  const request = { act: "safety-file", contest: contest.id, note };
  const before = await answeredBefore<SafetyFileSummary>(call, request);
  if (before) return before;
  for (let tries = 1; ; tries++) {
    // Sheets may have to be computed first: not inside the transaction.
    const draft = await draftOf(call.db, slug);
    const frozen = await freeze({ ...call, actor }, contest.id, request, draft, tries < TRIES);
    if (frozen) return frozen;
  }
}

/** So often a draft is made anew because sheets were computed meanwhile. */
const TRIES = 4;

class OnlySheetsCame extends Error {}

/** Null when only computed sheets came since the draft was read, and it may be read again. */
async function freeze(
  call: Call & { actor: Actor },
  contestId: string,
  request: { act: string; contest: string; note: string },
  draft: SafetyFileDraft,
  again: boolean,
): Promise<Reply<SafetyFileSummary> | null> {
  const { actor } = call;
  const { note } = request;
  const writing = committed(call, contestId, request, async (tx, book) => {
    if (book.sequence !== draft.range.scorebook.sequence) {
      const since = { contestId, sequence: { gt: draft.range.scorebook.sequence } };
      const others = await tx.scorebookEntry.count({ where: { ...since, act: { not: "sheet-computed" } } });
      if (again && others === 0) throw new OnlySheetsCame();
      throw conflict(
        "changed-meanwhile",
        "The contest changed while the file was being made. Look at what changed, then freeze it again.",
      );
    }
    const last = await tx.safetyFile.findFirst({
      where: { contestId },
      orderBy: { number: "desc" },
    });
    const number = (last?.number ?? 0) + 1;
    const text = canonical({
      ...draft,
      number,
      madeAt: book.at.toISOString(),
      madeBy: actor.label,
      note,
    } satisfies SafetyFileBody);
    const hash = sha256(text);
    const row = await tx.safetyFile.create({
      data: {
        id: newId(),
        contestId,
        number,
        body: text,
        hash,
        badgeId: actor.badgeId,
        createdAt: book.at,
      },
      select: { id: true },
    });
    await book.append("safety-file-frozen", row.id, {
      number,
      fileHash: hash,
      missing: draft.missing.length,
    });
    return {
      id: row.id,
      number,
      hash,
      by: actor.label,
      createdAt: book.at.toISOString(),
      note,
      missing: draft.missing.length,
    };
  });
  return writing.catch((error: unknown) => {
    if (error instanceof OnlySheetsCame) return null;
    throw error;
  });
}

/** The frozen ones, newest first, and what one frozen now would lack. Officials only. */
export async function listSafetyFiles(
  db: Database,
  actor: Asker,
  slug: string,
): Promise<z.infer<typeof safetyFilesSchema>> {
  const contest = await contestBySlug(db, slug);
  mustBeAllowed(actor, SEE, contest.id);
  const [rows, draft] = await Promise.all([filesOf(db, contest), draftOf(db, slug)]);
  return { files: rows, missing: draft.missing };
}

async function filesOf(db: Database, contest: ContestRow): Promise<SafetyFileSummary[]> {
  const rows = await db.safetyFile.findMany({
    where: { contestId: contest.id },
    orderBy: { number: "desc" },
    include: { badge: true },
  });
  return rows.map(({ id, number, hash, body, badge, createdAt }) => {
    const { note, missing } = JSON.parse(body) as SafetyFileBody;
    return {
      id,
      number,
      hash,
      by: badge.label,
      createdAt: createdAt.toISOString(),
      note,
      missing: missing.length,
    };
  });
}

async function fileIn(db: Database, contestId: string, id: string) {
  const row = await db.safetyFile.findFirst({ where: { id, contestId }, include: { badge: true } });
  if (!row) throw notFound("safety file");
  return row;
}

/** One frozen file, whether it still holds, and what was changed since. Officials only. */
export async function safetyFile(
  db: Database,
  actor: Asker,
  slug: string,
  id: string,
): Promise<SafetyFileAnswer> {
  const contest = await contestBySlug(db, slug);
  mustBeAllowed(actor, SEE, contest.id);
  const row = await fileIn(db, contest.id, id);
  // As it was frozen: nothing a later version would fill in. Another shape takes another format number.
  const body = JSON.parse(row.body) as SafetyFileBody;
  const [entry, changes] = await Promise.all([
    db.scorebookEntry.findFirst({
      where: { contestId: contest.id, act: "safety-file-frozen", subjectId: id },
    }),
    db.scorebookEntry.findMany({
      where: {
        contestId: contest.id,
        sequence: { gt: body.range.scorebook.sequence },
        act: { in: CHANGING_ACTS },
      },
      orderBy: { sequence: "asc" },
      include: { badge: true },
    }),
  ]);
  const recorded = entry ? (JSON.parse(entry.body) as { fileHash?: string }).fileHash : undefined;
  return {
    id,
    number: row.number,
    hash: row.hash,
    by: row.badge.label,
    createdAt: row.createdAt.toISOString(),
    holds: sha256(row.body) === row.hash && recorded === row.hash,
    body,
    changedSince: changes.map(({ sequence, act, subjectId, badge, createdAt }) => ({
      sequence,
      act,
      subjectId,
      by: badge?.label ?? "Fairthrow",
      at: createdAt.toISOString(),
    })),
  };
}

/** The frozen text itself, byte for byte: its SHA-256 is the hash. Officials only. */
export async function safetyFileText(
  db: Database,
  actor: Asker,
  slug: string,
  id: string,
): Promise<{ content: string; mediaType: string; fileName: string }> {
  const contest = await contestBySlug(db, slug);
  mustBeAllowed(actor, SEE, contest.id);
  const { number, body } = await fileIn(db, contest.id, id);
  const fileName = `safety-file-${contest.slug}-${number}.json`;
  return { content: body, mediaType: "application/json", fileName };
}
