/** A geometry taken to its lines, whatever its type. Apart, for pages that need no more of the zones. */

/** As GeoJSON (RFC 7946) has it, with its positions as whoever asks has them. */
type OfPositions<P extends number[]> =
  | { type: "Point"; coordinates: P }
  | { type: "LineString" | "MultiPoint"; coordinates: P[] }
  | { type: "Polygon" | "MultiLineString"; coordinates: P[][] }
  | { type: "MultiPolygon"; coordinates: P[][][] }
  | { type: "GeometryCollection"; geometries: OfPositions<P>[] };

/** The rings of areas, closed as they are; lines; points, one by one or together. */
export function linesOf<P extends number[]>(geometry: OfPositions<P>): P[][] {
  switch (geometry.type) {
    case "Point":
      return [[geometry.coordinates]];
    case "LineString":
    case "MultiPoint":
      return [geometry.coordinates];
    case "Polygon":
    case "MultiLineString":
      return geometry.coordinates;
    case "MultiPolygon":
      return geometry.coordinates.flat();
    case "GeometryCollection":
      return geometry.geometries.flatMap((part) => linesOf(part));
  }
}
