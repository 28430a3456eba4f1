/**
 * Whether a scorebook is what it was: its chain hashed again, held against heads that were printed earlier, and the
 * landing points that pages are made from held against it.
 */
import type { Verification } from "../api/contracts";
import type { Database } from "../db";
import { invalid } from "./errors";
import { contestBySlug } from "./find";
import { BEGINNING, canonical, sha256 } from "./scorebook";

/** An entry as it is stored or exported. */
export interface ChainEntry {
  sequence: number;
  previousHash: string;
  hash: string;
  body: string;
}

/** A head that was written down elsewhere: of its hash at least the first sixteen characters. */
export interface PrintedHead {
  sequence: number;
  hash: string;
}

/** A hash as it is printed, in groups that a person can read out. */
export const groupedHash = (hash: string): string => hash.replace(/(.{4})(?=.)/g, "$1 ");

/** Too few to be found again by trying: 64 bits. */
const SHORTEST = 16;

/** One line of paper: "Round 2, entry 57: 3fa9 0c41 …". */
export const headLine = ({ sequence, hash }: PrintedHead, round: number | null): string =>
  `${round === null ? "Entry" : `Round ${round}, entry`} ${sequence}: ${groupedHash(hash)}`;

/** From what is printed, with its words or without; spaces and capitals do not matter. Throws 422. */
export function printedHead(text: string): PrintedHead {
  const printed = /^\s*(?:round\s+\d+\s*,\s*)?(?:entry\s+)?(\d+)\s*[:.]\s*([0-9a-f\s]+)$/i;
  const [, sequence, typed] = printed.exec(text) ?? [];
  const hash = typed?.replace(/\s/g, "").toLowerCase() ?? "";
  if (hash.length < SHORTEST || hash.length > 64 || Number(sequence) < 1)
    throw invalid(
      "head",
      `“${text}” is no head. Give the entry's number, a colon and at least the first ${SHORTEST} characters of its hash, as printed: 57:3fa90c41…`,
    );
  return { sequence: Number(sequence), hash };
}

/** The chain so far. Entries come in their order; the first that does not fit ends it. */
export class Chain {
  sequence = 0;
  head = BEGINNING;
  broken: { at: number; reason: string } | null = null;
  /** Hashes of the entries that printed heads name. */
  readonly #named = new Map<number, string>();

  constructor(private readonly printed: readonly PrintedHead[] = []) {}

  add(entry: ChainEntry): void {
    if (this.broken) return;
    const expected = this.sequence + 1;
    const wrong = wrongIn(entry, expected, this.head);
    if (wrong) {
      this.broken = { at: expected, reason: wrong };
      return;
    }
    this.sequence = expected;
    this.head = entry.hash;
    if (this.printed.some(({ sequence }) => sequence === expected)) this.#named.set(expected, entry.hash);
  }

  /** The printed heads that it does not lead to, with what stands there; null: the chain ends before. */
  differing(): { printed: PrintedHead; found: string | null }[] {
    return this.printed.flatMap((printed) => {
      const found = this.#named.get(printed.sequence) ?? null;
      return found?.startsWith(printed.hash) ? [] : [{ printed, found }];
    });
  }
}

function wrongIn({ sequence, previousHash, hash, body }: ChainEntry, expected: number, head: string) {
  if (sequence !== expected) return `Entry ${expected} is missing.`;
  if (previousHash !== head) return `Entry ${expected} does not follow the one before it.`;
  if (sha256(`${head}\n${body}`) !== hash) return `Entry ${expected} was changed after it was written.`;
  return null;
}

const PAGE = 500;

/** Recomputes the chain from its first entry and holds every column against the hashed body. */
export async function verifyScorebook(db: Database, slug: string): Promise<Verification> {
  const chain = await readChain(db, (await contestBySlug(db, slug)).id);
  return {
    holds: chain.broken === null,
    entries: chain.sequence,
    head: chain.head,
    brokenAt: chain.broken?.at ?? null,
    reason: chain.broken?.reason ?? null,
  };
}

