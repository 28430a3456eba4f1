/** What the live feed tells of each scorebook entry. */
import type { LiveChange } from "../api/contracts";
import { type Database, getDatabase } from "../db";
import { type LiveEvent, liveHub, type Source } from "../live";
import { Refusal } from "./errors";
import { contestBySlug } from "./find";
import { rangeBriefNow } from "./range/watch";
import { ACTS, type ScorebookAct } from "./scorebook";
import { standingsOf } from "./standings";

/** Kinds of change after which the standings may be others. */
const MOVES_STANDINGS = new Set<LiveChange["kind"]>(["layout", "entry", "round", "fix", "ruling"]);

/**
 * The events of a contest as bytes of text/event-stream, from entry `after` on. Open to all. Throws 404, and 503 when
 * too many listen.
 */
export async function liveFeed(
  db: Database,
  slug: string,
  after: number,
  signal: AbortSignal,
): Promise<ReadableStream<Uint8Array>> {
  const contest = await contestBySlug(db, slug);
  const hub = liveHub(contestChanges);
  if (hub.full)
    throw new Refusal(503, "busy", "Too many pages listen already. Reload this page by hand.", [], {}, 30);
  return hub.subscribe(contest.id, after, signal);
}

const FIELDS = { sequence: true, act: true, subjectId: true, createdAt: true } as const;

const contestChanges: Source = {
  async range(contestId) {
    const db = await getDatabase();
    return JSON.stringify(await rangeBriefNow(db, contestId));
  },

  async changes(contestId, after, limit) {
    const db = await getDatabase();
    const entries = await db.scorebookEntry.findMany({
      where: { contestId, sequence: { gt: after } },
      orderBy: { sequence: "desc" },
      take: limit,
      select: FIELDS,
    });
    const changes = entries.reverse().map(changeOf);
    // Once for all of them: standings rest on everything up to now.
    const last = changes.findLast((change) => MOVES_STANDINGS.has(change.kind));
    if (last) last.standings = await standingsOf(db, contestId);
    return changes.map(eventOf);
  },

  async newest(contestId) {
    const db = await getDatabase();
    const where = { contestId };
    const entry = await db.scorebookEntry.findFirst({ where, orderBy: { sequence: "desc" }, select: FIELDS });
    if (!entry) return null;
    return eventOf({ ...changeOf(entry), standings: await standingsOf(db, contestId) });
  },
};

function changeOf(entry: { sequence: number; act: string; subjectId: string; createdAt: Date }): LiveChange {
  const { sequence, subjectId } = entry;
  return { sequence, kind: ACTS[entry.act as ScorebookAct], subjectId, at: entry.createdAt.toISOString() };
}

const eventOf = (change: LiveChange): LiveEvent => ({
  sequence: change.sequence,
  data: JSON.stringify(change),
});
