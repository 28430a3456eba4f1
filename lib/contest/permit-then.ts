/** Whether a permit stood when something was thrown. A shot without one is kept and flagged; an official rules on it. */
import type { FixAnswer } from "../api/contracts";
import { type DatabaseTransaction, rowsOf } from "../db";
import { fallsOf, type PermitLimits } from "../inspection";
import { NO_PERMIT } from "./judging";
import { concerning, toldBeforeEntry } from "./permit-history";

interface PermitRow {
  sequence: number;
  machineId: string;
  revisionId: string;
  firingPointId: string;
  bearing: number;
  sheetId: string;
  limits: string;
  createdAt: Date;
}

/**
 * The flag of an entry of a machine whose newest permit had fallen by then, or that had none. Only from the contest's
 * first permit on. Whether somebody had read the wind in time is not asked: that is for before the throw.
 */
export async function withoutPermit(
  tx: DatabaseTransaction,
  contestId: string,
  machineId: string,
  at: Date,
): Promise<FixAnswer["flags"]> {
  const [first] = await rowsOf<{ createdAt: Date }>(
    tx,
    `SELECT "createdAt" FROM "Permit" WHERE "contestId" = ? AND "number" = 1`,
    contestId,
  );
  if (!first || first.createdAt > at) return [];
  const permits = await rowsOf<PermitRow>(
    tx,
    `SELECT * FROM "Permit" WHERE "machineId" = ? ORDER BY "sequence" DESC`,
    machineId,
  );
  const permit = permits.find(({ createdAt }) => createdAt <= at);
  const why = permit ? await fellBefore(tx, contestId, permit, at) : "None had been signed for it.";
  if (why === null) return [];
  return [
    {
      code: NO_PERMIT,
      text: `No firing permit stood for this machine when it threw. ${why} The throw is kept; it counts only once an official has ruled that it stands, with the reason.`,
    },
  ];
}

async function fellBefore(
  tx: DatabaseTransaction,
  contestId: string,
  permit: PermitRow,
  at: Date,
): Promise<string | null> {
  const told = await toldBeforeEntry(tx, contestId, permit.sequence);
  const limits = JSON.parse(permit.limits) as PermitLimits;
  const [fall] = fallsOf(
    { ...permit, limits, at: permit.createdAt },
    concerning(told, permit).filter((happened) => happened.at <= at),
    { ...permit, retired: false, winds: [limits.wind], windWasRead: true, markPending: false },
  );
  return fall?.text ?? null;
}
