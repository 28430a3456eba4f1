/** What a site feature's geometry must be before anything is computed with it: checked, repaired, warned about. */
import { z } from "zod";
import { type GeoPoint, inverse, unwrapped } from "../earth";
import { type FeatureKindName, featureKind } from "./kinds";
import { SITE_LATITUDE, SITE_LATITUDE_WORDS } from "./latitude";
import { linesOf } from "./lines";
import { crosses, type Point as PlanePoint, ringArea } from "./planar";

type Position = [number, number];

/** Farther from the site's middle than this, a position is a slip (swapped coordinates, a lost sign), m. */
export const SITE_RADIUS = 20_000;

const longitude = z
  .number({ error: "A longitude is a number of degrees." })
  .min(-180, "A longitude lies between −180 and 180 degrees.")
  .max(180, "A longitude lies between −180 and 180 degrees.");
const latitude = z
  .number({ error: "A latitude is a number of degrees." })
  .min(-90, "A latitude lies between −90 and 90 degrees: longitude comes first.")
  .max(90, "A latitude lies between −90 and 90 degrees: longitude comes first.")
  .refine((degrees) => Math.abs(degrees) > 90 || Math.abs(degrees) <= SITE_LATITUDE, SITE_LATITUDE_WORDS);
const positionSchema = z.tuple([longitude, latitude], {
  error: "A position is a longitude and a latitude, in that order.",
});

const same = (a: Position | undefined, b: Position | undefined) => a?.[0] === b?.[0] && a?.[1] === b?.[1];
const withoutRepeats = (positions: readonly Position[]) =>
  positions.filter((position, index) => index === 0 || !same(position, positions[index - 1]));

/** A closed ring in the plane of longitude and latitude, counted from its first position, not repeated. */
function flat(ring: readonly Position[]): PlanePoint[] {
  const [first] = ring;
  if (!first) return [];
  return ring.slice(0, -1).map(([lon, lat]) => [unwrapped(lon, first[0]) - first[0], lat - first[1]]);
}

function onSegment([px, py]: PlanePoint, [ax, ay]: PlanePoint, [bx, by]: PlanePoint): boolean {
  if ((bx - ax) * (py - ay) !== (by - ay) * (px - ax)) return false;
  return Math.min(ax, bx) <= px && px <= Math.max(ax, bx) && Math.min(ay, by) <= py && py <= Math.max(ay, by);
}

/** The first edge of a ring that meets another it is not joined to, or runs back over its neighbour. */
function selfCrossing(points: readonly PlanePoint[]): number | null {
  const count = points.length;
  const at = (index: number) => points[index % count] as PlanePoint;
  // Most pairs lie apart: their boxes say so many times faster than the exact test.
  const boxes = Float64Array.from(
    points.flatMap(([ax, ay], index) => {
      const [bx, by] = at(index + 1);
      return [Math.min(ax, bx), Math.max(ax, bx), Math.min(ay, by), Math.max(ay, by)];
    }),
  );
  const box = (index: number, side: number) => boxes[4 * index + side] as number;
  for (let i = 0; i < count; i++) {
    if (onSegment(at(i + 2), at(i), at(i + 1)) || onSegment(at(i), at(i + 1), at(i + 2))) return i;
    const [west, east, south, north] = [box(i, 0), box(i, 1), box(i, 2), box(i, 3)];
    for (let j = i + 2; j < count; j++) {
      if (box(j, 0) > east || box(j, 1) < west || box(j, 2) > north || box(j, 3) < south) continue;
      if (i === 0 && j === count - 1) continue;
      const [a, b, c, d] = [at(i), at(i + 1), at(j), at(j + 1)];
      if (crosses(a, b, c, d) || onSegment(c, a, b) || onSegment(a, c, d)) return i;
    }
  }
  return null;
}

/** What is wrong with one ring, as a sentence; null when nothing is. */
function ringProblem(ring: readonly Position[]): string | null {
  if (!same(ring[0], ring.at(-1))) return "Close the ring: its last position must equal its first.";
  const points = flat(ring);
  if (new Set(points.map(String)).size < 3) return "An area needs at least 3 different corners.";
  const crossing = selfCrossing(points);
  if (crossing !== null)
    return `The outline crosses or touches itself at corner ${crossing + 1}: draw it round once.`;
  return ringArea(points) === 0 ? "The outline encloses nothing." : null;
}

/** A ring turned the right-hand way of RFC 7946: outer counter-clockwise, holes clockwise. */
function turned(ring: readonly Position[], index: number): Position[] {
  const counterClockwise = ringArea(flat(ring)) > 0;
  return counterClockwise === (index === 0) ? [...ring] : [...ring].reverse();
}

const ringSchema = z
  .array(positionSchema)
  .max(2000, "An outline has at most 2000 corners.")
  .transform(withoutRepeats)
  .superRefine((ring, context) => {
    const problem = ringProblem(ring);
    if (problem !== null) context.addIssue({ code: "custom", message: problem });
  });

const lineSchema = z
  .array(positionSchema)
  .max(2000, "A line has at most 2000 points.")
  .transform(withoutRepeats)
  .refine((line) => line.length >= 2, "A line needs at least 2 different points.");

/**
 * The geometry of a site feature, as it is kept: rings closed, simple, with at least 3 different corners and
 * turned the right way; repeated positions dropped. Issues are sentences that name the corner.
 */
export const featureGeometrySchema = z.discriminatedUnion(
  "type",
  [
    z.strictObject({ type: z.literal("Point"), coordinates: positionSchema }),
    z.strictObject({ type: z.literal("LineString"), coordinates: lineSchema }),
    z.strictObject({
      type: z.literal("Polygon"),
      coordinates: z
        .array(ringSchema)
        .min(1, "An area needs an outline.")
        .max(50, "An area has at most 50 outlines.")
        .transform((rings) => rings.map(turned)),
    }),
  ],
  { error: "Draw a point, a line or an area (GeoJSON Point, LineString or Polygon)." },
);
export type FeatureGeometry = z.output<typeof featureGeometrySchema>;

const GEOMETRY_WORDS = { Point: "a point", LineString: "a line", Polygon: "an area" } as const;

/** Why a kind of feature cannot have this geometry, as a sentence; null when it can. */
export function geometryProblem(kind: FeatureKindName, type: FeatureGeometry["type"]): string | null {
  const { title, geometries } = featureKind(kind);
  if (geometries.includes(type)) return null;
  return `${title}: draw it as ${geometries.map((each) => GEOMETRY_WORDS[each]).join(" or ")}, not as ${GEOMETRY_WORDS[type]}.`;
}

/** What looks odd about where a feature lies, as sentences; never a reason to refuse it. */
export function featureWarnings(geometry: FeatureGeometry, site: GeoPoint): string[] {
  const positions = linesOf(geometry).flat();
  const distance = ([longitude, latitude]: Position) => inverse(site, { longitude, latitude }).distance;
  const farthest = Math.max(...positions.map(distance));
  if (farthest <= SITE_RADIUS) return [];
  const swapped = positions.every(
    ([first, second]) => Math.abs(first) <= 90 && distance([second, first]) <= SITE_RADIUS,
  );
  return [
    swapped
      ? "Longitude and latitude look swapped: the other way round it lies at the site. Longitude comes first."
      : `It lies ${Math.round(farthest / 1000)} km from the site's middle: check its coordinates.`,
  ];
}
