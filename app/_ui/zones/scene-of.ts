/** From the API's features, firing points and zones to what the map draws. */

import type { ContestOverview, ZoneProperties, Zones } from "@/lib/api/contracts";
import { localPlane } from "@/lib/earth";
import { FEATURE_KINDS } from "@/lib/zones/kinds";
import { zoneDistances } from "@/lib/zones/zone-distances";
import type { Callout, MapScene, SceneConflict, ScenePoint, SceneZone } from "../map/scene";

export type Site = Pick<
  ContestOverview,
  "longitude" | "features" | "firingPoints" | "controlPoints" | "spotHeights" | "aerialPictures" | "barriers"
>;

/** What of a contest the map shows. */
export const siteOf = ({
  longitude,
  features,
  firingPoints,
  controlPoints,
  spotHeights,
  aerialPictures,
  barriers,
}: ContestOverview): Site => ({
  longitude,
  features,
  firingPoints,
  controlPoints,
  spotHeights,
  aerialPictures,
  barriers,
});

export const kindTitle = (kind: string): string =>
  FEATURE_KINDS.find((known) => known.kind === kind)?.title ?? (kind === "barrier" ? "Barrier" : kind);

/** The kinds that a scene draws, for its legend. */
export const kindsIn = ({ features }: Pick<MapScene, "features">) =>
  [...new Set(features.map(({ kind }) => kind))].map((kind) => ({ kind, title: kindTitle(kind) }));

/** The places on the zone's edge that its three distances belong to. */
export function callouts(
  zone: Pick<ZoneProperties, "bearing" | "exclusion" | "accuracy">,
  ring: readonly number[][],
  origin: ScenePoint,
): Callout[] {
  if (!zone.exclusion) return [];
  const plane = localPlane(origin);
  const along = (zone.bearing * Math.PI) / 180;
  let ahead: Corner | null = null;
  let behind: Corner | null = null;
  let widest: Corner | null = null;
  for (const [longitude, latitude] of ring as [number, number][]) {
    const at = { latitude, longitude };
    const { east, north } = plane.toPlane(at);
    const forward = east * Math.sin(along) + north * Math.cos(along);
    const across = east * Math.cos(along) - north * Math.sin(along);
    // Forward and backward are the reach right ahead and right behind: the corners nearest the line.
    const off = Math.abs(across);
    if (forward > 0 && (!ahead || off < ahead.rank)) ahead = { at, rank: off };
    if (forward < 0 && (!behind || off < behind.rank)) behind = { at, rank: off };
    if (!widest || off > widest.rank) widest = { at, rank: off };
  }
  const { forward, backward, side } = zoneDistances(zone.exclusion, zone.accuracy);
  return [
    ...(ahead ? [{ which: "forward" as const, distance: forward, at: ahead.at }] : []),
    ...(behind ? [{ which: "backward" as const, distance: backward, at: behind.at }] : []),
    ...(widest ? [{ which: "side" as const, distance: side, at: widest.at }] : []),
  ];
}

interface Corner {
  at: ScenePoint;
  rank: number;
}

/** Zones as a scene takes them. */
export type Zoned = Pick<Zones, "features"> & Partial<Pick<Zones, "union">>;

export function sceneOf(
  site: Pick<Site, "longitude" | "features"> & {
    firingPoints: readonly Site["firingPoints"][number][];
  } & Partial<Pick<Site, "barriers">>,
  zones: Zoned = { features: [] },
): MapScene {
  const points = new Map(site.firingPoints.map((point) => [point.id, point]));
  return {
    meridian: site.longitude,
    features: [
      ...site.features.map((feature) => ({ ...feature, kindTitle: kindTitle(feature.kind) })),
      ...(site.barriers ?? []).map((barrier) => ({
        ...barrier,
        kind: "barrier",
        kindTitle: kindTitle("barrier"),
      })),
    ]
      .filter(({ retired }) => !retired)
      .map(({ id, kind, kindTitle: title, name, geometry }) => ({
        id,
        kind,
        kindTitle: title,
        name,
        geometry,
      })),
    firingPoints: site.firingPoints
      .filter(({ retired }) => !retired)
      .map(({ id, number, name, latitude, longitude }) => ({
        id,
        number,
        name,
        at: { latitude, longitude },
      })),
    day: zones.union?.geometry ?? null,
    zones: zones.features.flatMap(({ geometry, properties }): SceneZone[] => {
      const origin = points.get(properties.firingPointId);
      if (!geometry || !origin) return [];
      return [
        {
          machineId: properties.machineId,
          machine: properties.machineName,
          entrant: properties.entrantName,
          firingPointId: properties.firingPointId,
          origin,
          bearing: properties.bearing,
          polygon: geometry,
          callouts: callouts(properties, geometry.coordinates[0] ?? [], origin),
          conflicts: properties.conflicts
            .filter(({ inConflict }) => inConflict)
            .map(
              ({ featureId, touches, overlap }): SceneConflict => ({
                featureId,
                touches,
                overlap: overlap as SceneConflict["overlap"],
              }),
            ),
        },
      ];
    }),
  };
}
