/** A rehearsal begins and ends. It is played in the demo contest alone: nothing of a real day is touched. */
import { randomInt } from "node:crypto";
import { type Rehearsal, rehearsalRequest } from "../../api/contracts";
import type { Database, DatabaseTransaction } from "../../db";
import { machineOf, type RangeState, type Times } from "../../range";
import { MISFIRE_WAIT } from "../../rehearsal";
import { conflict, parse } from "../errors";
import { type ContestRow, contestBySlug } from "../find";
import { firingOrder } from "../firing-order";
import { setTimes } from "../range";
import { factsOf, type RangeFacts } from "../range/facts";
import { playedNow, tell } from "../range/memory";
import { rangeNow, storedRange } from "../range/store";
import { tellNow } from "../range/tell";
import { mustBeAllowed } from "../roles";
import { newId } from "../scorebook";
import { answeredBefore, type Call, committed, type Reply } from "../write";
import { castBadges, castCodes, castOf } from "./cast";
import { play } from "./play";
import { readRehearsal } from "./runs";

const ACT = "play a rehearsal";
const SEEDS = 2 ** 31;

export async function startRehearsal(call: Call, slug: string, body: unknown): Promise<Reply<Rehearsal>> {
  const setting = parse(rehearsalRequest, body);
  const { db } = call;
  const contest = await contestBySlug(db, slug);
  mustBeAllowed(call.actor, ACT, contest.id);
  const request = { act: "rehearsal", contest: contest.id, setting };
  const before = await answeredBefore<{ id: string }>(call, request);
  if (before) return { ...before, answer: await readRehearsal(db, call.actor, slug) };
  await mustBePlayable(db, contest);
  const facts = await factsOf(db, contest, []);
  const machineIds = await machinesInOrder(db, contest, facts);
  mustBeIdle(await rangeNow(db, contest.id), facts);
  const times = await usualTimes(db, contest.id);
  const seed = randomInt(SEEDS);
  const codes = await castCodes();
  const written = await committed(call, contest.id, request, async (tx, book) => {
    await castBadges(tx, book, contest.id, codes);
    const id = newId();
    await book.append("rehearsal-started", id, { turns: setting.turns, pace: setting.pace, seed, times });
    return { id };
  });
  if (!written.replayed) {
    const cast = await castOf(db, contest);
    const shorter = { times: { ...times, misfireWait: MISFIRE_WAIT }, reason: "For the rehearsal." };
    await setTimes(cast.officer(), slug, shorter);
    play({ db, contest, cast, setting, machineIds, seed, times, runId: written.answer.id });
    await tellNow(db, contest);
  }
  return { ...written, answer: await readRehearsal(db, call.actor, slug) };
}

/** One that was cut off left its own. */
async function usualTimes(db: Database, contestId: string): Promise<Times> {
  const last = await newestOf(db, contestId);
  if (last?.act === "rehearsal-started") return (JSON.parse(last.body) as { times: Times }).times;
  return (await storedRange(db, contestId)).times;
}

const newestOf = (db: Database | DatabaseTransaction, contestId: string) =>
  db.scorebookEntry.findFirst({
    where: { contestId, act: { in: ["rehearsal-started", "rehearsal-ended"] } },
    orderBy: { sequence: "desc" },
  });

/** The range is put cold and machines made safe by whoever plays it; a hold stands until it is lifted. */
export async function endRehearsal(call: Call, slug: string): Promise<Reply<Rehearsal>> {
  const { db } = call;
  const contest = await contestBySlug(db, slug);
  mustBeAllowed(call.actor, ACT, contest.id);
  const request = { act: "end-rehearsal", contest: contest.id };
  const written = await committed(
    call,
    contest.id,
    request,
    async (tx, book) => {
      const last = await newestOf(tx, contest.id);
      if (last?.act !== "rehearsal-started") throw conflict("not-playing", "No rehearsal is played now.");
      await book.append("rehearsal-ended", last.subjectId, { why: "called off" });
      return { id: last.subjectId };
    },
    { status: 200 },
  );
  tell(db, contest.id, { rehearsal: null });
  await tellNow(db, contest);
  return { ...written, answer: await readRehearsal(db, call.actor, slug) };
}

async function mustBePlayable(db: Database, contest: ContestRow): Promise<void> {
  if (!contest.demo)
    throw conflict(
      "not-the-demo",
      "A rehearsal is played in the demo contest alone, so that it touches nothing of a real day. Open the demo contest, make a badge there for everybody who practises, and start it there.",
    );
  if (playedNow(contest.id, Date.now()) !== null)
    throw conflict("playing", "A rehearsal is being played already: end that one first.");
  if ((await db.siteFeature.count({ where: { contestId: contest.id, kind: "post", retired: false } })) === 0)
    throw conflict("no-post", "No post is laid out: draw at least one among the site features.");
}

/** Those who throw next first; who has no turn left comes after them. */
async function machinesInOrder(db: Database, contest: ContestRow, facts: RangeFacts): Promise<string[]> {
  const { turns } = await firingOrder(db, contest.slug);
  const placed = new Set(facts.machines.map(({ id }) => id));
  const next = turns.filter(({ state }) => state === "to-throw").map(({ machineId }) => machineId);
  const all = [...new Set([...next, ...placed])].filter((id) => placed.has(id));
  if (all.length === 0) throw conflict("no-machine", "No machine is declared and placed: enter one first.");
  return all;
}

function mustBeIdle(state: RangeState, { machines }: RangeFacts): void {
  const because = [
    ...(state.hot ? ["The range is hot: put it cold."] : []),
    ...(state.holds.length > 0 ? ["A hold stands: lift it first."] : []),
    ...(state.out.length > 0 ? ["Somebody is tagged out: tag everybody in."] : []),
    ...machines.flatMap(({ id, name }) =>
      machineOf(state, id).state === "safe" ? [] : [`${name} is not made safe: enter it on the crew’s page.`],
    ),
  ];
  if (because.length > 0) throw conflict("range", because.join(" "), { because });
}
