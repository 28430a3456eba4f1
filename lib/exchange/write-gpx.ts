/**
 * GPX 1.1. It knows points and tracks alone: an area is a track round each of its outlines, and what else there is to say
 * stands in extensions of our own namespace, which other programs pass over.
 */
import type { Geometry, Position } from "geojson";
import { type DescribedPlace, describedPlaces } from "./described";
import type { SiteContents } from "./items";
import { escaped } from "./xml";

export function writeGpx(site: SiteContents): string {
  const places = describedPlaces(site);
  const points = places.filter(({ geometry }) => geometry.type === "Point");
  const others = places.filter(({ geometry }) => geometry.type !== "Point");
  return [
    '<?xml version="1.0" encoding="UTF-8"?>',
    '<gpx version="1.1" creator="Fairthrow" xmlns="http://www.topografix.com/GPX/1/1" xmlns:ft="urn:fairthrow:site:1">',
    `<metadata><name>${escaped(site.name)}</name></metadata>`,
    ...points.map(waypoint),
    ...others.map(track),
    "</gpx>",
    "",
  ].join("\n");
}

const at = ([longitude, latitude]: Position) => `lat="${latitude}" lon="${longitude}"`;

// In the order that GPX's schema asks for: name, desc, type, extensions, and of a track its segments last.
function said({ name, description, marks }: DescribedPlace, more: Record<string, string> = {}): string {
  const extensions = Object.entries({ ...marks, ...more })
    .map(([key, value]) => `<ft:${key}>${escaped(value)}</ft:${key}>`)
    .join("");
  return `<name>${escaped(name)}</name><desc>${escaped(description)}</desc><extensions>${extensions}</extensions>`;
}

function waypoint(place: DescribedPlace): string {
  const { coordinates } = place.geometry as Extract<Geometry, { type: "Point" }>;
  return `<wpt ${at(coordinates)}>${said(place)}</wpt>`;
}

function track(place: DescribedPlace): string {
  const { lines, area } = segmentsOf(place.geometry);
  const segments = lines.map(
    (line) => `<trkseg>${line.map((position) => `<trkpt ${at(position)}/>`).join("")}</trkseg>`,
  );
  return `<trk>${said(place, area ? { area: "yes" } : {})}${segments.join("")}</trk>`;
}

function segmentsOf(geometry: Geometry): { lines: Position[][]; area: boolean } {
  if (geometry.type === "LineString") return { lines: [geometry.coordinates], area: false };
  if (geometry.type === "Polygon") return { lines: geometry.coordinates, area: true };
  if (geometry.type === "MultiPolygon") return { lines: geometry.coordinates.flat(), area: false };
  throw new RangeError(`A site holds no ${geometry.type}.`);
}
