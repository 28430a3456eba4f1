/** A track walked round an area, as that area. Apart, because the page of a preview needs it too. */
import { type FeatureGeometry, featureGeometrySchema } from "../zones/feature-check";

/** The area that a line goes round, closed by its shortest way; null where that is no proper outline. */
export function closedLine(geometry: FeatureGeometry): FeatureGeometry | null {
  if (geometry.type !== "LineString") return null;
  const [first] = geometry.coordinates;
  const last = geometry.coordinates.at(-1);
  if (!first || !last) return null;
  const ring =
    first[0] === last[0] && first[1] === last[1] ? geometry.coordinates : [...geometry.coordinates, first];
  const checked = featureGeometrySchema.safeParse({ type: "Polygon", coordinates: [ring] });
  return checked.success ? checked.data : null;
}
