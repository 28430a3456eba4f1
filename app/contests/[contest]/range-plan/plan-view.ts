/** From ground to paper: what of the range plan is shown, how much ground that is, and where each point comes to lie. */
import type { PlanMachine, RangePlan } from "@/lib/api/contracts";
import { localPlane } from "@/lib/earth";
import type { UnitSystem } from "@/lib/units";
import { linesOf } from "@/lib/zones/lines";
import { largestScale, type Size } from "./plan-scale";

export type Place = readonly [longitude: number, latitude: number];

/** Metres east and north of the contest's middle. */
interface Extent {
  west: number;
  south: number;
  east: number;
  north: number;
}

export interface PlanView {
  map: Size;
  scale: number;
  /** Whether all that is drawn lies on the sheet. */
  whole: boolean;
  /** mm from the map's upper left corner. */
  toPaper: (place: Place) => { x: number; y: number };
  /** Longitude and latitude of a place on the map. */
  toPlace: (x: number, y: number) => Place;
  /** Of the map's window. */
  ground: Extent;
}

/** The ground that the plan with these machines takes; null when there is nothing to draw. */
export function groundOf(plan: RangePlan, machines: readonly PlanMachine[]): Extent | null {
  const plane = localPlane(plan.contest, plan.contest.height);
  const places: Place[] = [
    ...plan.features.flatMap(({ geometry }) => linesOf(geometry).flat()),
    ...machines.flatMap(({ zone }) => zone?.coordinates.flat() ?? []),
    ...[...plan.firingPoints, ...plan.controlPoints].map(
      ({ longitude, latitude }): Place => [longitude, latitude],
    ),
  ];
  if (places.length === 0) return null;
  const points = places.map(([longitude, latitude]) => plane.toPlane({ longitude, latitude }));
  const ground = { west: Infinity, south: Infinity, east: -Infinity, north: -Infinity };
  for (const { east, north } of points) {
    ground.west = Math.min(ground.west, east);
    ground.east = Math.max(ground.east, east);
    ground.south = Math.min(ground.south, north);
    ground.north = Math.max(ground.north, north);
  }
  return ground;
}

export const sizeOf = ({ west, east, south, north }: Extent): Size => ({
  width: east - west,
  height: north - south,
});

/** @param scale 1:n; the largest round one that fits when null */
export function planView(
  plan: RangePlan,
  extent: Extent,
  map: Size,
  scale: number | null,
  system: UnitSystem,
): PlanView {
  const plane = localPlane(plan.contest, plan.contest.height);
  const n = scale ?? largestScale(sizeOf(extent), map, system);
  const middle = { east: (extent.west + extent.east) / 2, north: (extent.south + extent.north) / 2 };
  const metre = 1000 / n; // mm
  const half = { width: map.width / metre / 2, height: map.height / metre / 2 };
  const ground = {
    west: middle.east - half.width,
    east: middle.east + half.width,
    south: middle.north - half.height,
    north: middle.north + half.height,
  };
  return {
    map,
    scale: n,
    whole:
      extent.west >= ground.west &&
      extent.east <= ground.east &&
      extent.south >= ground.south &&
      extent.north <= ground.north,
    ground,
    toPaper([longitude, latitude]) {
      const { east, north } = plane.toPlane({ longitude, latitude });
      return { x: (east - ground.west) * metre, y: (ground.north - north) * metre };
    },
    toPlace(x, y) {
      const { longitude, latitude } = plane.toPoint({
        east: ground.west + x / metre,
        north: ground.north - y / metre,
      });
      return [longitude, latitude];
    },
  };
}
