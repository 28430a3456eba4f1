/** What the organiser does with the entries of teams: reads them, takes one in, sends one back, refuses one. */
import type { z } from "zod";
import {
  acceptanceRequest,
  type acceptedSchema,
  type Entry,
  type EntrySummary,
  entryAnswerRequest,
} from "../api/contracts";
import type { Database, DatabaseTransaction } from "../db";
import type { Declaration } from "../throw";
import { preparedCode } from "./badge-code";
import { usualEnd } from "./badge-end";
import { addBadge } from "./badges";
import { type EntryRow, entryIn, entryInfo, entryRows, entrySummary } from "./entry-info";
import { consentOf } from "./entry-links";
import { inTheWay } from "./entry-missing";
import { conflict, invalid, isRefusal, notFound, parse, Refusal } from "./errors";
import { contestBySlug } from "./find";
import { insertEntrant } from "./layout";
import { insertMachine } from "./machines";
import { mustBeOpen } from "./own-entry";
import { type Asker, mustBeAllowed } from "./roles";
import { thenSheets } from "./sheets";
import { type Call, committed, type Reply } from "./write";

const SEE = "see entries of teams with their people";
const DECIDE = "decide on an entry of a team";

type Accepted = z.infer<typeof acceptedSchema>;

export async function listEntries(db: Database, actor: Asker, slug: string): Promise<EntrySummary[]> {
  const contest = await contestBySlug(db, slug);
  mustBeAllowed(actor, SEE, contest.id);
  return (await entryRows(db, contest.id)).map((row) => entrySummary(row, contest));
}

export async function readEntry(db: Database, actor: Asker, slug: string, id: string): Promise<Entry> {
  const contest = await contestBySlug(db, slug);
  mustBeAllowed(actor, SEE, contest.id);
  return entryInfo(await entryIn(db, contest.id, id), contest);
}

/** Entrant, machine, revision and the team's badge, all or nothing. Throws 409 while anything is in the way. */
export async function acceptEntry(
  call: Call,
  slug: string,
  id: string,
  body: unknown,
): Promise<Reply<Accepted>> {
  const { version } = parse(acceptanceRequest, body);
  const contest = await contestBySlug(call.db, slug);
  const contestId = contest.id;
  mustBeAllowed(call.actor, DECIDE, contestId);
  const code = await preparedCode();
  const written = committed(
    call,
    contestId,
    { act: "accept-entry", id, version },
    async (tx, book) => {
      const row = await entryToDecide(tx, contestId, id, version);
      if (row.state !== "sent")
        throw conflict("not-sent", "The team has not sent this entry: it is still working on it.");
      const { missing, divisionId, declaration } = entryInfo(row, contest);
      const errors = inTheWay("accepted", missing);
      if (errors.length > 0 || !divisionId || !declaration) {
        const detail = `It cannot be accepted yet. ${errors[0]?.message ?? ""} Send it back with what is missing.`;
        throw new Refusal(409, "incomplete", detail, errors);
      }
      const { team, machineName, note } = row;
      const entrant = await named("team", insertEntrant(tx, book, contestId, { divisionId, name: team }));
      const entered = {
        entrantId: entrant.id,
        name: machineName,
        declaration: declaration as Declaration,
        note,
      };
      const machine = await named("machineName", insertMachine(tx, book, contestId, entered));
      const label = `Team ${entrant.number}`;
      const ends = { endsAt: usualEnd(contest, book.at), reusable: false };
      const ofTeam = { role: "team", label, entrantId: entrant.id, ...ends } as const;
      const badge = await addBadge(tx, book, contestId, ofTeam, code);
      await tx.teamEntry.update({
        where: { id },
        data: {
          state: "accepted",
          answer: null,
          entrantId: entrant.id,
          machineId: machine.id,
          version: version + 1,
          decidedAt: book.at,
          updatedAt: book.at,
        },
      });
      await book.append("entry-accepted", id, { entrant: entrant.id, machine: machine.id });
      return { entry: entryInfo(await entryIn(tx, contestId, id), contest), badge };
    },
    { secret: true },
  );
  return thenSheets(call.db, contestId, written);
}

/** A name that is taken, at the entry's own field. */
async function named<T>(field: string, work: Promise<T>): Promise<T> {
  try {
    return await work;
  } catch (error) {
    if (isRefusal(error) && error.code === "taken")
      throw invalid(
        field,
        `${error.errors[0]?.message ?? error.detail} Send it back and ask for another name.`,
      );
    throw error;
  }
}

async function entryToDecide(
  tx: DatabaseTransaction,
  contestId: string,
  id: string,
  version: number,
): Promise<EntryRow> {
  const row = await entryIn(tx, contestId, id);
  mustBeOpen(row);
  if (row.version !== version)
    throw conflict("changed-meanwhile", "The team has changed its entry since you read it: read it again.");
  return row;
}

/** Back to the team, with what is missing in the organiser's words. */
export const returnEntry = (call: Call, slug: string, id: string, body: unknown): Promise<Reply<Entry>> =>
  answered(call, slug, id, body, "returned");

export const refuseEntry = (call: Call, slug: string, id: string, body: unknown): Promise<Reply<Entry>> =>
  answered(call, slug, id, body, "refused");

/** The words may name a person: they stay out of the scorebook, and go with the people's data. */
async function answered(
  call: Call,
  slug: string,
  id: string,
  body: unknown,
  state: "returned" | "refused",
): Promise<Reply<Entry>> {
  const { version, answer } = parse(entryAnswerRequest, body);
  const contest = await contestBySlug(call.db, slug);
  mustBeAllowed(call.actor, DECIDE, contest.id);
  return committed(
    call,
    contest.id,
    { act: `entry-${state}`, id, version, answer },
    async (tx, book) => {
      await entryToDecide(tx, contest.id, id, version);
      await tx.teamEntry.update({
        where: { id },
        data: {
          state,
          answer,
          version: version + 1,
          updatedAt: book.at,
          ...(state === "refused" && { decidedAt: book.at }),
        },
      });
      await book.append(`entry-${state}`, id, {});
      return entryInfo(await entryIn(tx, contest.id, id), contest);
    },
    { status: 200, secret: true },
  );
}

/** The organiser has the form in hand that a minor's guardian has signed: for the names that were read, and no others. */
export async function seeGuardianForm(
  call: Call,
  slug: string,
  id: string,
  personId: string,
  body: unknown,
): Promise<Reply<Entry>> {
  const { version } = parse(acceptanceRequest, body);
  const contest = await contestBySlug(call.db, slug);
  mustBeAllowed(call.actor, DECIDE, contest.id);
  const { badgeId } = call.actor;
  return committed(
    call,
    contest.id,
    { act: "guardian-form", id, personId, version },
    async (tx, book) => {
      // No line in the scorebook: it would tell for good which team has a minor. Who saw the form stands with the person.
      const entry = await entryToDecide(tx, contest.id, id, version);
      const person = entry.people.find((each) => each.id === personId);
      if (!person) throw notFound("person");
      if (person.ofAge !== false || !person.guardianName)
        throw conflict("no-minor", "Only a minor whose guardian is named needs a form.");
      // With its text, so that it falls with other days as what is ticked does.
      const text = consentOf(contest, entry.link.keepDays);
      const data = { consentWay: "paper", consentText: text, consentAt: book.at, consentBadgeId: badgeId };
      await tx.entryPerson.update({ where: { id: personId }, data });
      await tx.teamEntry.update({ where: { id }, data: { version: version + 1 } });
      return entryInfo(await entryIn(tx, contest.id, id), contest);
    },
    { status: 200, secret: true },
  );
}
