/** Where a feature comes nearest to a point: what a map shows at a glance and a table has to say. */
import type { SiteGeometry } from "@/lib/api/contracts";
import type { localPlane } from "@/lib/earth";

export function nearestPlace(
  geometry: SiteGeometry,
  plane: ReturnType<typeof localPlane>,
): { distance: number; bearing: number } {
  const lines: (readonly [number, number])[][] =
    geometry.type === "Point"
      ? [[geometry.coordinates]]
      : geometry.type === "LineString"
        ? [geometry.coordinates]
        : geometry.coordinates;
  let best = { east: 0, north: 0, distance: Number.POSITIVE_INFINITY };
  for (const line of lines) {
    const points = line.map(([longitude, latitude]) => plane.toPlane({ latitude, longitude }));
    points.forEach((point, i) => {
      const from = points[Math.max(0, i - 1)] ?? point;
      const east = point.east - from.east;
      const north = point.north - from.north;
      const squared = east * east + north * north;
      const along =
        squared === 0 ? 0 : Math.min(1, Math.max(0, -(from.east * east + from.north * north) / squared));
      const here = { east: from.east + along * east, north: from.north + along * north };
      const distance = Math.hypot(here.east, here.north);
      if (distance < best.distance) best = { ...here, distance };
    });
  }
  const degrees = (Math.atan2(best.east, best.north) * 180) / Math.PI;
  return { distance: best.distance, bearing: (degrees + 360) % 360 };
}
