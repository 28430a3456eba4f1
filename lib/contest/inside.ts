/** Whether a point lies inside a drawn area, by counting crossings (even-odd, so holes are outside). */
import type { SiteGeometry } from "../api/contracts";
import type { GeoPoint } from "../earth";

/** A field is small: latitude and longitude serve as plane coordinates. Lines and points enclose nothing. */
export function inside(point: GeoPoint, area: SiteGeometry): boolean {
  if (area.type !== "Polygon") return false;
  let within = false;
  for (const ring of area.coordinates)
    for (let index = 1; index < ring.length; index++) {
      const [x1, y1] = ring[index - 1] as [number, number];
      const [x2, y2] = ring[index] as [number, number];
      const crosses = y1 > point.latitude !== y2 > point.latitude;
      if (crosses && point.longitude < x1 + ((point.latitude - y1) / (y2 - y1)) * (x2 - x1)) within = !within;
    }
  return within;
}
