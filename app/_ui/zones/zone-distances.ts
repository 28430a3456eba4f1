/** The distances of a zone on pages and on paper: what they contain, in words. Pure. */
import { formatQuantity, type UnitSystem } from "@/lib/units";
import { type ZoneDistances, zoneDistances } from "@/lib/zones/zone-distances";
import { otherSystem } from "../both-units";

/** The distances of a machine on paper, where its firing point stands in a list of its own. */
export const distancesOnPaper = (
  { exclusion, firingPointId }: { exclusion: Readonly<ZoneDistances> | null; firingPointId: string },
  points: readonly { id: string; accuracy: number }[],
): ZoneDistances | null =>
  exclusion && zoneDistances(exclusion, points.find(({ id }) => id === firingPointId)?.accuracy ?? 0);

/** What these distances contain. Null where the firing point is known exactly. */
export function accuracyWords(accuracy: number, system: UnitSystem): string | null {
  if (!(accuracy > 0)) return null;
  const exact = (units: UnitSystem) =>
    formatQuantity(accuracy, "distance", units, { digits: accuracy < 1 ? 2 : 1 });
  return `${exact(system)} (${exact(otherSystem(system))}) of that is how far the machine may stand from its firing point: the hazard sheet's own distances, from the machine, are shorter by as much.`;
}
