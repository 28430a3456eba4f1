/**
 * A place where something came down, held against what the machine's hazard sheet foresaw: its zone as it was drawn, and the
 * farthest of the throws or failures that the sheet has. Pure.
 */
import type { PieceRequest } from "../../api/contracts";
import { ellipseOf, type Fix, type Measured, measure, type Peg, roughPointOf } from "../../survey";
import type { HazardSheet } from "../../throw";
import { type InZone, pieceInZone, type StoodZone } from "../../zones";
import { firingPointOf, type Place } from "../judging";

export interface StoodPlace extends Place {
  bearing: number;
}

/** What pieces are measured from and held against. */
export interface Scene {
  place: StoodPlace;
  /** Null where nothing had been computed. */
  sheet: Pick<HazardSheet, "worst" | "faults" | "exclusion"> | null;
  pegs: Record<string, Peg>;
  /** Degrees, east positive. */
  declination: number;
}

export interface Compared {
  latitude: number | null;
  longitude: number | null;
  uncertainty: number | null;
  zone: InZone | null;
  outside: boolean;
  foreseen: number | null;
  beyondModel: boolean;
  warnings: string[];
}

/** As replay takes it at least, m. */
const LEAST_UNCERTAINTY = 0.05;

type Thing = Pick<PieceRequest, "found" | "place">;

export function comparePiece(thing: Thing, fix: Fix, scene: Scene): Compared {
  const { located, warnings } = locatedIn(fix, scene);
  const texts = warnings.map(({ text }) => text);
  // Where nobody can tell, it counts as outside.
  const nothing = { zone: null, outside: true, foreseen: null, beyondModel: false, warnings: texts };
  if (!located) return { latitude: null, longitude: null, uncertainty: null, ...nothing };
  const { latitude, longitude } = located.point;
  // Seen from the firing point or on the ground, whichever is known less well.
  const covariances = [located.covariance, roughPointOf(located).covariance];
  const uncertainty = Math.max(LEAST_UNCERTAINTY, ...covariances.map((each) => ellipseOf(each).major));
  if (!scene.sheet) return { latitude, longitude, uncertainty, ...nothing };
  const zone = pieceInZone(zoneOf(scene.place, scene.sheet), located.point, uncertainty);
  const foreseen = foreseenFor(thing, scene.sheet, zone.azimuth);
  const outside = zone.verdict !== "inside";
  return {
    latitude,
    longitude,
    uncertainty,
    zone,
    outside,
    foreseen,
    beyondModel: zone.verdict === "outside" || (foreseen !== null && zone.distance > foreseen),
    warnings: texts,
  };
}

function locatedIn(fix: Fix, { place, pegs, declination }: Scene): Measured {
  return measure(fix, { firingPoint: firingPointOf(place), pegs, declination, centreline: place.bearing });
}

export const zoneOf = (
  { latitude, longitude, height, accuracy, bearing }: StoodPlace,
  { exclusion }: Pick<HazardSheet, "exclusion">,
): StoodZone => ({
  origin: { latitude, longitude },
  height,
  accuracy,
  bearing,
  reach: exclusion.reach,
});

/**
 * The farthest that the sheet foresaw for such a thing ahead, or behind: a first impact of the worst throw, or where a piece
 * of a failure strikes or comes to rest. Null where it says nothing: how far a thrown projectile rolls on stands in no sheet.
 */
function foreseenFor({ found, place }: Thing, sheet: NonNullable<Scene["sheet"]>, azimuth: number) {
  const way = Math.abs(azimuth) <= 90 ? "forward" : "backward";
  const thrown = place === "impact" ? sheet.worst[way].distance : null;
  const pieces = (sheet.faults ?? []).map((fault) => {
    const reach = fault[place === "impact" ? "reach" : "rest"];
    return fault.allRound
      ? Math.max(reach.forward, reach.backward, reach.side)
      : Math.max(reach[way], reach.side);
  });
  const broken = pieces.length > 0 ? Math.max(...pieces) : null;
  if (found === "machine") return broken;
  if (found === "unknown") return thrown === null ? null : Math.max(thrown, broken ?? 0);
  return thrown;
}

/** By how much the zone would have to be longer for every piece; 1 when it holds them, null when none would. */
export const factorFor = (pieces: readonly Pick<Compared, "zone">[]): number | null =>
  pieces.reduce<number | null>(
    (largest, { zone }) =>
      largest === null || zone?.factor === null ? null : Math.max(largest, zone?.factor ?? 1),
    1,
  );
