/** Contests: making one, and what it holds. */
import type { z } from "zod";
import {
  type ContestOverview,
  type ContestSummary,
  contestRequest,
  type newContestSchema,
} from "../api/contracts";
import { type Database, type DatabaseTransaction, inTransaction } from "../db";
import { aerialPicturesOf } from "./aerial";
import { type PreparedCode, preparedCode } from "./badge-code";
import { addBadge } from "./badges";
import { barriersOf } from "./barriers";
import { invalid, parse, taken } from "./errors";
import { featureInfo } from "./features";
import { airOf, type ContestRow, contestBySlug, policyOf } from "./find";
import { firingPointInfo } from "./layout";
import { machineInfo } from "./machines";
import { controlPointInfo, spotHeightInfo } from "./range-points";
import { mustBeAllowed } from "./roles";
import { newId, OpenScorebook, scorebookHead } from "./scorebook";
import { type Call, committed, type Reply } from "./write";

export type NewContest = z.infer<typeof newContestSchema>;
export type ContestInput = z.output<typeof contestRequest>;

/** Another contest beside the one whose organiser asks; its own organiser's badge comes with it. */
export async function createContest(call: Call, body: unknown): Promise<Reply<NewContest>> {
  const input = parse(contestRequest, body);
  mustBeAllowed(call.actor, "create another contest", call.actor?.contestId ?? "");
  const code = await preparedCode();
  const contestId = newId();
  return committed(
    call,
    contestId,
    { act: "contest", input },
    (tx, book) => addContest(tx, book, contestId, input, code),
    { secret: true },
  );
}

/** The rows and entries of a new contest with its first badge, inside a transaction. */
export async function addContest(
  tx: DatabaseTransaction,
  book: OpenScorebook,
  contestId: string,
  input: ContestInput,
  code: PreparedCode,
  demo = false,
): Promise<NewContest> {
  mustFollow(input);
  if (await tx.contest.findUnique({ where: { slug: input.slug } }))
    throw taken("slug", `Another contest has the address ${input.slug}: choose another.`);
  const { policy, air, ...plain } = input;
  const row = await tx.contest.create({
    data: {
      id: contestId,
      ...plain,
      policy: JSON.stringify(policy),
      air: JSON.stringify(air),
      demo,
      createdAt: book.at,
    },
  });
  await book.append("contest-created", contestId, { ...input, demo });
  // An account: nobody else could give this organiser a new code.
  const account = { role: "organiser", label: "Organiser 1", endsAt: null, reusable: true } as const;
  const badge = await addBadge(tx, book, contestId, account, code);
  return { contest: contestSummary(row), badge };
}

/** A contest that is marked as a demo, with its organiser's badge. For the program itself; no route leads here. */
export async function createDemoContest(db: Database, body: unknown): Promise<NewContest> {
  const input = parse(contestRequest, body);
  const code = await preparedCode();
  const contestId = newId();
  return inTransaction(db, async (tx) => {
    const book = await OpenScorebook.at(tx, contestId, null);
    return addContest(tx, book, contestId, input, code, true);
  });
}

/** The last day after the first. */
export function mustFollow({ date, lastDate }: Pick<ContestRow, "date" | "lastDate">): void {
  if (lastDate !== null && lastDate < date)
    throw invalid("lastDate", `The last day cannot be before the first, ${date}. Leave it out for one day.`);
}

export function particularsOf({
  name,
  place,
  date,
  lastDate,
  units,
  height,
  declination,
  rounds,
}: ContestRow) {
  return { name, place, date, lastDate, units, height, declination, rounds };
}

export async function listContests(db: Database): Promise<ContestSummary[]> {
  const rows = await db.contest.findMany({ orderBy: [{ date: "desc" }, { name: "asc" }] });
  return rows.map(contestSummary);
}

/** Everything laid out and entered. Open to all; what a machine is made of is not in it. */
export async function contestOverview(db: Database, slug: string): Promise<ContestOverview> {
  const contest = await contestBySlug(db, slug);
  const where = { contestId: contest.id };
  const [
    divisions,
    entrants,
    firingPoints,
    features,
    machines,
    shots,
    { sequence },
    controlPoints,
    spotHeights,
    aerialPictures,
    barriers,
  ] = await Promise.all([
    db.division.findMany({ where, orderBy: { position: "asc" } }),
    db.entrant.findMany({ where, orderBy: { number: "asc" } }),
    db.firingPoint.findMany({ where, orderBy: { number: "asc" } }),
    db.siteFeature.findMany({ where, orderBy: { name: "asc" } }),
    db.machine.findMany({
      where,
      orderBy: { name: "asc" },
      include: { revisions: { orderBy: { number: "desc" }, take: 1 } },
    }),
    db.shot.findMany({ where, select: { round: true, _count: { select: { fixes: true } } } }),
    scorebookHead(db, contest.id),
    db.controlPoint.findMany({ where, orderBy: { name: "asc" } }),
    db.spotHeight.findMany({ where, orderBy: { id: "asc" } }),
    aerialPicturesOf(db, contest.id),
    barriersOf(db, contest.id),
  ]);
  const rounds = [...new Set(shots.map((shot) => shot.round))].sort((a, b) => a - b);
  return {
    ...contestSummary(contest),
    policy: policyOf(contest),
    air: airOf(contest),
    divisions: divisions.map(({ id, name, position }) => ({ id, name, position })),
    entrants: entrants.map(({ id, divisionId, number, name }) => ({ id, divisionId, number, name })),
    firingPoints: firingPoints.map(firingPointInfo),
    features: features.map(featureInfo),
    controlPoints: controlPoints.map(controlPointInfo),
    spotHeights: spotHeights.map(spotHeightInfo),
    aerialPictures,
    barriers,
    machines: machines.map(machineInfo),
    roundsMade: rounds.map((round) => {
      const ofRound = shots.filter((shot) => shot.round === round);
      return {
        round,
        shots: ofRound.length,
        entered: ofRound.filter((shot) => shot._count.fixes > 0).length,
      };
    }),
    sequence,
  };
}

export function contestSummary(row: ContestRow): ContestSummary {
  const { id, slug, latitude, longitude, demo } = row;
  const units = row.units === "us" ? "us" : "metric";
  return { id, slug, latitude, longitude, demo, ...particularsOf(row), units };
}
