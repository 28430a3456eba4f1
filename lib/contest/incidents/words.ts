/**
 * What is written about an incident in words, which may be about people: kept apart, erased on its day by itself and before
 * that by hand. The scorebook has a salted hash of it; the salt goes with the words.
 */
import { type IncidentReceipt, incidentWordsRequest } from "../../api/contracts";
import type { DatabaseTransaction } from "../../db";
import { today } from "../days";
import { invalid, parse } from "../errors";
import { type ContestRow, contestBySlug } from "../find";
import { mustBeAllowed } from "../roles";
import { newId, type OpenScorebook } from "../scorebook";
import { type Call, committed, type Reply, thenSettled } from "../write";
import { saltedHash } from "./hashed";
import { incidentIn } from "./read";

/** Kept for so many years after the contest. Common practice, no source: an insurer or local law may ask for another time. */
const KEPT_YEARS = 3;
const LONGEST_YEARS = 30;

/** The last day on which words are kept where nobody names another. */
export const lastDay = (contest: Pick<ContestRow, "date" | "lastDate">, years = KEPT_YEARS): string => {
  const [year = "", ...rest] = (contest.lastDate ?? contest.date).split("-");
  const monthAndDay = rest.join("-");
  return `${Number(year) + years}-${monthAndDay === "02-29" ? "02-28" : monthAndDay}`;
};

interface Written {
  kind: string;
  name?: string | undefined;
  text: string;
  keepUntil: string;
}

/** Inside a transaction, with its entry. */
export async function insertWords(
  tx: DatabaseTransaction,
  book: OpenScorebook,
  incident: { id: string; machineId: string },
  { kind, name, text, keepUntil }: Written,
  badgeId: string,
): Promise<void> {
  const salt = newId();
  const kept = { kind, name: name ?? null, text };
  const row = await tx.incidentWords.create({
    data: {
      id: newId(),
      incidentId: incident.id,
      ...kept,
      salt,
      keepUntil,
      badgeId,
      sequence: book.next,
      createdAt: book.at,
    },
  });
  await book.append("incident-noted", row.id, {
    machine: incident.machineId,
    content: saltedHash(salt, kept),
  });
}

export async function writeWords(
  call: Call,
  slug: string,
  id: string,
  body: unknown,
): Promise<Reply<IncidentReceipt>> {
  const entry = parse(incidentWordsRequest, body);
  const contest = await contestBySlug(call.db, slug);
  mustBeAllowed(call.actor, "enter an incident", contest.id);
  const { badgeId } = call.actor;
  const { keepUntil = lastDay(contest), ...written } = entry;
  if (keepUntil < today()) throw invalid("keepUntil", "This day is over: give a later one.");
  const longest = lastDay(contest, LONGEST_YEARS);
  if (keepUntil > longest)
    throw invalid("keepUntil", `Nothing is kept beyond ${longest}: give an earlier day.`);
  return committed(
    call,
    contest.id,
    { act: "incident-words", contest: contest.id, id, entry },
    async (tx, book) => {
      const { number, machine, machineId } = await incidentIn(tx, contest.id, id);
      const sequence = book.next;
      await insertWords(tx, book, { id, machineId }, { ...written, keepUntil }, badgeId);
      return { id, number, machineName: machine.name, sequence, piece: null, held: false };
    },
  );
}

/** All that was written of one incident, at once, out of the database's journal too. */
export async function eraseWords(call: Call, slug: string, id: string): Promise<Reply<{ erased: number }>> {
  const contest = await contestBySlug(call.db, slug);
  mustBeAllowed(call.actor, "erase what was written of an incident", contest.id);
  const erasure = committed(
    call,
    contest.id,
    { act: "incident-erase", contest: contest.id, id },
    async (tx, book) => {
      const { machineId } = await incidentIn(tx, contest.id, id);
      const { count } = await tx.incidentWords.updateMany({
        where: { incidentId: id, erasedAt: null },
        data: { name: null, text: null, salt: null, erasedAt: book.at },
      });
      if (count > 0) await book.append("incident-erased", id, { machine: machineId, count });
      return { erased: count };
    },
    { status: 200 },
  );
  return thenSettled(call.db, erasure);
}

/** What has had its day, in every contest, inside a transaction. Answers how much. */
export async function expireWords(tx: DatabaseTransaction, now: Date): Promise<number> {
  const { count } = await tx.incidentWords.updateMany({
    where: { erasedAt: null, keepUntil: { lt: today(now) } },
    data: { name: null, text: null, salt: null, erasedAt: now },
  });
  return count;
}
