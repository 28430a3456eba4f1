/**
 * What the site map draws, as plain data: the server makes it from the database, the browser draws it and needs
 * nothing more. Longitude and latitude on WGS 84, distances in metres.
 */
import type { Feature, Geometry, MultiPolygon, Polygon } from "geojson";
import { linesOf } from "@/lib/zones/lines";

export interface ScenePoint {
  latitude: number;
  longitude: number;
}

export interface SceneFeature {
  id: string;
  /** A lib/zones feature kind; sets how it is drawn. */
  kind: string;
  kindTitle: string;
  name: string;
  geometry: Geometry;
}

export interface SceneFiringPoint {
  id: string;
  number: number;
  name: string;
  at: ScenePoint;
}

/** One distance of a zone, with the place on its edge that it belongs to. */
export interface Callout {
  which: "forward" | "backward" | "side";
  distance: number;
  at: ScenePoint;
}

export interface SceneConflict {
  featureId: string;
  /** Whether the zone reaches the feature itself; otherwise it only comes nearer than the stand-off. */
  touches: boolean;
  /** The part of the feature that is inside, for the map; null to mark the whole. */
  overlap: Geometry | null;
}

export interface SceneZone {
  machineId: string;
  machine: string;
  entrant: string;
  firingPointId: string;
  origin: ScenePoint;
  /** Degrees true. */
  bearing: number;
  polygon: Polygon | MultiPolygon;
  callouts: readonly Callout[];
  conflicts: readonly SceneConflict[];
}

/** A peg, or a measured height of the ground, with what is written beside it. */
export interface SceneMark {
  id: string;
  what: "control-point" | "spot-height";
  text: string;
  at: ScenePoint;
}

/** A photo or scan that lies under everything. */
export interface ScenePicture {
  id: string;
  name: string;
  url: string;
  /** Pixels. */
  width: number;
  height: number;
  /** Where its corners lie: top left, top right, bottom left. */
  corners: readonly [ScenePoint, ScenePoint, ScenePoint];
  opacity: number;
  /** Whether it is drawn until the reader says otherwise. */
  shown: boolean;
}

export interface MapScene {
  /** Longitude of the site's middle: a map draws everything within half a turn of it. */
  meridian: number;
  features: readonly SceneFeature[];
  firingPoints: readonly SceneFiringPoint[];
  zones: readonly SceneZone[];
  /** All zones as one, outlined where all of them are drawn. */
  day?: Polygon | MultiPolygon | null;
  /** Where ordinary throws land: the share inside each. */
  contours?: readonly { share: number; geometry: Polygon }[];
  marks?: readonly SceneMark[];
  pictures?: readonly ScenePicture[];
}

export interface Bounds {
  south: number;
  west: number;
  north: number;
  east: number;
}

/** The box around everything that is drawn, or null when there is nothing. */
export function sceneBounds(scene: MapScene): Bounds | null {
  const box: Bounds = { south: 90, west: 180, north: -90, east: -180 };
  const add = (longitude: number, latitude: number) => {
    box.south = Math.min(box.south, latitude);
    box.north = Math.max(box.north, latitude);
    box.west = Math.min(box.west, longitude);
    box.east = Math.max(box.east, longitude);
  };
  const geometries = [
    ...scene.features.map((feature) => feature.geometry),
    ...scene.zones.map((zone) => zone.polygon),
  ];
  for (const geometry of geometries) {
    for (const [longitude, latitude] of linesOf(geometry).flat())
      add(longitude as number, latitude as number);
  }
  for (const { at } of [...scene.firingPoints, ...(scene.marks ?? [])]) add(at.longitude, at.latitude);
  return box.south > box.north ? null : box;
}

/** Where the name of a feature stands: the middle of its box. */
export function labelPlace(geometry: Geometry): ScenePoint | null {
  const all = linesOf(geometry).flat();
  if (all.length === 0) return null;
  if (geometry.type === "LineString") {
    const [longitude, latitude] = all[Math.floor((all.length - 1) / 2)] as [number, number];
    return { longitude, latitude };
  }
  const longitudes = all.map(([longitude]) => longitude as number);
  const latitudes = all.map((position) => position[1] as number);
  return {
    longitude: (Math.min(...longitudes) + Math.max(...longitudes)) / 2,
    latitude: (Math.min(...latitudes) + Math.max(...latitudes)) / 2,
  };
}

export function asFeature(geometry: Geometry): Feature {
  return { type: "Feature", properties: {}, geometry };
}
