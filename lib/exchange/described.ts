/** Every place of a site as name, marks and geometry: what the formats of places with extra data write one by one. */
import type { Geometry } from "geojson";
import { cutAtAntimeridian, featureKind } from "../zones";
import type { SiteContents } from "./items";

export interface DescribedPlace {
  /** The group it is listed under. */
  group: string;
  name: string;
  /** For whoever reads the file elsewhere. */
  description: string;
  /** What the format has no word for; empty texts and nulls left out. */
  marks: Record<string, string>;
  geometry: Geometry;
}

export function describedPlaces(site: SiteContents): DescribedPlace[] {
  const marked = (marks: Record<string, string | number | null>) =>
    Object.fromEntries(
      Object.entries(marks).flatMap(([name, value]) =>
        value === null || value === "" ? [] : [[name, String(value)]],
      ),
    );
  const point = (place: { latitude: number; longitude: number }): Geometry => ({
    type: "Point",
    coordinates: [place.longitude, place.latitude],
  });
  return [
    ...site.features.map(
      ({ kind, name, geometry, standOff, rule }): DescribedPlace => ({
        group: "Site features",
        name,
        description: featureKind(kind).title,
        marks: marked({ what: "feature", kind, standOff, rule }),
        geometry,
      }),
    ),
    ...site.firingPoints.map(
      (place): DescribedPlace => ({
        group: "Firing points",
        name: place.name,
        description: `Firing point ${place.number}`,
        marks: marked({
          what: "firing-point",
          number: place.number,
          height: place.height,
          accuracy: place.accuracy,
        }),
        geometry: point(place),
      }),
    ),
    ...site.controlPoints.map(
      (place): DescribedPlace => ({
        group: "Control points",
        name: place.name,
        description: "Control point",
        marks: marked({
          what: "control-point",
          height: place.height,
          accuracy: place.accuracy,
          note: place.note,
        }),
        geometry: point(place),
      }),
    ),
    ...site.spotHeights.map(
      (place): DescribedPlace => ({
        group: "Spot heights",
        name: "",
        description: `Ground ${place.height} m above the ellipsoid`,
        marks: marked({ what: "spot-height", height: place.height }),
        geometry: point(place),
      }),
    ),
    ...site.barriers.map(
      ({ name, geometry, height, reason }): DescribedPlace => ({
        group: "Barriers",
        name,
        description: `Barrier, ${height} m high, signed for by the safety officer: ${reason}`,
        marks: marked({ what: "barrier", height, note: reason }),
        geometry,
      }),
    ),
    ...site.zones.map(
      ({ name, geometry, caution }): DescribedPlace => ({
        group: "Keep-out zones",
        name,
        description: caution,
        marks: { what: "zone" },
        geometry: cutAtAntimeridian(geometry),
      }),
    ),
  ];
}
