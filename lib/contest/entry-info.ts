/** Entries of teams as they are told, from their rows. */
import type {
  Entry,
  EntryLinkInfo,
  EntryPerson,
  EntryState,
  EntrySummary,
  Insurance,
  PhotographInfo,
} from "../api/contracts";
import type { Database, DatabaseTransaction } from "../db";
import type { Declaration } from "../throw";
import { daysOf } from "./days";
import { missingOf, NO_INSURANCE } from "./entry-missing";
import { notFound } from "./errors";
import type { ContestRow } from "./find";
import { isForDays } from "./guardian-consent";

export type Reader = Database | DatabaseTransaction;

/** Everything of a photograph but its content. */
export const PHOTOGRAPH_FIELDS = { id: true, subject: true, width: true, height: true, size: true } as const;

const WHOLE = {
  link: true,
  people: { orderBy: { position: "asc" } },
  photographs: { orderBy: { createdAt: "asc" }, select: PHOTOGRAPH_FIELDS },
} as const;

export async function entryIn(db: Reader, contestId: string, id: string) {
  const row = await db.teamEntry.findFirst({ where: { id, contestId }, include: WHOLE });
  if (!row) throw notFound("entry");
  return row;
}
export type EntryRow = Awaited<ReturnType<typeof entryIn>>;

export const entryRows = (db: Reader, contestId: string): Promise<EntryRow[]> =>
  db.teamEntry.findMany({
    where: { contestId },
    orderBy: [{ createdAt: "asc" }, { id: "asc" }],
    include: WHOLE,
  });

export const entryBySecret = (db: Reader, contestId: string, secretHash: string): Promise<EntryRow | null> =>
  db.teamEntry.findFirst({ where: { contestId, secretHash }, include: WHOLE });

export function entryInfo(row: EntryRow, contest: ContestRow): Entry {
  const declaration = row.declaration ? (JSON.parse(row.declaration) as Declaration) : null;
  const told = {
    team: row.team,
    divisionId: row.divisionId,
    machineName: row.machineName,
    declaration,
    note: row.note,
    ownNumbers: row.ownNumbers,
    insurance: row.insurance ? (JSON.parse(row.insurance) as Insurance) : NO_INSURANCE,
    people: row.people.map((person) => personInfo(person, contest)),
    photographs: row.photographs as PhotographInfo[],
  };
  const done = row.erasedAt !== null || row.state === "accepted" || row.state === "refused";
  return {
    id: row.id,
    state: row.state as EntryState,
    version: row.version,
    ...told,
    kind: declaration?.machine.kind ?? null,
    minors: row.people.filter(({ ofAge }) => ofAge === false).length,
    missing: done ? [] : missingOf(told, daysOf(contest)),
    sentAt: row.sentAt?.toISOString() ?? null,
    updatedAt: row.updatedAt.toISOString(),
    erasedAt: row.erasedAt?.toISOString() ?? null,
    keptUntil: keptUntil(contest, row.link.keepDays),
    answer: row.answer,
    entrantId: row.entrantId,
    machineId: row.machineId,
  };
}

export function entrySummary(row: EntryRow, contest: ContestRow): EntrySummary {
  const { id, state, version, team, divisionId, machineName, kind, minors, ...rest } = entryInfo(
    row,
    contest,
  );
  const { missing, sentAt, updatedAt, erasedAt, keptUntil, people, photographs } = rest;
  const counts = { people: people.length, minors, photographs: photographs.length };
  const when = { sentAt, updatedAt, erasedAt, keptUntil };
  return { id, state, version, team, divisionId, machineName, kind, ...counts, missing, ...when };
}

function personInfo(row: EntryRow["people"][number], contest: ContestRow): EntryPerson {
  const { id, name, contact, captain, ofAge, guardianName, guardianContact, consentText } = row;
  const holds = consentText === null || isForDays(consentText, daysOf(contest));
  return {
    id,
    name,
    contact,
    captain,
    ofAge,
    guardianName,
    guardianContact,
    consentWay: row.consentWay as EntryPerson["consentWay"],
    // Of a form that was seen the text is kept, and nobody has ticked it.
    agreedTo: row.consentWay === "paper" ? null : consentText,
    consentAt: (holds && row.consentAt?.toISOString()) || null,
  };
}

const DAY = 24 * 3600_000; // ms

/** The last day on which people's data of a contest are kept: a rule, so that it moves with the contest's days. */
export const keptUntil = (contest: Pick<ContestRow, "date" | "lastDate">, keepDays: number): string =>
  new Date(Date.parse(daysOf(contest).last) + keepDays * DAY).toISOString().slice(0, 10);

export const linkInfo = (row: {
  id: string;
  endsAt: Date;
  most: number;
  keepDays: number;
  closedAt: Date | null;
  createdAt: Date;
  _count: { entries: number };
}): EntryLinkInfo => ({
  id: row.id,
  endsAt: row.endsAt.toISOString(),
  most: row.most,
  keepDays: row.keepDays,
  open: row.closedAt === null,
  used: row._count.entries,
  createdAt: row.createdAt.toISOString(),
});
