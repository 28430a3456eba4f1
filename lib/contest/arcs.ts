/** Clear bearings of one machine at one firing point. */
import { clearOn, type Site, standZone } from "../zones";
import type { Stand } from "../zones/clear-bearings";

export interface Arcs {
  clear: { from: number; to: number }[];
  blocked: { from: number; to: number; featureIds: string[] }[];
}

export function arcsAt(site: Site, stand: Stand, reach: readonly number[]): Arcs {
  const isClear = clearOn(site);
  const arcs: Arcs = { clear: [], blocked: [] };
  for (let bearing = 0; bearing < 360; bearing++) {
    if (!isClear(standZone(stand, bearing, reach))) continue;
    const last = arcs.clear.at(-1);
    if (last?.to === bearing - 1) last.to = bearing;
    else arcs.clear.push({ from: bearing, to: bearing });
  }
  return arcs;
}
