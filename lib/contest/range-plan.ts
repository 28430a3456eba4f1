/** What the range plan draws and says, at one entry of the scorebook. Open to all, like the map. */
import type { PlanMachine, RangePlan, Zones } from "../api/contracts";
import type { Database } from "../db";
import { barriersOf } from "./barriers";
import { contestSummary } from "./contests";
import { featureInfo } from "./features";
import { contestBySlug } from "./find";
import { firingPointInfo } from "./layout";
import { scorebookHead } from "./scorebook";
import { contestZones } from "./zones";

export type ScorebookHead = RangePlan["scorebook"];

/** How often reading begins anew because somebody changed something meanwhile. */
const TRIES = 4;

/**
 * Reads all of it as it stood at one entry: whatever changes it makes another. After a few tries the newest is given
 * with the entry before it; who freezes compares that once more.
 */
export async function steadily<T>(
  db: Database,
  contestId: string,
  read: (head: ScorebookHead) => Promise<T>,
): Promise<T> {
  for (let tries = 1; ; tries++) {
    const before = await scorebookHead(db, contestId);
    const found = await read(before);
    if (tries === TRIES || (await scorebookHead(db, contestId)).sequence === before.sequence) return found;
  }
}

export async function rangePlanOf(db: Database, slug: string): Promise<RangePlan> {
  const { id } = await contestBySlug(db, slug);
  return steadily(db, id, (head) => readRangePlan(db, slug, head));
}

export async function readRangePlan(
  db: Database,
  slug: string,
  scorebook: ScorebookHead,
): Promise<RangePlan> {
  const contest = await contestBySlug(db, slug);
  const where = { contestId: contest.id };
  const zones = await contestZones(db, slug);
  const [features, firingPoints, controlPoints, machines, barriers] = await Promise.all([
    db.siteFeature.findMany({ where: { ...where, retired: false }, orderBy: { name: "asc" } }),
    db.firingPoint.findMany({ where: { ...where, retired: false }, orderBy: { number: "asc" } }),
    db.controlPoint.findMany({ where: { ...where, retired: false }, orderBy: { name: "asc" } }),
    db.machine.findMany({
      where: { ...where, retired: false },
      orderBy: { name: "asc" },
      include: { entrant: true },
    }),
    barriersOf(db, contest.id, { retired: false }),
  ]);
  const placed = new Set(zones.features.map(({ id }) => id));
  const { id: _, rounds: __, ...summary } = contestSummary(contest);
  return {
    contest: summary,
    features: features.map(featureInfo),
    barriers,
    firingPoints: firingPoints.map(firingPointInfo),
    controlPoints: controlPoints.map(({ id, name, latitude, longitude, height, accuracy }) => ({
      id,
      name,
      latitude,
      longitude,
      height,
      accuracy,
    })),
    machines: zones.features.map(planMachine),
    unplaced: machines
      .filter(({ id }) => !placed.has(id))
      .map(({ id, name, entrant }) => ({ id, name, entrantName: entrant.name })),
    union: zones.union,
    policy: zones.policy,
    air: zones.air,
    scorebook,
    caution: zones.caution,
  };
}

/** Without what the paper does not say: the dimensions' revision is told, the overlaps are not drawn. */
function planMachine({ geometry, properties }: Zones["features"][number]): PlanMachine {
  const { machineId, machineName, entrantId: _, accuracy: __, conflicts, ...zone } = properties;
  return {
    ...zone,
    id: machineId,
    name: machineName,
    conflicts: conflicts
      .filter(({ inConflict, agreed }) => inConflict || agreed)
      .map(({ overlap: _, inConflict: __, ...conflict }) => conflict),
    zone: geometry,
  };
}
