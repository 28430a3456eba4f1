/** How long a machine takes to re-arm and to throw, and whether it is late. */
import { type MachineTimes, machineTimesRequest } from "../api/contracts";
import type { Database } from "../db";
import { parse } from "./errors";
import { contestBySlug, machineIn } from "./find";
import { mustBeAllowed } from "./roles";
import { type Call, committed, type Reply } from "./write";

/** Times to be expected follow at once; the order itself only when it is planned anew. */
export async function setMachineTimes(
  call: Call,
  slug: string,
  machineId: string,
  body: unknown,
): Promise<Reply<MachineTimes>> {
  const asked = parse(machineTimesRequest, body);
  const contest = await contestBySlug(call.db, slug);
  const machine = await machineIn(call.db, contest.id, machineId);
  mustBeAllowed(call.actor, "say how long a machine takes", contest.id, machine.entrantId);
  return committed(
    call,
    contest.id,
    { act: "machine-times", machineId, asked },
    async (tx, book) => {
      const before = await machineIn(tx, contest.id, machineId);
      const row = await tx.machine.update({ where: { id: machineId }, data: asked });
      await book.append("machine-times-set", machineId, { from: timesOf(before), to: timesOf(row) });
      return { machineId, ...timesOf(row) };
    },
    { status: 200 },
  );
}

const timesOf = ({
  rearm,
  live,
  notBefore,
}: {
  rearm: number | null;
  live: number | null;
  notBefore: Date | null;
}) => ({ rearm, live, notBefore: notBefore?.toISOString() ?? null });

/** Of every machine for which somebody has said so. Open to all: the firing order tells as much. */
export async function machineTimes(db: Database, slug: string): Promise<MachineTimes[]> {
  const { id: contestId } = await contestBySlug(db, slug);
  const rows = await db.machine.findMany({
    where: {
      contestId,
      OR: [{ rearm: { not: null } }, { live: { not: null } }, { notBefore: { not: null } }],
    },
    select: { id: true, rearm: true, live: true, notBefore: true },
  });
  return rows.map((row) => ({ machineId: row.id, ...timesOf(row) }));
}
