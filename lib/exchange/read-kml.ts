/** KML 2.2: placemarks in any folders, with their geometries, tracks and extended data. Nothing is fetched. */
import { mustBeFew, type RawPlace } from "./items";
import { childOf, childrenOf, textOf, type XmlNode } from "./xml";

const SKIPPED: Record<string, string> = {
  NetworkLink: "Links to other files are not followed: give those files themselves.",
  GroundOverlay: "Pictures laid on the ground are left out: lay one under the map on the page of the site.",
};

export function readKml(root: XmlNode): { places: RawPlace[]; notes: string[] } {
  const places: RawPlace[] = [];
  const notes = new Set<string>();
  // In the order of the document: the last pushed is the next read.
  const waiting: { node: XmlNode; folders: string[] }[] = [{ node: root, folders: [] }];
  for (let next = waiting.pop(); next; next = waiting.pop()) {
    const { node, folders } = next;
    const skipped = SKIPPED[node.name];
    if (skipped) notes.add(skipped);
    else if (node.name === "Placemark") {
      places.push(placeOf(node, folders, `placemark ${places.length + 1}`));
      mustBeFew(places.length);
    } else {
      const inside = node.name === "Folder" ? [textOf(node, "name"), ...folders] : folders;
      for (const child of [...node.children].reverse()) waiting.push({ node: child, folders: inside });
    }
  }
  return { places, notes: [...notes] };
}

function placeOf(node: XmlNode, folders: string[], where: string): RawPlace {
  const geometries = node.children.flatMap((child) => geometryOf(child));
  return {
    where,
    name: textOf(node, "name"),
    geometry: geometries.length > 1 ? { type: "GeometryCollection", geometries } : (geometries[0] ?? null),
    heightFrom: "sea-level",
    hints: folders,
    marks: extendedData(node),
  };
}

/** GeoJSON of one element, none for what is no geometry. Multigeometries keep their nesting. */
function geometryOf(node: XmlNode): object[] {
  switch (node.name) {
    case "Point":
      return [{ type: "Point", coordinates: pointOf(node) }];
    case "LineString":
      return [{ type: "LineString", coordinates: coordinatesOf(node) }];
    case "LinearRing":
      return [{ type: "Polygon", coordinates: [coordinatesOf(node)] }];
    case "Polygon": {
      const rings = ["outerBoundaryIs", "innerBoundaryIs"].flatMap((name) =>
        childrenOf(node, name).flatMap((boundary) => childrenOf(boundary, "LinearRing").map(coordinatesOf)),
      );
      return [{ type: "Polygon", coordinates: rings }];
    }
    case "Track":
      return [
        {
          type: "LineString",
          coordinates: childrenOf(node, "coord").map(({ text }) => numbers(text, /\s+/)),
        },
      ];
    case "MultiGeometry":
    case "MultiTrack":
      return [{ type: "GeometryCollection", geometries: node.children.flatMap(geometryOf) }];
    default:
      return [];
  }
}

/** A point on the ground has no height of its own: the 0 that most write there means nothing. */
function pointOf(node: XmlNode): number[] {
  const [position = []] = coordinatesOf(node);
  const isLost = position.slice(0, 2).some(Number.isNaN);
  return textOf(node, "altitudeMode") === "absolute" || isLost ? position : position.slice(0, 2);
}

/** "longitude,latitude[,altitude]" apart by white space; some write a space after the comma too. */
function coordinatesOf(node: XmlNode): number[][] {
  const text = textOf(node, "coordinates").replace(/\s*,\s*/g, ",");
  return text === "" ? [] : text.split(/\s+/).map((tuple) => numbers(tuple, ","));
}

const numbers = (text: string, between: string | RegExp): number[] =>
  text
    .trim()
    .split(between)
    .map((part) => (part === "" ? Number.NaN : Number(part)));

function extendedData(node: XmlNode): Record<string, unknown> {
  const data = childOf(node, "ExtendedData");
  const pairs = childrenOf(data, "Data").map(
    (each) => [each.attributes.name, childOf(each, "value")?.text] as const,
  );
  const simple = childrenOf(data, "SchemaData").flatMap((schema) =>
    childrenOf(schema, "SimpleData").map((each) => [each.attributes.name, each.text] as const),
  );
  return Object.fromEntries(
    [...simple, ...pairs].flatMap(([name, value]) => (name ? [[name, value ?? ""]] : [])),
  );
}