export interface ScorebookCheck {
  chain: Chain;
  /** Landing points in the tables that are not what the scorebook has, in words; null when its chain does not hold. */
  landingPoints: string[] | null;
}

/** The same, held also against heads that were printed, and the landing points against the scorebook. Throws 404. */
export async function checkScorebook(
  db: Database,
  slug: string,
  printed: readonly PrintedHead[],
): Promise<ScorebookCheck> {
  const { id } = await contestBySlug(db, slug);
  const entered = new Map<string, Entered>();
  const chain = await readChain(db, id, printed, ({ act, subjectId, sequence }, body) => {
    if (RECORDS_A_FIX.has(act)) entered.set(subjectId, { sequence, text: fixText(body) });
  });
  return { chain, landingPoints: chain.broken ? null : await differingFixes(db, id, entered) };
}

/** What the scorebook says of a landing point. */
interface Entered {
  sequence: number;
  text: string;
}

type Body = Record<string, unknown>;

/** @param see each entry that fits, with what its body says */
async function readChain(
  db: Database,
  contestId: string,
  printed: readonly PrintedHead[] = [],
  see: (row: { act: string; subjectId: string; sequence: number }, body: Body) => void = () => {},
): Promise<Chain> {
  const chain = new Chain(printed);
  while (!chain.broken) {
    const rows = await db.scorebookEntry.findMany({
      where: { contestId, sequence: { gt: chain.sequence } },
      orderBy: { sequence: "asc" },
      take: PAGE,
    });
    if (rows.length === 0) break;
    for (const row of rows) {
      chain.add(row);
      if (chain.broken) break;
      const body = JSON.parse(row.body) as Body;
      if (!columnsAgree(row, body)) {
        const reason = `The columns of entry ${row.sequence} differ from what was hashed.`;
        chain.broken = { at: row.sequence, reason };
        break;
      }
      see(row, body);
    }
  }
  return chain;
}

const RECORDS_A_FIX = new Set(["fix-recorded", "fix-corrected", "held-fix-confirmed"]);
const fixText = ({ shot, fix }: { shot?: unknown; fix?: unknown }) =>
  canonical({ shot: shot ?? null, fix: fix ?? null });

async function differingFixes(
  db: Database,
  contestId: string,
  entered: ReadonlyMap<string, Entered>,
): Promise<string[]> {
  const wrong: string[] = [];
  const seen = new Set<string>();
  for (let after = ""; ; ) {
    const fixes = await db.fix.findMany({
      where: { shot: { contestId }, id: { gt: after } },
      orderBy: { id: "asc" },
      take: PAGE,
      select: { id: true, shotId: true, input: true },
    });
    for (const { id, shotId, input } of fixes) {
      seen.add(id);
      const book = entered.get(id);
      if (!book) wrong.push(`Landing point ${id} of shot ${shotId} stands in no entry.`);
      else if (book.text !== fixText({ shot: shotId, fix: JSON.parse(input) }))
        wrong.push(`Landing point ${id} is not what entry ${book.sequence} says.`);
    }
    const last = fixes.at(-1);
    if (!last) break;
    after = last.id;
  }
  for (const [id, { sequence }] of entered)
    if (!seen.has(id)) wrong.push(`The landing point of entry ${sequence} (${id}) is gone.`);
  return wrong;
}

function columnsAgree(
  row: {
    contestId: string;
    sequence: number;
    act: string;
    subjectId: string;
    badgeId: string | null;
    createdAt: Date;
  },
  body: Body,
): boolean {
  return (
    body.contest === row.contestId &&
    body.sequence === row.sequence &&
    body.act === row.act &&
    body.subject === row.subjectId &&
    body.badge === row.badgeId &&
    body.at === row.createdAt.toISOString()
  );
}
