/** A firing point and a bearing for every machine, so that every zone is clear: or the machines for which there is none. */
import { normalBearing, turnOf } from "../earth";
import {
  type BearingArc,
  blockers,
  exactTest,
  freeBearings,
  type Stand,
  surroundings,
} from "./clear-bearings";
import { cheapest, shortage } from "./hall";
import type { ZoneFeature } from "./site";

export interface MachineToPlace {
  id: string;
  /** As `reachPolygon` takes it. */
  reach: readonly number[];
  /** Where it stands or wishes to; null where nothing is wished. */
  wished: { pointId: string | null; bearing: number } | null;
  /** It stays at the wished point on the wished bearing, whatever the plan. */
  pinned?: boolean | undefined;
}

export interface PlacePoint extends Stand {
  id: string;
}

export interface Placement {
  machineId: string;
  pointId: string;
  bearing: number;
}

/** Machines that cannot all be placed, the firing points that some of them could have, and why no others. */
export interface Impossible {
  machineIds: string[];
  pointIds: string[];
  /** For each of the machines at each firing point. */
  why: {
    machineId: string;
    pointId: string;
    /** Whether it has a clear bearing there. */
    clear: boolean;
    /** Features that block some bearing there. */
    by: string[];
    /** The pinned machine that keeps the point. */
    heldBy: string | null;
  }[];
}

export type Placing =
  | { placements: Placement[]; impossible: null }
  | { placements: null; impossible: Impossible };

/** A machine at another firing point than the wished one costs more than any turn of all. */
const MOVED = 1e6;

const turnBetween = (first: number, second: number) => Math.abs(turnOf(first, second));

/** The bearing of clear arcs nearest to the wished one. */
function nearestClear(arcs: readonly BearingArc[], wished: number): number | null {
  let best: number | null = null;
  for (const { from, to } of arcs) {
    const inside = to - from === 360 || normalBearing(wished - from) <= normalBearing(to - from);
    for (const bearing of inside ? [normalBearing(wished)] : [from, to])
      if (best === null || turnBetween(bearing, wished) < turnBetween(best, wished)) best = bearing;
  }
  return best;
}

/**
 * One machine to a firing point, each on a bearing on which its zone is clear (`clearBearings`); pinned machines stay.
 * As few as can be leave their wished firing points, and then the turns from the wished bearings add up to the least.
 * When it cannot be done: a set of machines that cannot be placed together, as small as `shortage` finds. A pinned
 * machine whose own place is not clear is such a set by itself.
 */
export function place(
  machines: readonly MachineToPlace[],
  points: readonly PlacePoint[],
  features: readonly ZoneFeature[],
): Placing {
  const reaches = machines.map(({ reach }) => reach);
  const around = points.map((point) => surroundings(point, features, reaches));
  const pinnedAt = new Map<string, string>();
  for (const { id, wished, pinned } of machines)
    if (pinned && wished?.pointId && !pinnedAt.has(wished.pointId)) pinnedAt.set(wished.pointId, id);

  const bearingAt = ({ id, reach, wished, pinned }: MachineToPlace, at: number): number | null => {
    const point = points[at];
    if (pinned && wished) {
      const clear = wished.pointId === point.id && exactTest(around[at], reach)(wished.bearing);
      return clear ? wished.bearing : null;
    }
    const held = pinnedAt.get(point.id) ?? id;
    if (held !== id) return null;
    return nearestClear(freeBearings(around[at], reach).arcs(), wished?.bearing ?? 0);
  };
  const bearings = machines.map((machine) => points.map((_, at) => bearingAt(machine, at)));
  const choices = bearings.map((row) => row.flatMap((bearing, at) => (bearing === null ? [] : [at])));

  const short = shortage(choices);
  if (short) {
    const shared = [...new Set(short.flatMap((index) => choices[index]))].sort((a, b) => a - b);
    return {
      placements: null,
      impossible: {
        machineIds: short.map((index) => machines[index].id),
        pointIds: shared.map((at) => points[at].id),
        why: short.flatMap((index) =>
          points.map((point, at) => {
            const { id } = machines[index];
            const held = pinnedAt.get(point.id) ?? null;
            return {
              machineId: id,
              pointId: point.id,
              clear: bearings[index][at] !== null,
              by: blockers(around[at], reaches[index]).map((each) => each.id),
              heldBy: held === id ? null : held,
            };
          }),
        ),
      },
    };
  }

  const costs = machines.map(({ wished }, index) =>
    points.map((point, at) => {
      const bearing = bearings[index][at];
      if (bearing === null) return Number.POSITIVE_INFINITY;
      const moved = wished?.pointId && wished.pointId !== point.id ? MOVED : 0;
      return moved + turnBetween(bearing, wished?.bearing ?? bearing);
    }),
  );
  return {
    impossible: null,
    placements: cheapest(costs).map((at, index) => ({
      machineId: machines[index].id,
      pointId: points[at].id,
      bearing: bearings[index][at] as number,
    })),
  };
}
