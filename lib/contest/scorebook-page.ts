/** The scorebook to read: page by page, whole, and as a file that can be checked without this program. */
import { type Scorebook, type ScorebookEntryInfo, scorebookQuery } from "../api/contracts";
import type { Database } from "../db";
import { parse } from "./errors";
import { contestBySlug } from "./find";
import { scorebookHead } from "./scorebook";
import { verifyScorebook } from "./scorebook-chain";

/** Entries, newest first. `verify: "1"` also recomputes the whole chain. */
export async function scorebookPage(db: Database, slug: string, query: unknown = {}): Promise<Scorebook> {
  const { before, limit, verify } = parse(scorebookQuery, query);
  const contest = await contestBySlug(db, slug);
  const entries = await entriesBefore(db, contest.id, before, limit);
  const last = entries.at(-1);
  return {
    entries,
    next: last && last.sequence > 1 ? last.sequence : null,
    ...(await scorebookHead(db, contest.id)),
    verification: verify === "1" ? await verifyScorebook(db, slug) : null,
  };
}

const PAGE = 500;

/** All of it, newest first. */
export async function wholeScorebook(db: Database, slug: string): Promise<ScorebookEntryInfo[]> {
  const { id } = await contestBySlug(db, slug);
  const all: ScorebookEntryInfo[] = [];
  for (let before: number | undefined; ; before = all.at(-1)?.sequence) {
    const entries = await entriesBefore(db, id, before, PAGE);
    all.push(...entries);
    if (entries.length < PAGE) return all;
  }
}

/**
 * The whole chain, oldest first: a line of JSON for each entry, with `sequence`, `previousHash`, `hash` and `body`, the
 * text that was hashed: hash = SHA-256(previousHash + "\n" + body), both as UTF-8, in hexadecimal.
 */
export async function scorebookFile(db: Database, slug: string) {
  const entries = (await wholeScorebook(db, slug)).reverse();
  const lines = entries.map(
    ({ sequence, previousHash, hash, body }) => `${JSON.stringify({ sequence, previousHash, hash, body })}\n`,
  );
  return {
    content: lines.join(""),
    mediaType: "application/x-ndjson",
    fileName: `${slug}-scorebook-${entries.at(-1)?.sequence ?? 0}.ndjson`,
  };
}

async function entriesBefore(
  db: Database,
  contestId: string,
  before: number | undefined,
  limit: number,
): Promise<ScorebookEntryInfo[]> {
  const rows = await db.scorebookEntry.findMany({
    where: { contestId, ...(before && { sequence: { lt: before } }) },
    orderBy: { sequence: "desc" },
    take: limit,
    include: { badge: { select: { label: true } } },
  });
  return rows.map((row) => ({
    sequence: row.sequence,
    act: row.act,
    subjectId: row.subjectId,
    by: row.badge?.label ?? "Fairthrow",
    body: row.body,
    previousHash: row.previousHash,
    hash: row.hash,
    createdAt: row.createdAt.toISOString(),
  }));
}
