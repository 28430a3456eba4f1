/** What a zone touches and who stands clear of it, with their names: for maps and lists. Pure. */
import type { ZoneProperties } from "../api/contracts";
import type { GeoPoint } from "../earth";
import type { HazardSheet } from "../throw";
import { type Conflict, conflictsOn, type LaidZone, type Site, standClear } from "../zones";

/** What the zones of a site are held against. */
export interface Around {
  site: Site;
  features: ReadonlyMap<string, { name: string; kind: ZoneProperties["conflicts"][number]["kind"] }>;
  points: readonly (GeoPoint & { id: string; number: number; name: string; accuracy: number })[];
  machines: readonly { id: string; name: string; firingPointId: string | null }[];
}

/** What a map says of a sheet. `height`: of the ground where the machine stands, m above the ellipsoid. */
export const numbersOf = (sheet: HazardSheet | null, height: number) => ({
  nominal: sheet?.nominal?.distance ?? null,
  worst: sheet && { forward: sheet.worst.forward.distance, backward: sheet.worst.backward.distance },
  exclusion: sheet && {
    forward: sheet.exclusion.forward,
    backward: sheet.exclusion.backward,
    side: sheet.exclusion.side,
  },
  apex: sheet?.apex ?? null,
  top: sheet && sheet.apex + height,
  warnings: sheet?.warnings ?? [],
  notModelled: sheet?.notModelled ?? [],
});

/** So many features that a zone does nothing to are told with their distances, the nearest. */
const NEAREST = 25;

/** Every feature that a zone touches, comes too near to or is agreed about, and the nearest of the others. */
function worthTelling(found: readonly Conflict[]): Conflict[] {
  const matters = ({ touches, inConflict, agreed }: Conflict) => touches || inConflict || agreed !== null;
  const others = found.filter((each) => !matters(each)).sort((a, b) => a.distance - b.distance);
  return [...found.filter(matters), ...others.slice(0, NEAREST)];
}

/** Those against the rule first, then the nearest. And who stands clear, the deepest first. */
export function touchedBy(
  zone: LaidZone,
  machine: { id: string; firingPointId: string | null },
  { site, features, points, machines }: Around,
): Pick<ZoneProperties, "conflicts" | "standClear"> {
  const all = conflictsOn(site, zone);
  const onPoint = (pointId: string) =>
    machines
      .filter(({ id, firingPointId }) => firingPointId === pointId && id !== machine.id)
      .map(({ id, name }) => ({ machineId: id, machineName: name }));
  // Its own crew has its shelter; another machine's crew on the same firing point has to go.
  const crews = points.filter(({ id }) => id !== machine.firingPointId || onPoint(id).length > 0);
  const nameOf = (id: string) => features.get(id)?.name ?? "";
  const pointName = (id: string) => {
    const point = points.find((each) => each.id === id);
    return point ? `Firing point ${point.number} ${point.name}`.trim() : "";
  };
  return {
    conflicts: worthTelling(all)
      .map((each) => ({
        ...each,
        name: nameOf(each.featureId),
        overlap: each.overlap as ZoneProperties["conflicts"][number]["overlap"],
      }))
      .sort((a, b) => Number(b.inConflict) - Number(a.inConflict) || a.distance - b.distance),
    standClear: standClear(site, zone, all, crews)
      .map((each) =>
        each.what === "firing-point"
          ? { ...each, kind: null, name: pointName(each.id), machines: onPoint(each.id) }
          : { ...each, kind: features.get(each.id)?.kind ?? null, name: nameOf(each.id), machines: [] },
      )
      .sort((a, b) => b.depth - a.depth),
  };
}
