/**
 * The tally: who is downrange. Names stand in their own table and can be erased, those of people who are back expire
 * (../erase-people.ts); the scorebook has the tags' ids.
 */
import { paperTagRequest, type RangeBrief, type TagInfo, type Tally, tagRequest } from "../../api/contracts";
import type { Database, DatabaseTransaction } from "../../db";
import { notFound, parse } from "../errors";
import { contestBySlug } from "../find";
import { observed } from "../record-fix";
import { type Asker, mustBeAllowed } from "../roles";
import { newId } from "../scorebook";
import { type Call, committed, type Reply, thenSettled } from "../write";
import { changeRange } from "./change";

const SHOWN = 100;

/** Inside a transaction. */
export const insertTag = (
  tx: DatabaseTransaction,
  row: {
    contestId: string;
    name?: string | undefined;
    number?: string | undefined;
    machineId?: string;
    outAt: Date;
    outBadgeId: string;
  },
) => {
  const { name = null, number = null, machineId = null, ...rest } = row;
  return tx.tag.create({ data: { id: newId(), name, number, machineId, ...rest } });
};

export async function tagOut(call: Call, slug: string, body: unknown): Promise<Reply<RangeBrief>> {
  const { name, number, already } = parse(tagRequest, body);
  const contest = await contestBySlug(call.db, slug);
  const contestId = contest.id;
  mustBeAllowed(call.actor, "keep the tally", contestId);
  const { badgeId } = call.actor;
  return changeRange(call, contest, {
    request: { act: "tag-out", contest: contestId, name: name ?? null, number: number ?? null, already },
    status: 201,
    say: async (tx, book) => {
      const tag = await insertTag(tx, { contestId, name, number, outAt: book.at, outBadgeId: badgeId });
      return {
        event: { do: "tag-out", tag: tag.id, already },
        entry: { act: "tag-out", subjectId: tag.id, details: already ? { already } : {} },
      };
    },
  });
}

/** Twice is the same as once. */
export async function tagIn(call: Call, slug: string, id: string): Promise<Reply<RangeBrief>> {
  const contest = await contestBySlug(call.db, slug);
  mustBeAllowed(call.actor, "keep the tally", contest.id);
  const { badgeId } = call.actor;
  return changeRange(call, contest, {
    request: { act: "tag-in", contest: contest.id, id },
    say: async (tx, book) => {
      const tag = await tx.tag.findFirst({ where: { id, contestId: contest.id } });
      if (!tag) throw notFound("tag");
      if (!tag.inAt) await tx.tag.update({ where: { id }, data: { inAt: book.at, inBadgeId: badgeId } });
      return { event: { do: "tag-in", tag: id }, entry: { act: "tag-in", subjectId: id, details: {} } };
    },
  });
}

/** From a sheet that was kept while nothing else worked. They are back, so the range hears nothing of it. */
export async function tagFromPaper(call: Call, slug: string, body: unknown): Promise<Reply<TagInfo>> {
  const { name = null, number = null, witness, ...times } = parse(paperTagRequest, body);
  const contest = await contestBySlug(call.db, slug);
  const contestId = contest.id;
  mustBeAllowed(call.actor, "keep the tally", contestId);
  const { badgeId } = call.actor;
  const request = { act: "tag-from-paper", contest: contestId, name, number, witness, ...times };
  return committed(call, contestId, request, async (tx, book) => {
    const outAt = observed({ observedAt: times.outAt }, book.at, "outAt");
    const inAt = observed({ observedAt: times.inAt }, book.at, "inAt");
    const row = { contestId, name, number, outAt, inAt, outBadgeId: badgeId, inBadgeId: badgeId, witness };
    const tag = await tx.tag.create({ data: { id: newId(), ...row } });
    const details = { outAt: outAt.toISOString(), inAt: inAt.toISOString() };
    await book.append("tag-from-paper", tag.id, details);
    return tagInfo({ ...tag, machine: null });
  });
}

/** Of those who are back in. */
export async function eraseNames(call: Call, slug: string): Promise<Reply<{ erased: number }>> {
  const contest = await contestBySlug(call.db, slug);
  mustBeAllowed(call.actor, "erase names of the tally", contest.id);
  const erasure = committed(
    call,
    contest.id,
    { act: "erase-names", contest: contest.id },
    async (tx, book) => {
      const where = { contestId: contest.id, inAt: { not: null }, name: { not: null } };
      const { count } = await tx.tag.updateMany({ where, data: { name: null } });
      if (count > 0) await book.append("names-erased", contest.id, { count });
      return { erased: count };
    },
    { status: 200 },
  );
  return thenSettled(call.db, erasure);
}

export async function readTally(db: Database, actor: Asker, slug: string): Promise<Tally> {
  const contest = await contestBySlug(db, slug);
  mustBeAllowed(actor, "keep the tally", contest.id);
  const rows = await db.tag.findMany({
    where: { contestId: contest.id },
    orderBy: [{ outAt: "desc" }, { id: "asc" }],
    include: { machine: { select: { name: true } } },
  });
  const tags = rows.map(tagInfo);
  return {
    out: tags.filter(({ inAt }) => inAt === null).reverse(),
    back: tags.filter(({ inAt }) => inAt !== null).slice(0, SHOWN),
  };
}

const tagInfo = ({
  id,
  name,
  number,
  machine,
  outAt,
  inAt,
  witness,
}: {
  id: string;
  name: string | null;
  number: string | null;
  machine: { name: string } | null;
  outAt: Date;
  inAt: Date | null;
  witness: string | null;
}): TagInfo => ({
  id,
  name,
  number,
  machineName: machine?.name ?? null,
  outAt: outAt.toISOString(),
  inAt: inAt?.toISOString() ?? null,
  witness,
});
