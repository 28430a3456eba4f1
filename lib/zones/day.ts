/** The ground that the zones of all machines cover together. */
import type { MultiPolygon, Polygon } from "geojson";
import { clip } from "./clip";
import { areaOf } from "./planar";
import { polygonGeometry } from "./project";
import type { LaidZone, Site } from "./site";

export interface DayZone {
  geometry: Polygon | MultiPolygon | null;
  /** m² */
  area: number;
  /** Places that zones enclose on all sides, counted as zone. */
  filled: number;
}

/**
 * All zones as one. A place that zones enclose on all sides counts as zone too: nobody comes there, leaves it or is
 * helped there without crossing one.
 */
export function dayZone(site: Site, zones: readonly LaidZone[]): DayZone {
  const [first, ...others] = zones;
  if (!first) return { geometry: null, area: 0, filled: 0 };
  const joined = clip("union", first.polygons, ...others.map(({ polygons }) => polygons));
  const filled = joined.reduce((sum, rings) => sum + rings.length - 1, 0);
  const whole =
    filled > 0
      ? clip(
          "union",
          joined.map(([outer = []]) => [outer]),
        )
      : joined;
  return { geometry: polygonGeometry(whole, site.plane), area: areaOf(whole), filled };
}
