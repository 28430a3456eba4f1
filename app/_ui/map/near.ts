/**
 * A map is flat and has its own site in one piece: what the record has within ±180° of longitude is drawn within half a
 * turn of the contest's meridian, past ±180 if need be, and what is drawn or dropped there goes back. Pure.
 */
import type { Geometry, Position } from "geojson";
import { normalLongitude, unwrapped } from "@/lib/earth";
import type { MapScene, ScenePoint } from "./scene";

/** Digits of a degree that survive a turn there and back: a corner that was caught stays that corner. */
const DECIMALS = 1e12;

export const pointNear = <P extends ScenePoint>(point: P, meridian: number): P => ({
  ...point,
  longitude: unwrapped(point.longitude, meridian),
});

/** A place on the map as the record has it. */
export function pointWithin<P extends ScenePoint>(point: P): P {
  const longitude = normalLongitude(point.longitude);
  if (longitude === point.longitude) return point;
  return { ...point, longitude: Math.round(longitude * DECIMALS) / DECIMALS };
}

export function geometryNear<G extends Geometry>(geometry: G, meridian: number): G {
  if (geometry.type === "GeometryCollection")
    return { ...geometry, geometries: geometry.geometries.map((part) => geometryNear(part, meridian)) };
  return { ...geometry, coordinates: positionsNear(geometry.coordinates, meridian) };
}

type Positions = Position | Positions[];

function positionsNear(positions: Positions, meridian: number): Positions {
  const [first, ...rest] = positions;
  if (typeof first === "number") return [unwrapped(first, meridian), ...rest] as Position;
  return (positions as Positions[]).map((each) => positionsNear(each, meridian));
}

/** Everything of a scene on one side of the antimeridian. */
export function sceneNear(scene: MapScene): MapScene {
  const { meridian } = scene;
  const point = <P extends ScenePoint>(at: P) => pointNear(at, meridian);
  const geometry = <G extends Geometry>(each: G) => geometryNear(each, meridian);
  const placed = <T extends { at: ScenePoint }>(each: T): T => ({ ...each, at: point(each.at) });
  return {
    ...scene,
    features: scene.features.map((feature) => ({ ...feature, geometry: geometry(feature.geometry) })),
    firingPoints: scene.firingPoints.map(placed),
    zones: scene.zones.map((zone) => ({
      ...zone,
      origin: point(zone.origin),
      polygon: geometry(zone.polygon),
      callouts: zone.callouts.map(placed),
      conflicts: zone.conflicts.map((conflict) => ({
        ...conflict,
        overlap: conflict.overlap && geometry(conflict.overlap),
      })),
    })),
    day: scene.day ? geometry(scene.day) : null,
    contours: (scene.contours ?? []).map((contour) => ({ ...contour, geometry: geometry(contour.geometry) })),
    marks: (scene.marks ?? []).map(placed),
    pictures: (scene.pictures ?? []).map((picture) => {
      const [origin, right, down] = picture.corners;
      return { ...picture, corners: [point(origin), point(right), point(down)] as const };
    }),
  };
}
