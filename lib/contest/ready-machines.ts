/** Machines that could throw: declared, placed, of a team that competes. */
import type { Database, DatabaseTransaction } from "../db";
import { invalid } from "./errors";
import { withdrawn } from "./turns";

export interface Ready {
  entrantId: string;
  machineId: string;
  revisionId: string;
  firingPointId: string;
  bearing: number;
}

/**
 * One machine of each entrant, by entrant number or as listed. Throws 422 for a listed one that could not throw, and
 * where an entrant would have two.
 */
export async function readyMachines(
  db: Database | DatabaseTransaction,
  contestId: string,
  machineIds: readonly string[] | undefined,
): Promise<Ready[]> {
  const rows = await db.machine.findMany({
    where: { contestId, retired: false },
    include: { entrant: true, revisions: { orderBy: { number: "desc" }, take: 1 } },
    orderBy: [{ entrant: { number: "asc" } }, { name: "asc" }],
  });
  const out = await withdrawn(db, contestId);
  const ready = rows.flatMap((machine) => {
    const { id: machineId, entrantId, firingPointId, bearing } = machine;
    const revisionId = machine.revisions[0]?.id;
    return revisionId && firingPointId && bearing !== null && !out.has(entrantId)
      ? [{ entrantId, machineId, revisionId, firingPointId, bearing }]
      : [];
  });
  if (!machineIds) {
    mustBeOneEach(ready, "list the machines that throw in machineIds");
    return ready;
  }
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

function mustBeOneEach(machines: readonly Ready[], cure: string): void {
  const entrants = new Set(machines.map((machine) => machine.entrantId));
  if (entrants.size < machines.length)
    throw invalid(
      "machineIds",
      `An entrant has one shot a round, but two of its machines are here: ${cure}.`,
    );
}
