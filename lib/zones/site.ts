/** A site made ready for many zones: its features in one plane, its boundaries one piece of ground. */
import type { LineString, MultiPolygon, Point, Polygon } from "geojson";
import { type GeoPoint, type LocalPlane, nearPlane } from "../earth";
import type { Agreement } from "./agreement";
import { clip } from "./clip";
import { EdgeIndex, edgesOf } from "./edge-index";
import { type FeatureRule, type Protection, ruleOf, standOffOf } from "./kinds";
import type * as planar from "./planar";
import { shapeOf } from "./project";

export interface ZoneFeature extends Protection {
  id: string;
  /** Longitude before latitude. */
  geometry: Point | LineString | Polygon;
  /** The written agreement that is on file for it and holds on the day: `agreementOf`. */
  agreement?: Agreement | null | undefined;
}

/** A feature in the site's plane. */
export interface LaidFeature {
  feature: ZoneFeature;
  rule: FeatureRule;
  /** m */
  standOff: number;
  shape: planar.Shape;
  edges: Float64Array;
}

export interface Site {
  plane: LocalPlane;
  features: readonly LaidFeature[];
  /** Their indices in an order in which neighbours follow one another: searches begin where the last one ended. */
  order: readonly number[];
  /** What all boundaries enclose together; null when there is none. */
  ground: { polygons: readonly planar.Polygon[]; edges: Float64Array; index: EdgeIndex } | null;
}

/** A zone in the site's plane. */
export interface LaidZone {
  polygons: readonly planar.Polygon[];
  edges: EdgeIndex;
}

/** `origin`: where the plane touches the ground, within some kilometres of all; `height`: of the ground, m. */
export function layOut(features: readonly ZoneFeature[], origin: GeoPoint, height = 0): Site {
  const plane = nearPlane(origin, height);
  const laid = features.map((feature): LaidFeature => {
    const shape = shapeOf(feature.geometry, plane);
    return {
      feature,
      rule: ruleOf(feature),
      standOff: standOffOf(feature),
      shape,
      edges: edgesOf(shape),
    };
  });
  const boundaries = laid.flatMap(({ rule, shape }) => (rule === "contains" ? [shape.polygons] : []));
  const ground = boundaries.length > 0 ? groundOf(boundaries) : null;
  return { plane, features: laid, order: neighbours(laid), ground };
}

/** Strips from south to north, walked to and fro. */
function neighbours(laid: readonly LaidFeature[]): number[] {
  const strip = 100; // m
  const keys = laid.map(({ edges: [x = 0, y = 0] }): [strip: number, along: number] => {
    const row = Math.floor(y / strip);
    return [row, row % 2 === 0 ? x : -x];
  });
  return [...laid.keys()].sort((a, b) => keys[a][0] - keys[b][0] || keys[a][1] - keys[b][1]);
}

function groundOf(boundaries: readonly (readonly planar.Polygon[])[]): Site["ground"] {
  const [first = [], ...others] = boundaries;
  const polygons = others.length > 0 ? clip("union", first, ...others) : first;
  if (polygons.length === 0) throw new RangeError("A boundary is a polygon.");
  const edges = edgesOf({ points: [], lines: [], polygons });
  return { polygons, edges, index: new EdgeIndex(edges) };
}

export function layZone(site: Site, zone: Polygon | MultiPolygon): LaidZone {
  const { polygons } = shapeOf(zone, site.plane);
  return { polygons, edges: new EdgeIndex(edgesOf({ points: [], lines: [], polygons })) };
}
