/**
 * The append-only record of everything official. Each entry's hash covers the one before:
 * hash = SHA-256(previousHash + "\n" + body), with body in canonical JSON (RFC 8785). A change, a gap or a swap in the
 * middle shows when the chain is recomputed; a rewrite of the whole chain or a cut tail shows only against a head that
 * was kept elsewhere. Names of people and teams stay out of it: entries carry ids.
 */
import { createHash, randomBytes } from "node:crypto";
import canonicalize from "canonicalize";
import type { LIVE_KINDS } from "../api/contracts";
import { type Database, type DatabaseTransaction, insertRow, rowsOf } from "../db";

/** Every official act, with the kind of change that open pages hear of. */
export const ACTS = {
  "contest-created": "layout",
  "contest-changed": "layout",
  "division-added": "layout",
  "entrant-added": "entry",
  "firing-point-added": "layout",
  "firing-point-moved": "layout",
  "firing-point-changed": "layout",
  "feature-added": "layout",
  "feature-changed": "layout",
  "protection-allowed": "layout",
  "allowance-withdrawn": "layout",
  "barrier-signed": "layout",
  "barrier-retired": "layout",
  "control-point-added": "layout",
  "control-point-changed": "layout",
  "spot-height-added": "layout",
  "spot-height-changed": "layout",
  "aerial-picture-added": "layout",
  "aerial-picture-changed": "layout",
  "machine-entered": "entry",
  "machine-changed": "machine",
  "revision-declared": "machine",
  "machine-placed": "machine",
  "machine-inspected": "machine",
  "permit-signed": "permit",
  "permit-withdrawn": "permit",
  "alarm-raised": "permit",
  "incident-entered": "permit",
  "incident-added": "permit",
  "incident-noted": "permit",
  "incident-erased": "permit",
  "policy-set": "conditions",
  "air-set": "conditions",
  "wind-read": "conditions",
  "sheet-computed": "sheet",
  "round-made": "round",
  "order-planned": "round",
  "turn-moved": "round",
  "machine-times-set": "round",
  "fix-recorded": "fix",
  "fix-corrected": "fix",
  "fix-held": "fix",
  "held-fix-confirmed": "fix",
  "held-fix-rejected": "fix",
  "sighting-made": "sighting",
  "ruling-made": "ruling",
  "protest-entered": "ruling",
  "mark-rule-set": "ruling",
  // An agreement with the owner of a line changes what the map says of it.
  "consent-added": "conditions",
  "consent-changed": "conditions",
  "safety-plan-set": "papers",
  "safety-file-frozen": "papers",
  "hold-called": "range",
  "hold-late": "range",
  "hold-lifted": "range",
  "range-hot": "range",
  "range-cold": "range",
  "range-times-set": "range",
  "post-clear": "range",
  "post-not-clear": "range",
  "list-ticked": "range",
  "tag-out": "range",
  "tag-in": "range",
  "tag-from-paper": "range",
  "names-erased": "range",
  "machine-state": "range",
  "approach-named": "range",
  "rehearsal-started": "range",
  "rehearsal-cue": "range",
  "rehearsal-ended": "range",
  "entry-link-made": "entry",
  "entry-link-changed": "entry",
  "entry-sent": "entry",
  "entry-returned": "entry",
  "entry-accepted": "entry",
  "entry-refused": "entry",
  // Made no more: books of earlier versions have it.
  "guardian-form-seen": "entry",
  "people-erased": "entry",
  "badge-made": "badge",
  "badge-code-made": "badge",
  "badge-end-set": "badge",
  "badge-revoked": "badge",
} as const satisfies Record<string, (typeof LIVE_KINDS)[number]>;
export type ScorebookAct = keyof typeof ACTS;

/** What the first entry of a contest follows. */
export const BEGINNING = "0".repeat(64);

export const newId = (): string => randomBytes(10).toString("hex");
export const sha256 = (text: string): string => createHash("sha256").update(text).digest("hex");

/** RFC 8785. Throws on what JSON cannot hold. */
export function canonical(value: unknown): string {
  const text = canonicalize(value);
  if (text === undefined) throw new Error("This value has no canonical JSON.");
  return text;
}

/** A contest's scorebook, open for writing inside one transaction. Writers take turns, so its head stays true. */
export class OpenScorebook {
  #sequence = 0;
  #head = BEGINNING;
  readonly at = new Date();

  private constructor(
    private readonly tx: DatabaseTransaction,
    private readonly contestId: string,
    private readonly badgeId: string | null,
  ) {}

  static async at(
    tx: DatabaseTransaction,
    contestId: string,
    badgeId: string | null,
  ): Promise<OpenScorebook> {
    const book = new OpenScorebook(tx, contestId, badgeId);
    const [last] = await rowsOf<{ sequence: number; hash: string }>(
      tx,
      `SELECT "sequence", "hash" FROM "ScorebookEntry" WHERE "contestId" = ? ORDER BY "sequence" DESC LIMIT 1`,
      contestId,
    );
    if (last) [book.#sequence, book.#head] = [last.sequence, last.hash];
    return book;
  }

  get sequence(): number {
    return this.#sequence;
  }

  /** Sequence that the next entry will have. */
  get next(): number {
    return this.#sequence + 1;
  }

  async append(act: ScorebookAct, subjectId: string, details: Record<string, unknown>): Promise<void> {
    await insertRow(this.tx, "ScorebookEntry", this.#next({ act, subjectId, details }));
  }

  /** Many entries, in their order, with few statements. */
  async appendAll(entries: readonly ScorebookDraft[]): Promise<void> {
    const data = entries.map((entry) => this.#next(entry));
    for (let at = 0; at < data.length; at += CHUNK)
      await this.tx.scorebookEntry.createMany({ data: data.slice(at, at + CHUNK) });
  }

  #next({ act, subjectId, details }: ScorebookDraft) {
    const taken = OF_EVERY_ENTRY.filter((key) => key in details);
    if (taken.length > 0) throw new Error(`Every entry has its own ${taken.join(", ")}: name it otherwise.`);
    const sequence = this.next;
    const previousHash = this.#head;
    const body = canonical({
      contest: this.contestId,
      sequence,
      act,
      subject: subjectId,
      badge: this.badgeId,
      at: this.at.toISOString(),
      ...details,
    });
    const hash = sha256(`${previousHash}\n${body}`);
    this.#sequence = sequence;
    this.#head = hash;
    const { contestId, badgeId, at: createdAt } = this;
    return { contestId, sequence, act, subjectId, badgeId, body, previousHash, hash, createdAt };
  }
}

const OF_EVERY_ENTRY = ["contest", "sequence", "act", "subject", "badge", "at"] as const;

/** Rows of one statement: engines bound its parameters. */
export const CHUNK = 500;

export interface ScorebookDraft {
  act: ScorebookAct;
  subjectId: string;
  details: Record<string, unknown>;
}

/** Sequence and hash of the newest entry. */
export async function scorebookHead(
  db: Database | DatabaseTransaction,
  contestId: string,
): Promise<{ sequence: number; head: string }> {
  const last = await db.scorebookEntry.findFirst({ where: { contestId }, orderBy: { sequence: "desc" } });
  return { sequence: last?.sequence ?? 0, head: last?.hash ?? BEGINNING };
}
