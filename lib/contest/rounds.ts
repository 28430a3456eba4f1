/** The firing order of a round. */
import { roundRequest, type ShotInfo } from "../api/contracts";
import type { DatabaseTransaction } from "../db";
import { conflict, invalid, parse } from "./errors";
import { type ContestRow, contestBySlug } from "./find";
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

interface Ready {
  entrantId: string;
  machineId: string;
  revisionId: string;
  firingPointId: string;
  bearing: number;
}

/** One machine of each entrant that competes, in firing order. */
async function orderOf(
  tx: DatabaseTransaction,
  contest: ContestRow,
  round: number,
  machineIds: string[] | undefined,
): Promise<Ready[]> {
  const contestId = contest.id;
  const rows = await tx.machine.findMany({
    where: { contestId, retired: false },
    include: { entrant: true, revisions: { orderBy: { number: "desc" }, take: 1 } },
    orderBy: [{ entrant: { number: "asc" } }, { name: "asc" }],
  });
  const out = await withdrawn(tx, contestId);
  const ready = rows.flatMap((machine) => {
    const { id: machineId, entrantId, firingPointId, bearing } = machine;
    const revisionId = machine.revisions[0]?.id;
    return revisionId && firingPointId && bearing !== null && !out.has(entrantId)
      ? [{ entrantId, machineId, revisionId, firingPointId, bearing }]
      : [];
  });

  if (machineIds) {
    const chosen = machineIds.map((id, index) => {
      const found = ready.find((machine) => machine.machineId === id);
      if (found) return found;
      const known = rows.find((machine) => machine.id === id);
      throw invalid(
        `machineIds.${index}`,
        !known
          ? "No machine of this contest has this id."
          : out.has(known.entrantId)
            ? `${known.entrant.name} does not compete, by a ruling.`
            : `${known.name} needs declared dimensions, a firing point and a bearing first.`,
      );
    });
    mustBeOneEach(chosen, "name one of them");
    return chosen;
  }
  mustBeOneEach(ready, "list the machines of this round in machineIds");
  const start = ready.length > 0 ? (round - 1) % ready.length : 0;
  return [...ready.slice(start), ...ready.slice(0, start)];
}

function mustBeOneEach(machines: readonly Ready[], cure: string): void {
  const entrants = new Set(machines.map((machine) => machine.entrantId));
  if (entrants.size < machines.length)
    throw invalid(
      "machineIds",
      `An entrant has one shot a round, but two of its machines are here: ${cure}.`,
    );
}

/** Entrants that a ruling took out: the newest of each counts. */
async function withdrawn(tx: DatabaseTransaction, contestId: string): Promise<Set<string>> {
  const rulings = await tx.ruling.findMany({
    where: { contestId, entrantId: { not: null } },
    orderBy: { sequence: "asc" },
  });
  const newest = new Map(rulings.map((ruling) => [ruling.entrantId ?? "", ruling.decision]));
  return new Set(
    [...newest].filter(([, decision]) => decision !== "competing").map(([entrantId]) => entrantId),
  );
}
