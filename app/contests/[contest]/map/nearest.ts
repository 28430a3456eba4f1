/** Where a feature comes nearest to a point: what a map shows at a glance and a table has to say. */
import type { SiteGeometry } from "@/lib/api/contracts";
import { type localPlane, planeBearing } from "@/lib/earth";
import { linesOf } from "@/lib/zones/lines";
import { nearestOn } from "@/lib/zones/planar";

export function nearestPlace(
  geometry: SiteGeometry,
  plane: ReturnType<typeof localPlane>,
): { distance: number; bearing: number } {
  let best = { east: 0, north: 0, distance: Number.POSITIVE_INFINITY };
  for (const line of linesOf(geometry)) {
    const points = line.map(([longitude, latitude]) => plane.toPlane({ latitude, longitude }));
    points.forEach((point, i) => {
      const from = points[Math.max(0, i - 1)] ?? point;
      const [east, north] = nearestOn([0, 0], [from.east, from.north], [point.east, point.north]);
      const distance = Math.hypot(east, north);
      if (distance < best.distance) best = { east, north, distance };
    });
  }
  return { distance: best.distance, bearing: planeBearing(best) };
}
