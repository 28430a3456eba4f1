/** From the sheet to the zone on the yard's map: the same outline, conflicts and lists as a contest's. Pure. */
import type { ZoneProperties, Zones } from "@/lib/api/contracts";
import { numbersOf, touchedBy } from "@/lib/contest/touched";
import {
  type ClearBearings,
  clearBearings,
  clearOn,
  cureCost,
  DIRECTIONS,
  type Direction,
  layOut,
  layZone,
  reachPolygon,
  shiftTo,
  standZone,
  turnsTo,
} from "@/lib/zones";
import type { ZoneAnswer } from "./question";
import { siteOf } from "./site";
import { standOf, type Yard } from "./yard";

/** Of the one machine that stands in a yard. */
const MACHINE = "bench";

export type YardZone = Zones["features"][number];

/** Each was held against every feature with this sheet's own reach. */
export type YardCure = { cost: number } & (
  | { kind: "turn"; turn: number; bearing: number }
  | { kind: "shift"; direction: Direction; distance: number }
);

const laid = (yard: Yard) => layOut(siteOf(yard).features, yard, yard.height ?? 0);

/** Null while nothing stands anywhere. */
export function zoneOf(
  yard: Yard,
  { sheet, given }: Pick<ZoneAnswer, "sheet" | "given">,
  named: { machine: string; revision: string; number: number },
): YardZone | null {
  const stand = standOf(yard);
  if (!stand) return null;
  const { height, accuracy, bearing } = stand;
  const geometry = reachPolygon(stand, bearing, sheet.exclusion.reach, height, accuracy);
  const site = laid(yard);
  const machine = { id: MACHINE, name: named.machine, firingPointId: stand.id };
  const properties: ZoneProperties = {
    machineId: machine.id,
    machineName: machine.name,
    kind: sheet.kind,
    entrantId: "",
    entrantNumber: 0,
    entrantName: named.revision,
    firingPointId: stand.id,
    firingPointNumber: stand.number,
    bearing,
    revision: named.number,
    state: "current",
    reason: null,
    sheetId: null,
    accuracy,
    ...numbersOf(sheet, height),
    ...touchedBy(layZone(site, geometry), machine, {
      site,
      features: new Map(yard.features.map((feature) => [feature.id, feature])),
      points: yard.firingPoints,
      machines: [machine],
    }),
    assumptions: [...given, ...sheet.assumptions],
  };
  return { type: "Feature", id: MACHINE, geometry: geometry as YardZone["geometry"], properties };
}

/** The bearings on which the zone touches nothing it must not; null where its reach holds on one bearing alone. */
export function bearingsOf(yard: Yard, { anyWay }: Pick<ZoneAnswer, "anyWay">): ClearBearings | null {
  const stand = standOf(yard);
  return stand && anyWay ? clearBearings(stand, anyWay, siteOf(yard).features) : null;
}

/** The least turns and steps aside that keep the zone off everything; cheapest first. */
export function curesOf(
  yard: Yard,
  { anyWay }: Pick<ZoneAnswer, "anyWay">,
  clear: ClearBearings,
): YardCure[] {
  const stand = standOf(yard);
  if (!stand || !anyWay) return [];
  const isClear = clearOn(laid(yard));
  const turns = turnsTo(clear.clear, stand.bearing, (bearing) => isClear(standZone(stand, bearing, anyWay)));
  // On measured ground another place has other ground, which no reach at hand knows.
  const level = yard.spotHeights.length === 0;
  const shifts = (level ? DIRECTIONS : []).flatMap((direction) => {
    const shift = shiftTo(direction, stand, stand.bearing, anyWay, isClear);
    return shift ? [{ direction, distance: shift.distance }] : [];
  });
  return [
    ...turns.map(({ turn, bearing }) => ({
      kind: "turn" as const,
      cost: cureCost("turn", turn),
      turn,
      bearing,
    })),
    ...shifts.map((shift) => ({ kind: "shift" as const, cost: cureCost("shift", shift.distance), ...shift })),
  ].sort((a, b) => a.cost - b.cost);
}
