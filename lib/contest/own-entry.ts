/** What a team does with its own entry, by the secret that its page made: begin, save, send, withdraw, and its sheet. */
import type { z } from "zod";
import {
  type EntrySheet,
  entryDraft,
  entryRequest,
  type OwnEntry,
  type savedEntrySchema,
} from "../api/contracts";
import type { Database, DatabaseTransaction } from "../db";
import type { Declaration } from "../throw";
import { type EntryRow, entryInfo } from "./entry-info";
import { consentOf, hashOf, invitationOf, linkOfToken, ownEntryRow, whyClosed } from "./entry-links";
import { inTheWay } from "./entry-missing";
import { keepPeople, mustBeApart } from "./entry-people";
import { eraseEntry } from "./erase-people";
import { conflict, invalid, parse, Refusal } from "./errors";
import { type ContestRow, contestBySlug } from "./find";
import { openHazard } from "./hazard";
import { mustBeUnhurried } from "./rate";
import { canonical, newId, sha256 } from "./scorebook";
import { circumstancesOf, requestOf } from "./sheets";
import { type Call, committed, type Reply, thenSettled } from "./write";

type SavedEntry = z.infer<typeof savedEntrySchema>;

const MINUTES = 60_000; // ms
const BEGUN = { most: 60, within: 10 * MINUTES };
const SAVED = { most: 150, within: 10 * MINUTES };
const SHEETS = { most: 40, within: 10 * MINUTES };
/** Each is a line of the scorebook, for good. */
const SENT = { most: 12, within: 10 * MINUTES };

/** Begun twice with the same secret is begun once: the answer may have been lost on its way. */
export async function beginEntry(
  call: Call,
  slug: string,
  token: string | null,
  body: unknown,
): Promise<Reply<SavedEntry>> {
  const { secret } = parse(entryRequest, body);
  const contest = await contestBySlug(call.db, slug);
  const { id: linkId } = await linkOfToken(call.db, contest.id, token);
  mustBeUnhurried(`begin ${linkId}`, BEGUN);
  const secretHash = sha256(secret);
  return committed(call, contest.id, { act: "begin-entry", linkId, secretHash }, async (tx, book) => {
    const before = await tx.teamEntry.findUnique({ where: { secretHash } });
    if (before && before.linkId !== linkId) throw invalid("secret", "Make a new one for every entry.");
    if (before) return saved(before);
    const closed = whyClosed(await linkOfToken(tx, contest.id, token), book.at);
    if (closed) throw conflict("entries-closed", closed);
    const row = await tx.teamEntry.create({
      data: {
        id: newId(),
        contestId: contest.id,
        linkId,
        secretHash,
        state: "draft",
        team: "",
        machineName: "",
        createdAt: book.at,
        updatedAt: book.at,
      },
    });
    return saved(row);
  });
}

export async function readOwnEntry(db: Database, slug: string, secret: string | null): Promise<OwnEntry> {
  const contest = await contestBySlug(db, slug);
  const row = await ownEntryRow(db, contest.id, secret);
  const link = { ...row.link, _count: { entries: 0 } };
  return { invitation: await invitationOf(db, contest, link), entry: entryInfo(row, contest) };
}

/** The whole of it but its photographs. What was sent stays sent: the organiser decides about the version that was read. */
export async function saveOwnEntry(
  call: Call,
  slug: string,
  secret: string | null,
  body: unknown,
): Promise<Reply<SavedEntry>> {
  const draft = parse(entryDraft, body);
  mustBeApart(draft);
  const contest = await contestBySlug(call.db, slug);
  const { id } = await ownEntryRow(call.db, contest.id, secret);
  mustBeUnhurried(`save ${id}`, SAVED);
  const declaration = draft.declaration && canonical(draft.declaration);
  return committed(
    call,
    contest.id,
    { act: "save-entry", id, draft },
    async (tx, book) => {
      const before = await ownEntryRow(tx, contest.id, secret);
      mustBeOpen(before);
      if (before.version !== draft.version)
        throw conflict(
          "changed-meanwhile",
          "This entry was changed on another phone or page meanwhile. Look at that first; what you typed is still here.",
        );
      const { team, divisionId, machineName, note, ownNumbers } = draft;
      if (divisionId && !(await tx.division.findFirst({ where: { id: divisionId, contestId: contest.id } })))
        throw invalid("divisionId", "No division of this contest has this id: choose another.");
      await keepPeople(tx, before, draft, consentOf(contest, before.link.keepDays), book.at);
      const row = await tx.teamEntry.update({
        where: { id },
        data: {
          team,
          divisionId,
          machineName,
          declaration,
          note,
          ownNumbers,
          insurance: canonical(draft.insurance),
          version: before.version + 1,
          updatedAt: book.at,
        },
      });
      return saved(row);
    },
    { status: 200 },
  );
}

