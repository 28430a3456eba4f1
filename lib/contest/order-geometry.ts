/** Who stands in whose zone, as the planner of the firing order takes it. */
import type { Database } from "../db";
import type { Ready } from "./ready-machines";
import { contestZones } from "./zones";

/** By machine. It is kept with the order, so that it can be told when it no longer holds. */
export type OrderGeometry = Record<
  string,
  {
    /** Firing point, bearing and revision at which this was found. */
    at: string;
    /** Machines whose firing point lies in its zone: nobody re-arms there while it is live. */
    covers: string[];
    /** Somebody has to leave before it is raised: another crew, or a crew shelter. */
    clears: boolean;
  }
>;

export const placementOf = (at: Pick<Ready, "firingPointId" | "bearing" | "revisionId">): string =>
  `${at.firingPointId} ${at.bearing} ${at.revisionId}`;

/** A machine without a zone is taken to cover everybody, and named. */
export async function orderGeometry(
  db: Database,
  slug: string,
  ready: readonly Ready[],
): Promise<{ geometry: OrderGeometry; assumed: string[] }> {
  const { features } = await contestZones(db, slug);
  const assumed: string[] = [];
  const geometry: OrderGeometry = {};
  for (const each of ready) {
    const zone = features.find(({ id }) => id === each.machineId);
    const others = ready.filter(({ machineId }) => machineId !== each.machineId);
    const at = placementOf(each);
    if (!zone?.geometry) {
      const name = zone?.properties.machineName ?? "A machine";
      assumed.push(`${name} has no zone yet: every other crew is taken to stop re-arming for it.`);
      geometry[each.machineId] = { at, covers: others.map(({ machineId }) => machineId), clears: true };
      continue;
    }
    const { standClear } = zone.properties;
    const points = new Set(standClear.filter(({ what }) => what === "firing-point").map(({ id }) => id));
    const covers = others
      .filter(({ firingPointId }) => points.has(firingPointId) || firingPointId === each.firingPointId)
      .map(({ machineId }) => machineId);
    const shelters = standClear.some(({ kind }) => kind === "crew-shelter");
    geometry[each.machineId] = { at, covers, clears: covers.length > 0 || shelters };
  }
  return { geometry, assumed };
}
