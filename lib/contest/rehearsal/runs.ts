/** What was played, and how soon hold was called: told by the scorebook alone. */
import type { Rehearsal, RehearsalRun } from "../../api/contracts";
import type { Database } from "../../db";
import { debrief, type Surprise } from "../../rehearsal";
import { contestBySlug } from "../find";
import { playedNow } from "../range/memory";
import { type Asker, mustBeAllowed } from "../roles";
import { scorebookHead } from "../scorebook";

const ACTS = ["rehearsal-started", "rehearsal-cue", "rehearsal-ended", "hold-called", "hold-lifted"];
const SHOWN = 10;

export async function readRehearsal(db: Database, actor: Asker, slug: string): Promise<Rehearsal> {
  const contest = await contestBySlug(db, slug);
  mustBeAllowed(actor, "play a rehearsal", contest.id);
  const { sequence } = await scorebookHead(db, contest.id);
  const posts = await db.siteFeature.findMany({
    where: { contestId: contest.id, kind: "post", retired: false },
    orderBy: { name: "asc" },
    select: { id: true, name: true },
  });
  return {
    possible: contest.demo,
    playing: playedNow(contest.id, Date.now()) !== null,
    posts,
    runs: await runsOf(db, contest.id),
    sequence,
  };
}

type Row = Awaited<ReturnType<typeof entriesOf>>[number];

const entriesOf = (db: Database, contestId: string, from: number) =>
  db.scorebookEntry.findMany({
    where: { contestId, act: { in: ACTS }, sequence: { gte: from } },
    orderBy: { sequence: "asc" },
    select: { act: true, subjectId: true, body: true, badgeId: true, createdAt: true },
  });

async function runsOf(db: Database, contestId: string): Promise<RehearsalRun[]> {
  const starts = await db.scorebookEntry.findMany({
    where: { contestId, act: "rehearsal-started" },
    orderBy: { sequence: "desc" },
    take: SHOWN,
    select: { sequence: true },
  });
  const from = starts.at(-1)?.sequence;
  if (from === undefined) return [];
  const rows = await entriesOf(db, contestId, from);
  const badges = await db.badge.findMany({ where: { contestId }, select: { id: true, label: true } });
  const labels = new Map(badges.map(({ id, label }) => [id, label]));
  const runs: Row[][] = [];
  for (const row of rows) {
    if (row.act === "rehearsal-started") runs.push([]);
    runs.at(-1)?.push(row);
  }
  return runs.map((run) => runOf(run, labels)).reverse();
}

const bodyOf = <Body>(row: Row): Body => JSON.parse(row.body) as Body;

function runOf(rows: readonly Row[], labels: ReadonlyMap<string, string>): RehearsalRun {
  const [start] = rows as [Row];
  const ended = rows.find(({ act }) => act === "rehearsal-ended");
  // What is called after it belongs to no rehearsal.
  const played = ended ? rows.slice(0, rows.indexOf(ended) + 1) : rows;
  const of = (act: string) => played.filter((row) => row.act === act);
  const { cues, unprompted } = debrief(
    of("rehearsal-cue").map((row) => ({
      ...bodyOf<{ surprise: Surprise; machineName: string; postName: string }>(row),
      at: row.createdAt.getTime(),
    })),
    of("hold-called").map((row) => ({
      at: Date.parse(bodyOf<{ pressedAt: string }>(row).pressedAt),
      by: row.badgeId && (labels.get(row.badgeId) ?? "a badge"),
    })),
    of("hold-lifted").map(({ createdAt }) => createdAt.getTime()),
  );
  return {
    id: start.subjectId,
    startedAt: start.createdAt.toISOString(),
    endedAt: ended?.createdAt.toISOString() ?? null,
    turns: bodyOf<{ turns: number }>(start).turns,
    cues: cues.map(({ at, machineName, postName, surprise, ...found }) => ({
      surprise,
      at: new Date(at).toISOString(),
      machine: machineName,
      post: postName,
      after: found.after,
      by: found.by,
      programAfter: found.programAfter,
      others: found.others,
    })),
    unprompted,
  };
}
