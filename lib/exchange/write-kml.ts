/**
 * KML 2.2. Heights stand in the extended data, not in the coordinates: KML counts those from the sea level, and here
 * they count from the ellipsoid.
 */
import type { Geometry, Position } from "geojson";
import { type DescribedPlace, describedPlaces } from "./described";
import type { SiteContents } from "./items";
import { escaped } from "./xml";

export function writeKml(site: SiteContents): string {
  const groups = new Map<string, DescribedPlace[]>();
  for (const place of describedPlaces(site))
    groups.set(place.group, [...(groups.get(place.group) ?? []), place]);
  const folders = [...groups].map(
    ([name, places]) =>
      `<Folder><name>${escaped(name)}</name>\n${places.map(placemark).join("\n")}\n</Folder>`,
  );
  return [
    '<?xml version="1.0" encoding="UTF-8"?>',
    '<kml xmlns="http://www.opengis.net/kml/2.2">',
    `<Document><name>${escaped(site.name)}</name>`,
    ...folders,
    "</Document>",
    "</kml>",
    "",
  ].join("\n");
}

function placemark({ name, description, marks, geometry }: DescribedPlace): string {
  const data = Object.entries(marks).map(
    ([key, value]) => `<Data name="${key}"><value>${escaped(value)}</value></Data>`,
  );
  return `<Placemark><name>${escaped(name)}</name><description>${escaped(description)}</description><ExtendedData>${data.join("")}</ExtendedData>${drawn(geometry)}</Placemark>`;
}

const tuples = (positions: readonly Position[]) =>
  `<coordinates>${positions.map(([longitude, latitude]) => `${longitude},${latitude}`).join(" ")}</coordinates>`;

function drawn(geometry: Geometry): string {
  switch (geometry.type) {
    case "Point":
      return `<Point>${tuples([geometry.coordinates])}</Point>`;
    case "LineString":
      return `<LineString><tessellate>1</tessellate>${tuples(geometry.coordinates)}</LineString>`;
    case "Polygon": {
      const rings = geometry.coordinates.map((ring, index) => {
        const side = index === 0 ? "outerBoundaryIs" : "innerBoundaryIs";
        return `<${side}><LinearRing>${tuples(ring)}</LinearRing></${side}>`;
      });
      return `<Polygon><tessellate>1</tessellate>${rings.join("")}</Polygon>`;
    }
    case "MultiPolygon":
      return `<MultiGeometry>${geometry.coordinates
        .map((coordinates) => drawn({ type: "Polygon", coordinates }))
        .join("")}</MultiGeometry>`;
    default:
      throw new RangeError(`A site holds no ${geometry.type}.`);
  }
}
