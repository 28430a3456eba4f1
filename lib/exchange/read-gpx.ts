/** GPX 1.1 (and 1.0) of a handheld receiver: waypoints, routes, tracks. Ours say in extensions what GPX has no word for. */
import { mustBeFew, type RawPlace } from "./items";
import { childOf, childrenOf, textOf, type XmlNode } from "./xml";

export function readGpx(root: XmlNode): RawPlace[] {
  const places = [
    ...childrenOf(root, "wpt").map((node, index) =>
      placeOf(node, `waypoint ${index + 1}`, { type: "Point", coordinates: positionOf(node) }),
    ),
    ...childrenOf(root, "rte").map((node, index) =>
      placeOf(node, `route ${index + 1}`, {
        type: "LineString",
        coordinates: childrenOf(node, "rtept").map(positionOf),
      }),
    ),
    ...childrenOf(root, "trk").map((node, index) => placeOf(node, `track ${index + 1}`, trackOf(node))),
  ];
  mustBeFew(places.length);
  return places;
}

function trackOf(node: XmlNode): object {
  const segments = childrenOf(node, "trkseg").map((segment) => childrenOf(segment, "trkpt").map(positionOf));
  if (marksOf(node).area === "yes") return { type: "Polygon", coordinates: segments };
  return segments.length === 1
    ? { type: "LineString", coordinates: segments[0] }
    : { type: "MultiLineString", coordinates: segments };
}

function positionOf(node: XmlNode): number[] {
  const height = textOf(node, "ele");
  const degrees = [node.attributes.lon, node.attributes.lat].map((text) =>
    text?.trim() ? Number(text) : Number.NaN,
  );
  return height === "" ? degrees : [...degrees, Number(height)];
}

function placeOf(node: XmlNode, where: string, geometry: object): RawPlace {
  return {
    where,
    name: textOf(node, "name"),
    geometry,
    heightFrom: "sea-level",
    hints: [textOf(node, "type"), textOf(node, "sym")],
    marks: marksOf(node),
  };
}

const marksOf = (node: XmlNode): Record<string, unknown> =>
  Object.fromEntries((childOf(node, "extensions")?.children ?? []).map(({ name, text }) => [name, text]));
