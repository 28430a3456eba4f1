/**
 * People's data go: by the organiser's word, by the team's, or by themselves after their time. Rows are deleted; the
 * scorebook has their counts and opaque ids, so its chain holds as before.
 */
import { erasureRequest } from "../api/contracts";
import { type Database, type DatabaseTransaction, inTransaction, notify, settle } from "../db";
import { today } from "./days";
import { entryIn, keptUntil } from "./entry-info";
import { notFound, parse } from "./errors";
import { contestBySlug } from "./find";
import { expireWords } from "./incidents/words";
import { expireNames } from "./range/names";
import { mustBeAllowed } from "./roles";
import { OpenScorebook } from "./scorebook";
import { type Call, committed, type Reply, thenSettled } from "./write";

type Why = "the organiser" | "the team" | "its time";

/** Inside a transaction: people, photographs, insurance and answer of one entry, once. Answers how many rows went. */
export async function eraseEntry(
  tx: DatabaseTransaction,
  book: OpenScorebook,
  { id: entryId, erasedAt }: { id: string; erasedAt: Date | null },
  why: Why,
): Promise<number> {
  if (erasedAt) return 0;
  const { count: people } = await tx.entryPerson.deleteMany({ where: { entryId } });
  const { count: photographs } = await tx.entryPhotograph.deleteMany({ where: { entryId } });
  await tx.teamEntry.update({
    where: { id: entryId },
    data: { insurance: null, answer: null, erasedAt: book.at, version: { increment: 1 } },
  });
  await book.append("people-erased", entryId, { people, photographs, by: why });
  return people + photographs;
}

/** One person of an entry, or everything of it that is people's. */
export async function erasePeople(
  call: Call,
  slug: string,
  entryId: string,
  body: unknown,
): Promise<Reply<{ erased: number }>> {
  const { personId } = parse(erasureRequest, body);
  const contest = await contestBySlug(call.db, slug);
  mustBeAllowed(call.actor, "erase people's data of an entry", contest.id);
  const request = { act: "erase-people", entryId, personId: personId ?? null };
  const written = committed(
    call,
    contest.id,
    request,
    async (tx, book) => {
      const entry = await entryIn(tx, contest.id, entryId);
      if (personId === undefined) return { erased: await eraseEntry(tx, book, entry, "the organiser") };
      const { count } = await tx.entryPerson.deleteMany({ where: { id: personId, entryId } });
      if (count === 0) throw notFound("person");
      await tx.teamEntry.update({ where: { id: entryId }, data: { version: entry.version + 1 } });
      await book.append("people-erased", entryId, { people: 1, photographs: 0, by: "the organiser" });
      return { erased: count };
    },
    { status: 200 },
  );
  return thenSettled(call.db, written);
}

/** Everything whose time is over, in every contest. Answers how many entries and names went. */
export async function expirePeople(db: Database, now = new Date()): Promise<number> {
  let gone = await inTransaction(
    db,
    async (tx) => (await expireNames(tx, now)) + (await expireWords(tx, now)),
  );
  const standing = await db.teamEntry.findMany({
    where: { erasedAt: null },
    select: { id: true, contestId: true, contest: true, link: { select: { keepDays: true } } },
  });
  const day = today(now);
  for (const { id, contestId, contest, link } of standing) {
    if (keptUntil(contest, link.keepDays) >= day) continue;
    gone += await inTransaction(db, async (tx) => {
      // Another instance may have been faster.
      const entry = await tx.teamEntry.findFirst({ where: { id, erasedAt: null } });
      if (!entry) return 0;
      const book = await OpenScorebook.at(tx, contestId, null);
      await eraseEntry(tx, book, entry, "its time");
      await notify(tx, contestId, book.sequence);
      return 1;
    });
  }
  if (gone > 0) await settle(db);
  return gone;
}
