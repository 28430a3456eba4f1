/** Incidents in words. */
import type { IncidentInfo, IncidentPart, IncidentPieceInfo } from "@/lib/api/contracts";
import { formatQuantity, type UnitSystem } from "@/lib/units";

export const PART_WORDS: Record<IncidentPart, string> = {
  unknown: "Not known yet",
  "sling-or-cord": "Sling, rope or cord",
  "arm-or-limb": "Arm or limb",
  counterweight: "Counter\u00adweight",
  frame: "Frame, or it tipped",
  trigger: "Trigger",
  "winch-or-cable": "Winch or cable",
  chamber: "Chamber, barrel or valve",
  projectile: "The projectile",
  "nothing-broke": "Nothing broke",
};

export const HURT_WORDS = {
  nobody: "Nobody is hurt",
  somebody: "Somebody is hurt",
  unknown: "Not known whether anybody is hurt",
} as const;

export const FOUND_WORDS = {
  projectile: "The projectile, whole",
  piece: "A piece of the projectile",
  machine: "A part of the machine",
  unknown: "Nobody can tell what",
} as const;

export const PLACE_WORDS = { impact: "first impact", rest: "where it came to rest" } as const;

type Piece = Pick<IncidentPieceInfo, "zone" | "outside" | "uncertainty">;

/** "12.4 m outside the zone", with what it may be off. */
export function zoneWords({ zone, outside, uncertainty }: Piece, system: UnitSystem): string {
  const metres = (value: number) => formatQuantity(Math.abs(value), "distance", system, { digits: 1 });
  if (!zone) return outside ? "Cannot be told, so it counts as outside the zone" : "–";
  const off = uncertainty === null ? "" : ` ± ${metres(uncertainty)}`;
  if (zone.verdict === "inside") return `${metres(zone.inside)}${off} inside the zone`;
  return zone.verdict === "outside"
    ? `${metres(zone.inside)}${off} OUTSIDE the zone`
    : `${metres(zone.inside)}${off} inside: it may lie outside, and counts as OUTSIDE`;
}

/** "34.1 m ahead, 12° to the right". */
export function wayWords({ zone }: Piece, system: UnitSystem): string {
  if (!zone) return "–";
  const distance = formatQuantity(zone.distance, "distance", system, { digits: 1 });
  const degrees = Math.abs(Math.round(zone.azimuth));
  return `${distance}, ${degrees}° ${zone.azimuth < 0 ? "left" : "right"} of the bearing`;
}

export const titleOf = ({ number, machineName }: Pick<IncidentInfo, "number" | "machineName">): string =>
  `Incident ${number}: ${machineName}`;
