/** GeoJSON (RFC 7946). What it has no word for stands in the properties, under the API's own names. */
import type { Feature, Geometry } from "geojson";
import { cutAtAntimeridian } from "../zones";
import type { SiteContents } from "./items";

export function writeGeoJson(site: SiteContents): string {
  const feature = (geometry: Geometry, properties: Record<string, unknown>): Feature => ({
    type: "Feature",
    geometry,
    properties,
  });
  const point = (place: { latitude: number; longitude: number; height: number | null }): Geometry => ({
    type: "Point",
    coordinates: [place.longitude, place.latitude, ...(place.height === null ? [] : [place.height])],
  });
  const features = [
    ...site.features.map(({ kind, name, geometry, standOff, rule }) =>
      feature(geometry, { what: "feature", kind, name, standOff, rule }),
    ),
    ...site.firingPoints.map((place) =>
      feature(point(place), {
        what: "firing-point",
        name: place.name,
        number: place.number,
        accuracy: place.accuracy,
        ...(typeof place.bearing === "number" && { bearing: place.bearing }),
      }),
    ),
    ...site.controlPoints.map((place) =>
      feature(point(place), {
        what: "control-point",
        name: place.name,
        accuracy: place.accuracy,
        note: place.note,
      }),
    ),
    ...site.spotHeights.map((place) => feature(point(place), { what: "spot-height" })),
    ...site.barriers.map(({ name, geometry, height, reason }) =>
      feature(geometry, { what: "barrier", name, height, note: reason }),
    ),
    ...site.zones.map(({ name, geometry, caution }) =>
      feature(cutAtAntimeridian(geometry), { what: "zone", name, caution }),
    ),
  ];
  return `${JSON.stringify({ type: "FeatureCollection", name: site.name, features }, null, 1)}\n`;
}
