/** Barriers that the safety officer signed for, and how each stands to a machine. */
import type { BarrierInfo } from "../api/contracts";
import type { Database } from "../db";
import { type GeoPoint, localPlane } from "../earth";
import type { Barrier } from "../throw";

type BarrierRow = NonNullable<Awaited<ReturnType<Database["barrier"]["findFirst"]>>>;

export function barrierInfo(row: BarrierRow & { badge: { label: string } }): BarrierInfo {
  const { id, name, height, reason, retired } = row;
  return {
    id,
    name,
    geometry: JSON.parse(row.geometry) as BarrierInfo["geometry"],
    height,
    reason,
    signedBy: row.badge.label,
    signedAt: row.createdAt.toISOString(),
    retired,
  };
}

/** Of a contest, the newest first. */
export async function barriersOf(
  db: Database,
  contestId: string,
  where: { retired?: boolean } = {},
): Promise<BarrierInfo[]> {
  const rows = await db.barrier.findMany({
    where: { contestId, ...where },
    include: { badge: true },
    orderBy: [{ createdAt: "desc" }, { id: "asc" }],
  });
  return rows.map(barrierInfo);
}

/** What of a barrier a throw meets. */
export type StandingBarrier = Pick<BarrierInfo, "name" | "height" | "geometry">;

/**
 * Barriers as the engine takes them, in metres along and to the right of a machine's bearing. A machine that may stand
 * a little off its point sees them from a little elsewhere: the engine counts on that.
 */
export function barriersAround(
  barriers: readonly StandingBarrier[],
  { firingPoint, bearing }: { firingPoint: GeoPoint & { accuracy: number; height: number }; bearing: number },
): Barrier[] {
  const { accuracy } = firingPoint;
  const plane = localPlane(firingPoint, firingPoint.height);
  const angle = (bearing * Math.PI) / 180;
  const [sin, cos] = [Math.sin(angle), Math.cos(angle)];
  return barriers.map(({ name, height, geometry }) => {
    const line = geometry.coordinates.map(([longitude, latitude]) => {
      const { east, north } = plane.toPlane({ longitude, latitude });
      return { downrange: east * sin + north * cos, aside: east * cos - north * sin };
    });
    return { name, height, line, accuracy };
  });
}