export function mustBeOpen({ state, erasedAt }: Pick<EntryRow, "state" | "erasedAt">): void {
  if (erasedAt) throw conflict("erased", "The people’s data of this entry were erased: it is over.");
  if (state === "accepted")
    throw conflict("accepted", "This entry is accepted. What has changed since, tell the organiser.");
  if (state === "refused") throw conflict("refused", "The organiser has refused this entry.");
}

/** To the organiser. What is only in the way of being accepted may follow. */
export async function sendOwnEntry(
  call: Call,
  slug: string,
  secret: string | null,
): Promise<Reply<SavedEntry>> {
  const contest = await contestBySlug(call.db, slug);
  const { id, version } = await ownEntryRow(call.db, contest.id, secret);
  mustBeUnhurried(`send ${id}`, SENT);
  return committed(
    call,
    contest.id,
    { act: "send-entry", id, version },
    async (tx, book) => {
      const before = await ownEntryRow(tx, contest.id, secret);
      mustBeOpen(before);
      if (before.state === "draft") {
        const closed = whyClosed({ ...before.link, _count: { entries: 0 } }, book.at);
        if (closed) throw conflict("entries-closed", closed);
      }
      const errors = inTheWay("sent", entryInfo(before, contest).missing);
      if (errors[0]) throw new Refusal(422, "incomplete", errors[0].message, errors);
      await mustBeFree(tx, contest, before);
      const data = { state: "sent", answer: null, sentAt: book.at, updatedAt: book.at };
      const row = await tx.teamEntry.update({ where: { id }, data });
      await book.append("entry-sent", id, { version: row.version });
      return saved(row);
    },
    { status: 200 },
  );
}

/** Better told now than when the organiser takes it in. */
async function mustBeFree(tx: DatabaseTransaction, contest: ContestRow, { team, machineName }: EntryRow) {
  const contestId = contest.id;
  if (await tx.entrant.findFirst({ where: { contestId, name: team } }))
    throw invalid("team", `Another team of this contest is called ${team}: choose another name.`);
  if (await tx.machine.findFirst({ where: { contestId, name: machineName } }))
    throw invalid(
      "machineName",
      `Another machine of this contest is called ${machineName}: choose another name.`,
    );
}

/** All that the team has sent of its people is erased. What was accepted stays in the contest: team and machine. */
export async function withdrawEntry(
  call: Call,
  slug: string,
  secret: string | null,
): Promise<Reply<{ erased: number }>> {
  const contest = await contestBySlug(call.db, slug);
  const hash = hashOf(secret);
  const written = committed(
    call,
    contest.id,
    { act: "withdraw-entry", secret: hash },
    async (tx, book) => {
      const row = await ownEntryRow(tx, contest.id, secret);
      const erased = await eraseEntry(tx, book, row, "the team");
      if (row.state !== "accepted") await tx.teamEntry.delete({ where: { id: row.id } });
      return { erased };
    },
    { status: 200 },
  );
  return thenSettled(call.db, written);
}

/** What the machine would do under the contest's policy and air. Throws as `openHazard` does; nothing is stored. */
export async function entrySheet(
  db: Database,
  slug: string,
  secret: string | null,
  onProgress: (done: number) => void,
): Promise<EntrySheet> {
  const contest = await contestBySlug(db, slug);
  const row = await ownEntryRow(db, contest.id, secret);
  mustBeUnhurried(`sheet ${row.id}`, SHEETS);
  if (!row.declaration)
    throw conflict("not-declared", "Machine: enter its numbers first, and wait until they are kept.");
  const { air, words } = await circumstancesOf(db, contest);
  const request = requestOf(contest, JSON.parse(row.declaration) as Declaration, { air });
  return { sheet: await openHazard(request, onProgress), air, given: words };
}

const saved = (row: { version: number; state: string; updatedAt: Date }): SavedEntry => ({
  version: row.version,
  state: row.state as SavedEntry["state"],
  updatedAt: row.updatedAt.toISOString(),
});
