/** Barriers that the safety officer signed for, and how each stands to a machine. */
import type { BarrierInfo } from "../api/contracts";
import type { Database } from "../db";
import { type GeoPoint, localPlane } from "../earth";
import type { Barrier } from "../throw";

/** Lower ones stop nothing that is counted on, m. */
const LEAST_HEIGHT = 0.5;

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

/**
 * Barriers as the engine takes them, in metres along and to the right of a machine's bearing. A machine that may stand
 * a little off its point sees them from a little elsewhere: they lose so much of both ends and of their height.
 */
export function barriersAround(
  barriers: readonly BarrierInfo[],
  { firingPoint, bearing }: { firingPoint: GeoPoint & { accuracy: number; height: number }; bearing: number },
): Barrier[] {
  const { accuracy } = firingPoint;
  const plane = localPlane(firingPoint, firingPoint.height);
  const angle = (bearing * Math.PI) / 180;
  const [sin, cos] = [Math.sin(angle), Math.cos(angle)];
  return barriers.flatMap(({ name, height, geometry }) => {
    const left = height - accuracy;
    const foot = geometry.coordinates.map(([longitude, latitude]) => {
      const { east, north } = plane.toPlane({ longitude, latitude });
      return { downrange: east * sin + north * cos, aside: east * cos - north * sin };
    });
    const line = shortened(shortened(foot, accuracy).reverse(), accuracy).reverse();
    return left >= LEAST_HEIGHT && line.length > 1 ? [{ name, height: left, line }] : [];
  });
}

type Foot = Barrier["line"];

/** Less so much at its beginning, m; empty when nothing is left. */
function shortened(line: Foot, by: number): Foot {
  let left = by;
  for (let i = 1; i < line.length; i++) {
    const [from, to] = [line[i - 1], line[i]];
    const length = Math.hypot(to.downrange - from.downrange, to.aside - from.aside);
    if (length > left) {
      const share = left / length;
      const start = {
        downrange: from.downrange + share * (to.downrange - from.downrange),
        aside: from.aside + share * (to.aside - from.aside),
      };
      return [start, ...line.slice(i)];
    }
    left -= length;
  }
  return [];
}
