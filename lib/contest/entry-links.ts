/** The organiser's links by which teams enter themselves: made, changed, closed, and what a team's page learns by one. */
import { randomBytes } from "node:crypto";
import type { z } from "zod";
import {
  type EntryLinkInfo,
  entryLinkChange,
  entryLinkRequest,
  entryToken,
  type Invitation,
  type newEntryLinkSchema,
} from "../api/contracts";
import type { Database } from "../db";
import { daysOf } from "./days";
import { entryBySecret, keptUntil, linkInfo, type Reader } from "./entry-info";
import { invalid, notFound, parse, Refusal } from "./errors";
import { type ContestRow, contestBySlug } from "./find";
import { consentDays, consentText } from "./guardian-consent";
import { type Asker, mustBeAllowed } from "./roles";
import { newId, sha256 } from "./scorebook";
import { type Call, committed, type Reply } from "./write";

const INVITE = "invite teams to enter themselves";
const COUNTED = { _count: { select: { entries: true } } } as const;

type NewEntryLink = z.infer<typeof newEntryLinkSchema>;

/** What a new link holds and the team's own way back: 256 random bits. */
export const newEntryToken = (): string => randomBytes(32).toString("base64url");

export async function makeEntryLink(call: Call, slug: string, body: unknown): Promise<Reply<NewEntryLink>> {
  const { endsAt, most, keepDays } = parse(entryLinkRequest, body);
  const contest = await contestBySlug(call.db, slug);
  mustBeAllowed(call.actor, INVITE, contest.id);
  mustBeAhead(endsAt);
  const token = newEntryToken();
  const request = { act: "entry-link", contest: contest.id, endsAt, most, keepDays };
  return committed(
    call,
    contest.id,
    request,
    async (tx, book) => {
      const row = await tx.entryLink.create({
        data: {
          id: newId(),
          contestId: contest.id,
          tokenHash: sha256(token),
          endsAt: new Date(endsAt),
          most,
          keepDays,
          createdAt: book.at,
        },
        include: COUNTED,
      });
      await book.append("entry-link-made", row.id, { endsAt: row.endsAt.toISOString(), most, keepDays });
      return { ...linkInfo(row), token };
    },
    { secret: true },
  );
}

export async function changeEntryLink(
  call: Call,
  slug: string,
  id: string,
  body: unknown,
): Promise<Reply<EntryLinkInfo>> {
  const change = parse(entryLinkChange, body);
  const contest = await contestBySlug(call.db, slug);
  mustBeAllowed(call.actor, INVITE, contest.id);
  if (change.endsAt !== undefined) mustBeAhead(change.endsAt);
  return committed(
    call,
    contest.id,
    { act: "change-entry-link", id, change },
    async (tx, book) => {
      const before = await tx.entryLink.findFirst({ where: { id, contestId: contest.id } });
      if (!before) throw notFound("entry link");
      const { open = before.closedAt === null, most = before.most } = change;
      const endsAt = change.endsAt === undefined ? before.endsAt : new Date(change.endsAt);
      const closedAt = open ? null : (before.closedAt ?? book.at);
      const row = await tx.entryLink.update({
        where: { id },
        data: { endsAt, most, closedAt },
        include: COUNTED,
      });
      await book.append("entry-link-changed", id, { open, endsAt: endsAt.toISOString(), most });
      return linkInfo(row);
    },
    { status: 200 },
  );
}

export async function listEntryLinks(db: Database, actor: Asker, slug: string): Promise<EntryLinkInfo[]> {
  const contest = await contestBySlug(db, slug);
  mustBeAllowed(actor, INVITE, contest.id);
  const where = { contestId: contest.id };
  const rows = await db.entryLink.findMany({ where, orderBy: { createdAt: "desc" }, include: COUNTED });
  return rows.map(linkInfo);
}

/** What a team's page shows before it begins. Throws 404 for a token that opens nothing. */
export async function readInvitation(db: Database, slug: string, token: string | null): Promise<Invitation> {
  const contest = await contestBySlug(db, slug);
  return invitationOf(db, contest, await linkOfToken(db, contest.id, token));
}

export async function linkOfToken(db: Reader, contestId: string, token: string | null) {
  const tokenHash = hashOf(token);
  const link =
    tokenHash && (await db.entryLink.findFirst({ where: { contestId, tokenHash }, include: COUNTED }));
  if (!link)
    throw new Refusal(
      404,
      "no-such-link",
      "This link opens no entry. Open it again as the organiser gave it: messages sometimes cut the end off.",
    );
  return link;
}
export type LinkRow = Awaited<ReturnType<typeof linkOfToken>>;

/** Null for what is no token at all. */
export const hashOf = (token: string | null): string | null =>
  entryToken.safeParse(token).success ? sha256(token as string) : null;

/** The team's own entry. Throws 404 for a secret that opens none. */
export async function ownEntryRow(db: Reader, contestId: string, secret: string | null) {
  const hash = hashOf(secret);
  const row = hash && (await entryBySecret(db, contestId, hash));
  if (!row)
    throw new Refusal(
      404,
      "no-such-entry",
      "This link opens no entry: a part of it is missing, or the entry was withdrawn.",
    );
  return row;
}

/** Why nobody may begin by it now; null: one may. */
export function whyClosed(link: LinkRow, now = new Date()): string | null {
  if (link.closedAt) return "The organiser has closed entries by this link.";
  if (link.endsAt <= now) return "Entries by this link have ended. Ask the organiser.";
  if (link._count.entries >= link.most)
    return `All ${link.most} entries of this link are taken. Ask the organiser for another.`;
  return null;
}

export async function invitationOf(db: Reader, contest: ContestRow, link: LinkRow): Promise<Invitation> {
  const divisions = await db.division.findMany({
    where: { contestId: contest.id },
    orderBy: { position: "asc" },
    select: { id: true, name: true },
  });
  const { slug, name, place, date } = contest;
  return {
    contest: { slug, name, place, date, lastDay: daysOf(contest).last },
    divisions,
    endsAt: link.endsAt.toISOString(),
    closed: whyClosed(link),
    keepDays: link.keepDays,
    keptUntil: keptUntil(contest, link.keepDays),
    consentText: consentOf(contest, link.keepDays),
  };
}

export function consentOf(contest: ContestRow, keepDays: number): string {
  return consentText({ contest: contest.name, days: consentDays(daysOf(contest)), keepDays });
}

function mustBeAhead(endsAt: string): void {
  if (Date.parse(endsAt) <= Date.now())
    throw invalid("endsAt", "Entries would be over already: give a later day or time.");
}
