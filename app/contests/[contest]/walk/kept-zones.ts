/** The zones as this phone last got them: a reload without a network finds them again. */
import type { Zones } from "@/lib/api/contracts";

export interface WalkedMachine {
  id: string;
  machine: string;
  entrant: string;
  firingPoint: number;
  /** Null while its zone is not computed. */
  geometry: Zones["features"][number]["geometry"];
  /** Why, as a sentence; null of one that has its zone. */
  lack?: string | null;
}

export interface KeptZones {
  /** When the server gave them, ISO 8601. */
  at: string;
  machines: WalkedMachine[];
  caution: string;
}

const name = (slug: string) => `fairthrow:walk:${slug}`;

export function machinesOf(zones: Zones): WalkedMachine[] {
  const lacks = new Map(zones.without.map(({ machineId, reason }) => [machineId, reason]));
  return zones.features.map(({ id, geometry, properties }) => ({
    id,
    machine: properties.machineName,
    entrant: properties.entrantName,
    firingPoint: properties.firingPointNumber,
    geometry,
    lack: lacks.get(id) ?? null,
  }));
}

/** Storage may be forbidden or full: the page works on with what it holds. */
export function keepZones(slug: string, zones: KeptZones): void {
  try {
    localStorage.setItem(name(slug), JSON.stringify(zones));
  } catch {
    // Only a reload without a network would have needed it.
  }
}

export function keptZones(slug: string): KeptZones | null {
  try {
    const found = JSON.parse(localStorage.getItem(name(slug)) ?? "null") as KeptZones | null;
    return found && Array.isArray(found.machines) ? found : null;
  } catch {
    return null;
  }
}
