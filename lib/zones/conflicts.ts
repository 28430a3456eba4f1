/** What a keep-out zone touches, and how far it stays from the rest. */
import type { Geometry, MultiPolygon, Polygon } from "geojson";
import type { Agreement } from "./agreement";
import { clip } from "./clip";
import type { FeatureKindName, FeatureRule } from "./kinds";
import { lineInside } from "./line-inside";
import * as planar from "./planar";
import { lineGeometry, middle, polygonGeometry, position } from "./project";
import { type LaidFeature, type LaidZone, layOut, layZone, type Site, type ZoneFeature } from "./site";

export type { ZoneFeature };

export interface Conflict {
  featureId: string;
  kind: FeatureKindName;
  /** The one that holds for it: its own or its kind's. */
  rule: FeatureRule;
  /** Whether the zone reaches the feature; of a boundary, whether it reaches the edge or beyond. */
  touches: boolean;
  /** m² of the feature inside the zone; of a boundary, of the zone outside; 0 for lines and points. */
  overlapArea: number;
  /** m of a line inside the zone; 0 for the others. */
  overlapLength: number;
  /** m between zone and feature, 0 when they touch; of a boundary, from the zone to its edge. */
  distance: number;
  /** m that this feature asks for. */
  standOff: number;
  /** Against the feature's rule, touched or nearer than its stand-off, and no agreement on file. */
  inConflict: boolean;
  /** Against the rule, but agreed in writing: what is on file. */
  agreed: Agreement | null;
  /** The part inside the zone (of a boundary: the part of the zone outside), for the map; null when none. */
  overlap: Geometry | null;
}

/** Nearer than this is touching: below what a map or a tape can tell, m. */
const TOUCHING = 0.001;
/** Around a feature, where the zone is cut before the clipping, m. */
const MARGIN = 10;

type Measured = Pick<Conflict, "touches" | "overlapArea" | "overlapLength" | "distance" | "overlap">;

/** The part that a zone and a polygon share. Only where edges meet does it take clipping. */
function shared(zone: LaidZone, polygons: readonly planar.Polygon[], edgesMeet: boolean): planar.Polygon[] {
  if (edgesMeet) {
    const near = planar.trimmed(zone.polygons, planar.boxOf(polygons, MARGIN));
    return near.length > 0 ? clip("intersection", near, polygons) : [];
  }
  const someVertex = polygons[0]?.[0]?.[0];
  if (someVertex && zone.edges.contains(...someVertex)) return [...polygons];
  const zoneVertex = zone.polygons[0]?.[0]?.[0];
  return zoneVertex && planar.isInside(zoneVertex, polygons) ? [...zone.polygons] : [];
}

export function measure(site: Site, zone: LaidZone, { shape, edges }: LaidFeature): Measured {
  const apart = zone.edges.apart(edges);
  const edgesMeet = apart < TOUCHING;
  const inside = shape.polygons.length > 0 ? shared(zone, shape.polygons, edgesMeet) : [];
  const pieces = shape.lines.flatMap((line) => lineInside(line, zone.edges, edgesMeet));
  const points = shape.points.filter((point) => zone.edges.contains(...point));
  const touches = edgesMeet || inside.length > 0 || pieces.length > 0 || points.length > 0;
  const [point] = points;
  return {
    touches,
    overlapArea: planar.areaOf(inside),
    overlapLength: pieces.reduce((sum, piece) => sum + planar.lineLength(piece), 0),
    distance: touches ? 0 : apart,
    overlap:
      polygonGeometry(inside, site.plane) ??
      lineGeometry(pieces, site.plane) ??
      (point ? { type: "Point", coordinates: position(point, site.plane) } : null),
  };
}

/** How a zone lies in the ground that all boundaries enclose together. */
function measureGround(site: Site, zone: LaidZone, ground: NonNullable<Site["ground"]>): Measured {
  const apart = zone.edges.apart(ground.edges);
  const zoneVertex = zone.polygons[0]?.[0]?.[0];
  const startsInside = zoneVertex !== undefined && ground.index.contains(...zoneVertex);
  const edgesMeet = apart < TOUCHING;
  let outside: planar.Polygon[] = [];
  // A hole in the ground may lie wholly inside the zone, where no edges meet.
  const holes = ground.polygons.some((rings) => rings.length > 1);
  if (edgesMeet || holes) outside = clip("difference", zone.polygons, ground.polygons);
  else if (!startsInside) outside = [...zone.polygons];
  const touches = edgesMeet || outside.length > 0;
  return {
    touches,
    overlapArea: planar.areaOf(outside),
    overlapLength: 0,
    distance: touches ? 0 : apart,
    overlap: polygonGeometry(outside, site.plane),
  };
}

/** Whether what was measured is against the rule. A stand-off above zero protects any kind. */
export function isAgainst(rule: FeatureRule, standOff: number, measured: Measured): boolean {
  const strict = rule === "protected" || rule === "contains";
  return (measured.touches && strict) || measured.distance < standOff;
}

/** `conflicts` on a site that is laid out already. */
export function conflictsOn(site: Site, zone: LaidZone): Conflict[] {
  const ground = site.ground && measureGround(site, zone, site.ground);
  const found = new Array<Conflict>(site.features.length);
  for (const index of site.order) {
    const laid = site.features[index];
    const { feature, rule, standOff } = laid;
    const measured = rule === "contains" && ground ? ground : measure(site, zone, laid);
    const against = isAgainst(rule, standOff, measured);
    const agreement = feature.agreement ?? null;
    found[index] = {
      featureId: feature.id,
      kind: feature.kind,
      rule,
      ...measured,
      standOff,
      inConflict: against && agreement === null,
      agreed: against ? agreement : null,
    };
  }
  return found;
}

/**
 * How a zone stands to every feature, in the order given. Areas to 0.1 %, distances to 1 cm within 1 km.
 *
 * `zone`: longitude and latitude, as `reachPolygon` makes it. `height`: of the ground, m above the ellipsoid.
 * Several boundaries count as one piece of ground. Throws RangeError on a kind that there is not. For many zones lay
 * the site out once: `layOut`, `layZone`, `conflictsOn`.
 */
export function conflicts(
  zone: Polygon | MultiPolygon,
  features: readonly ZoneFeature[],
  height = 0,
): Conflict[] {
  const site = layOut(features, middle(zone), height);
  return conflictsOn(site, layZone(site, zone));
}
