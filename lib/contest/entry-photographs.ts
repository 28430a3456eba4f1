/** Photographs of an entry: taken in, looked at by those who may, taken out. Their bytes stand in the database, as aerial pictures do. */
import { MOST_PHOTOGRAPHS, type PhotographInfo, photographQuery } from "../api/contracts";
import type { Database } from "../db";
import { PHOTOGRAPH_FIELDS } from "./entry-info";
import { ownEntryRow } from "./entry-links";
import { conflict, notFound, parse } from "./errors";
import { contestBySlug } from "./find";
import { mustBeOpen } from "./own-entry";
import { mustBeUnhurried } from "./rate";
import { redraw, tooMany } from "./redraw";
import { type Asker, mustBeAllowed } from "./roles";
import { newId } from "./scorebook";
import { type Call, committed, type Reply, thenSettled } from "./write";

const MINUTES = 60_000; // ms
/** By one link, and by one entry. */
const BY_LINK = { most: 150, within: 10 * MINUTES };
const BY_ENTRY = { most: 24, within: 10 * MINUTES };
/** Of all entries of a contest, as they are kept, bytes: some 60 teams with eight each. */
const ROOM = 300e6;

export interface PhotographFile {
  content: Uint8Array;
  sha256: string;
}

export async function addPhotograph(
  call: Call,
  slug: string,
  secret: string | null,
  query: unknown,
  /** Called once the secret is known, and it is not too much. */
  bytes: () => Promise<Uint8Array>,
): Promise<Reply<PhotographInfo>> {
  const { subject } = parse(photographQuery, query);
  const contest = await contestBySlug(call.db, slug);
  const { id: entryId, ...before } = await ownEntryRow(call.db, contest.id, secret);
  mustBeOpen(before);
  mustBeUnhurried(`photographs of ${entryId}`, BY_ENTRY);
  mustBeUnhurried(`photographs by ${before.linkId}`, BY_LINK);
  const { content, width, height, sha256 } = await redraw(await received(bytes));
  return committed(call, contest.id, { act: "photograph", entryId, subject, sha256 }, async (tx, book) => {
    const entry = await ownEntryRow(tx, contest.id, secret);
    mustBeOpen(entry);
    // Sent again after a lost answer, under another key.
    const known = await tx.entryPhotograph.findFirst({
      where: { entryId, subject, sha256 },
      select: PHOTOGRAPH_FIELDS,
    });
    if (known) return known as PhotographInfo;
    mustHaveRoom(entry.photographs.length);
    const { _sum } = await tx.entryPhotograph.aggregate({
      where: { entry: { contestId: contest.id } },
      _sum: { size: true },
    });
    if ((_sum.size ?? 0) + content.byteLength > ROOM)
      throw conflict(
        "photographs-full",
        "The room that this contest keeps for photographs is full. Send the entry without, and show the machine on the day.",
      );
    const row = await tx.entryPhotograph.create({
      data: {
        id: newId(),
        entryId,
        subject,
        width,
        height,
        size: content.byteLength,
        content,
        sha256,
        createdAt: book.at,
      },
      select: PHOTOGRAPH_FIELDS,
    });
    return row as PhotographInfo;
  });
}

const shared = globalThis as typeof globalThis & { fairthrowReceiving?: { count: number } };
shared.fairthrowReceiving ??= { count: 0 };
const receiving = shared.fairthrowReceiving;
/** Files on their way at the same time: each stands in memory, and may come slowly. */
const MOST_RECEIVING = 24;

async function received(bytes: () => Promise<Uint8Array>): Promise<Uint8Array> {
  if (receiving.count >= MOST_RECEIVING) throw tooMany();
  receiving.count += 1;
  try {
    return await bytes();
  } finally {
    receiving.count -= 1;
  }
}

function mustHaveRoom(count: number): void {
  if (count >= MOST_PHOTOGRAPHS)
    throw conflict(
      "enough-photographs",
      `An entry has at most ${MOST_PHOTOGRAPHS} photographs: take one out first.`,
    );
}

/** Twice is the same as once. */
export async function removePhotograph(
  call: Call,
  slug: string,
  secret: string | null,
  id: string,
): Promise<Reply<{ erased: number }>> {
  const contest = await contestBySlug(call.db, slug);
  const { id: entryId } = await ownEntryRow(call.db, contest.id, secret);
  const written = committed(
    call,
    contest.id,
    { act: "remove-photograph", entryId, id },
    async (tx) => {
      mustBeOpen(await ownEntryRow(tx, contest.id, secret));
      const { count } = await tx.entryPhotograph.deleteMany({ where: { id, entryId } });
      return { erased: count };
    },
    { status: 200 },
  );
  return thenSettled(call.db, written);
}

export async function ownPhotograph(
  db: Database,
  slug: string,
  secret: string | null,
  id: string,
): Promise<PhotographFile> {
  const contest = await contestBySlug(db, slug);
  const entry = await ownEntryRow(db, contest.id, secret);
  return fileOf(db, entry.id, id);
}

export async function entryPhotograph(
  db: Database,
  actor: Asker,
  slug: string,
  entryId: string,
  id: string,
): Promise<PhotographFile> {
  const contest = await contestBySlug(db, slug);
  mustBeAllowed(actor, "see entries of teams with their people", contest.id);
  if (!(await db.teamEntry.findFirst({ where: { id: entryId, contestId: contest.id } })))
    throw notFound("entry");
  return fileOf(db, entryId, id);
}

async function fileOf(db: Database, entryId: string, id: string): Promise<PhotographFile> {
  const row = await db.entryPhotograph.findFirst({
    where: { id, entryId },
    select: { content: true, sha256: true },
  });
  if (!row) throw notFound("photograph");
  return row;
}
