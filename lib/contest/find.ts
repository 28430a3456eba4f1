/** Looking up by what stands in an address: a row, or the refusal that says it is not there. */
import type { Database, DatabaseTransaction } from "../db";
import { airSchema, policySchema } from "../throw";
import { notFound } from "./errors";

type Reader = Database | DatabaseTransaction;

export async function contestBySlug(db: Reader, slug: string) {
  const contest = await db.contest.findUnique({ where: { slug } });
  if (!contest) throw notFound("contest");
  return contest;
}
export type ContestRow = Awaited<ReturnType<typeof contestBySlug>>;

export const policyOf = (contest: Pick<ContestRow, "policy">) =>
  policySchema.parse(JSON.parse(contest.policy));
export const airOf = (contest: Pick<ContestRow, "air">) => airSchema.parse(JSON.parse(contest.air));

/** With the newest revision alone. */
const WITH_REVISION = {
  entrant: true,
  firingPoint: true,
  revisions: { orderBy: { number: "desc" }, take: 1 },
} as const;

export async function machineIn(db: Reader, contestId: string, id: string) {
  const machine = await db.machine.findFirst({ where: { id, contestId }, include: WITH_REVISION });
  if (!machine) throw notFound("machine");
  return machine;
}
export type MachineRow = Awaited<ReturnType<typeof machineIn>>;

/** By entrant number. */
export const machinesWhere = (db: Reader, where: MachinesOf): Promise<MachineRow[]> =>
  db.machine.findMany({
    where,
    include: WITH_REVISION,
    orderBy: [{ entrant: { number: "asc" } }, { name: "asc" }],
  });

interface MachinesOf {
  contestId: string;
  id?: { in: string[] };
  retired?: false;
  /** Where both are, it stands somewhere and aims. */
  firingPointId?: { not: null };
  bearing?: { not: null };
}

export async function firingPointIn(db: Reader, contestId: string, id: string) {
  const found = await db.firingPoint.findFirst({ where: { id, contestId } });
  if (!found) throw notFound("firing point");
  return found;
}

export async function featureIn(db: Reader, contestId: string, id: string) {
  const found = await db.siteFeature.findFirst({ where: { id, contestId } });
  if (!found) throw notFound("site feature");
  return found;
}

export async function mustHaveShot(db: Reader, contestId: string, id: string): Promise<void> {
  if ((await db.shot.count({ where: { id, contestId } })) === 0) throw notFound("shot");
}
