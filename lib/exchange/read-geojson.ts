/** GeoJSON (RFC 7946): its features, whatever their geometry; what it says of other coordinate systems is refused. */
import { FileRefusal, mustBeFew, type RawPlace } from "./items";
import { wordsOf } from "./kinds";
import { isObject } from "./parts";

const GEOMETRIES = /^(Point|LineString|Polygon|MultiPoint|MultiLineString|MultiPolygon|GeometryCollection)$/;

export function readGeoJson(text: string): RawPlace[] {
  let document: unknown;
  try {
    document = JSON.parse(text);
  } catch {
    throw new FileRefusal(
      "This begins like GeoJSON but is cut off or mistyped (NaN and comments are not JSON). Export it again.",
    );
  }
  if (!isObject(document))
    throw new FileRefusal("This JSON is no GeoJSON: it has no type. Export it as GeoJSON.");
  mustBeWgs84(document.crs);
  const { type } = document;
  if (type === "FeatureCollection") {
    if (!Array.isArray(document.features))
      throw new FileRefusal("This feature collection has no list of features. Export the file again.");
    mustBeFew(document.features.length);
    return document.features.map((feature, index) => placeOf(feature, `feature ${index + 1}`));
  }
  if (type === "Feature") return [placeOf(document, "feature 1")];
  if (typeof type === "string" && GEOMETRIES.test(type))
    return [placeOf({ type: "Feature", geometry: document, properties: {} }, "geometry 1")];
  throw new FileRefusal(
    type === "Topology"
      ? "This is TopoJSON, which is not read. Export it as GeoJSON."
      : "This JSON is no GeoJSON: its type is none of FeatureCollection, Feature or a geometry. Export it as GeoJSON in WGS 84.",
  );
}

function placeOf(feature: unknown, where: string): RawPlace {
  const properties = isObject(feature) && isObject(feature.properties) ? feature.properties : {};
  const place = {
    where,
    name: wordsOf(properties.name ?? properties.Name ?? properties.title),
    geometry: isObject(feature) ? feature.geometry : null,
    heightFrom: "ellipsoid" as const,
    hints: [properties.type, properties.category].map(wordsOf),
    marks: properties,
  };
  if (!isObject(feature) || feature.type !== "Feature")
    return { ...place, problem: "This is no GeoJSON feature." };
  return place;
}

/** RFC 7946 has no member `crs`; its forerunner had. Only names of longitude and latitude on WGS 84 pass. */
function mustBeWgs84(crs: unknown): void {
  if (crs === undefined || crs === null) return;
  const properties = isObject(crs) && isObject(crs.properties) ? crs.properties : {};
  const name = wordsOf(properties.name);
  if (/(CRS84|EPSG:{1,2}(4326|4979))$/i.test(name)) return;
  throw new FileRefusal(
    `The file says that its coordinates are in another system${name ? `, ${name.slice(0, 80)}` : ""}. Export it again in WGS 84 (EPSG:4326), in degrees.`,
  );
}
