/** The firing order of one round, made by hand. */
import { roundRequest, type ShotInfo } from "../api/contracts";
import type { DatabaseTransaction } from "../db";
import { conflict, invalid, parse } from "./errors";
import { type ContestRow, contestBySlug } from "./find";
import { type Ready, readyMachines } from "./ready-machines";
import { mustBeAllowed } from "./roles";
import { newId } from "./scorebook";
import { readAs, roundsOf, shotIn, shotInfo } from "./shots";
import { type Call, committed, type Reply } from "./write";

/**
 * Makes the next round, or takes into an existing one who is missing, at its end. Without a list the order goes by
 * entrant number and starts one later every round, so that nobody is always first.
 */
export async function makeRound(
  call: Call,
  slug: string,
  body: unknown,
): Promise<Reply<{ round: number; shots: ShotInfo[] }>> {
  const { round: asked, machineIds } = parse(roundRequest, body);
  const contest = await contestBySlug(call.db, slug);
  mustBeAllowed(call.actor, "make a firing order", contest.id);
  const request = { act: "round", contest: contest.id, round: asked ?? null, machineIds: machineIds ?? null };
  return committed(call, contest.id, request, async (tx, book) => {
    const made = await roundsOf(tx, contest.id);
    const next = (made.at(-1) ?? 0) + 1;
    const round = asked ?? next;
    if (round > contest.rounds)
      throw invalid(
        "round",
        `This contest has ${contest.rounds} ${contest.rounds === 1 ? "round" : "rounds"}.`,
      );
    if (round > next) throw invalid("round", `Make round ${next} first.`);

    const machines = await orderOf(tx, contest, round, machineIds);
    const already = await tx.shot.findMany({ where: { contestId: contest.id, round } });
    const missing = machines.filter(
      (machine) => !already.some((shot) => shot.entrantId === machine.entrantId),
    );
    if (missing.length === 0)
      throw conflict(
        "nothing-to-add",
        already.length > 0
          ? `Every machine on the firing line has its shot in round ${round}.`
          : "No machine stands on the firing line with a bearing and declared dimensions. Place the machines first.",
      );
    const last = Math.max(0, ...already.map((shot) => shot.position));
    const ids: string[] = [];
    for (const [index, machine] of missing.entries()) {
      const id = newId();
      ids.push(id);
      await tx.shot.create({
        data: { id, contestId: contest.id, round, position: last + 1 + index, ...machine },
        select: { id: true },
      });
    }
    await book.append("round-made", contest.id, {
      round,
      shots: missing.map(({ machineId }, index) => ({ shot: ids[index], machine: machineId })),
    });
    const shots: ShotInfo[] = [];
    for (const id of ids) shots.push(shotInfo(await shotIn(tx, contest.id, id), readAs(contest)));
    return { round, shots };
  });
}

/** One machine of each entrant that competes, in firing order. */
async function orderOf(
  tx: DatabaseTransaction,
  contest: ContestRow,
  round: number,
  machineIds: string[] | undefined,
): Promise<Ready[]> {
  const ready = await readyMachines(tx, contest.id, machineIds);
  if (machineIds) return ready;
  const start = ready.length > 0 ? (round - 1) % ready.length : 0;
  return [...ready.slice(start), ...ready.slice(0, start)];
}

/** A day that is cut short: the last rounds go, of which nothing is entered. Answers the shots that nobody throws. */
export async function dropRounds(
  tx: DatabaseTransaction,
  contestId: string,
  last: number,
): Promise<string[]> {
  const shots = await tx.shot.findMany({
    where: { contestId, round: { gt: last } },
    orderBy: [{ round: "asc" }, { position: "asc" }],
    include: {
      _count: { select: { fixes: true, heldFixes: true, sightings: true, rulings: true, protests: true } },
    },
  });
  const entered = shots.findLast(({ _count }) => Object.values(_count).some((count) => count > 0));
  if (entered)
    throw conflict(
      "rounds-made",
      `Round ${entered.round} has entries already: give ${entered.round} rounds or more.`,
    );
  const ids = shots.map(({ id }) => id);
  await tx.turn.deleteMany({ where: { shotId: { in: ids } } });
  await tx.shot.deleteMany({ where: { id: { in: ids } } });
  return ids;
}
