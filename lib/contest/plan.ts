/** A plan that gives every machine a firing point and a clear bearing, or says who cannot be placed together and why. */
import { type Plan, planQuery } from "../api/contracts";
import type { Database } from "../db";
import { planeBearing } from "../earth";
import { type Declaration, declarationSchema } from "../throw";
import { broken, type MachineToPlace, type PlacePoint, type Placing, standZone } from "../zones";
import { parse } from "./errors";
import { contestBySlug } from "./find";
import { blockersOf } from "./fit";
import { hazardQueue } from "./hazard-queue";
import { type Asker, mustBeAllowed } from "./roles";
import {
  allMachines,
  type Ground,
  groundOf,
  mustBeWanted,
  type Placed,
  type PointRow,
  reachAnyWay,
} from "./stands";

/** Bearings are clear by quarter degrees, and so wished by quarter degrees. */
const quarter = (bearing: number) => (Math.round(bearing * 4) / 4) % 360;

/** A firing point that holds several machines in turn is so many points to the plan. */
const slotOf = (pointId: string, slot: number) => `${pointId} ${slot}`;
const pointOf = (slotId: string) => slotId.split(" ")[0] as string;

interface Options {
  /** Called with rising shares of the work, 0 to 1. */
  onProgress?: (done: number) => void;
  signal?: AbortSignal | undefined;
}

/**
 * As few as can be leave their firing points, and the turns are the least; pinned machines stay. Changes nothing.
 * Throws 503 when too many ask.
 */
export async function placingPlan(
  db: Database,
  actor: Asker,
  slug: string,
  query: unknown,
  { onProgress = () => {}, signal }: Options = {},
): Promise<Plan> {
  const { each, bearing } = parse(planQuery, query);
  const contest = await contestBySlug(db, slug);
  mustBeAllowed(actor, "place a machine", contest.id);
  const ground = await groundOf(db, contest);
  const all = await allMachines(db, contest, ground.given);
  const points = await db.firingPoint.findMany({
    where: { contestId: contest.id, retired: false },
    orderBy: { number: "asc" },
  });
  const [ready, left] = [all.filter(({ sheet }) => sheet.sheet), all.filter(({ sheet }) => !sheet.sheet)];
  const wished = bearing ?? meanBearing(all.flatMap(({ place }) => place?.bearing ?? []));
  const machines: MachineToPlace[] = [];
  const taken = new Map<string, number>();
  // Pinned machines have the first choice of the places at their point.
  const ordered = ready.toSorted((a, b) => Number(b.machine.pinned) - Number(a.machine.pinned));
  for (const [index, { machine, place, sheet }] of ordered.entries()) {
    mustBeWanted(signal);
    const [revision] = machine.revisions;
    if (!sheet.sheet || !revision) continue;
    const declaration = declarationSchema.parse(JSON.parse(revision.declared)) as Declaration;
    const pinned = machine.pinned && place !== null;
    const at = { db, contest, revision, declaration, sheet: sheet.sheet, ...ground };
    const slot = place ? (taken.get(place.point.id) ?? 0) : 0;
    if (place) taken.set(place.point.id, slot + 1);
    machines.push({
      id: machine.id,
      reach: pinned || points.length === 0 ? sheet.sheet.exclusion.reach : await reachAnyWay(at, points),
      wished: {
        pointId: place && slotOf(place.point.id, pinned ? Math.min(slot, each - 1) : slot),
        bearing: !place ? wished : pinned ? place.bearing : quarter(place.bearing),
      },
      pinned,
    });
    onProgress((0.9 * (index + 1)) / ordered.length);
  }
  const slots: PlacePoint[] = points.flatMap((point) =>
    Array.from({ length: each }, (_, slot) => ({ ...point, id: slotOf(point.id, slot) })),
  );
  const placing = await hazardQueue().place(machines, slots, ground.features, "trial");
  const result = placing.placements
    ? { placements: placementsOf(placing.placements, ordered, points, ground), impossible: null }
    : { placements: [], impossible: impossibleOf(placing.impossible, ground) };
  return {
    found: placing.placements !== null,
    ...result,
    left: left.map(({ machine, sheet }) => ({
      machineId: machine.id,
      reason: sheet.reason ?? "Its hazard sheet is being computed. Ask again in some seconds.",
    })),
  };
}

/** Of directions: the one of their sum; north of none. */
function meanBearing(bearings: readonly number[]): number {
  const radians = bearings.map((bearing) => (bearing * Math.PI) / 180);
  const east = radians.reduce((sum, angle) => sum + Math.sin(angle), 0);
  const north = radians.reduce((sum, angle) => sum + Math.cos(angle), 0);
  return quarter(planeBearing({ east, north }));
}

function placementsOf(
  found: NonNullable<Placing["placements"]>,
  machines: readonly Placed[],
  points: readonly PointRow[],
  ground: Ground,
): Plan["placements"] {
  return machines.map(({ machine, place, sheet }) => {
    const to = found.find(({ machineId }) => machineId === machine.id) as (typeof found)[number];
    const point = points.find(({ id }) => id === pointOf(to.pointId)) as PointRow;
    const from = place && { firingPointId: place.point.id, bearing: place.bearing };
    // A bearing between two quarter degrees that is clear itself is left as it is.
    const stays =
      from?.firingPointId === point.id &&
      to.bearing === quarter(from.bearing) &&
      broken(ground.site, standZone(point, from.bearing, sheet.sheet?.exclusion.reach ?? [])).length === 0;
    const bearing = stays && from ? from.bearing : to.bearing;
    return {
      machineId: machine.id,
      from,
      to: { firingPointId: point.id, bearing },
      pinned: machine.pinned,
      changed: from?.firingPointId !== point.id || from.bearing !== bearing,
    };
  });
}

function impossibleOf(
  { machineIds, pointIds, why }: NonNullable<Placing["impossible"]>,
  { features }: Ground,
): Plan["impossible"] {
  const rows = new Map<string, NonNullable<Plan["impossible"]>["why"][number]>();
  for (const { machineId, pointId, clear, by, heldBy } of why) {
    const firingPointId = pointOf(pointId);
    const key = `${machineId} ${firingPointId}`;
    const known = rows.get(key);
    // Of several places at one point any that is free will do.
    rows.set(key, {
      machineId,
      firingPointId,
      clear: clear || (known?.clear ?? false),
      blockers: blockersOf(
        by.map((featureId) => ({ featureId })),
        features,
      ),
      heldBy: known && known.heldBy === null ? null : heldBy,
    });
  }
  return { machineIds, firingPointIds: [...new Set(pointIds.map(pointOf))], why: [...rows.values()] };
}
