/** The list of pegs to set out: what is surveyed and where machines stand, and along the edge of every zone. */
import type { Position } from "geojson";
import { type GeoPoint, groundInverse, localPlane, normalLongitude } from "../earth";
import { csvOf } from "./write-csv";

export interface PegSite {
  controlPoints: readonly (GeoPoint & { name: string })[];
  firingPoints: readonly (GeoPoint & { number: number; name: string })[];
  zones: readonly { name: string; geometry: { coordinates: readonly (readonly Position[])[] } }[];
}

export interface PegOptions {
  /** m at most between two pegs along an outline. */
  every: number;
  /** What bearings and distances are measured from. */
  from: GeoPoint;
  /** Of the ground, m above the ellipsoid: distances are those on the ground. */
  height: number;
}

export interface Peg extends GeoPoint {
  name: string;
  what: "control-point" | "firing-point" | "zone-corner";
  /** Degrees true, from the chosen point. */
  bearing: number;
  /** m on the ground. */
  distance: number;
}

export interface PegList {
  pegs: Peg[];
  /** How far inside an outline a straight rope between two pegs runs at most, m: the outline counts, not the rope. */
  cutsIn: number;
}

/**
 * m by which a corner must bend the outline to get a peg of its own: zones step at every degree, and whoever asks for
 * few pegs gets few. What the rope then cuts off is said.
 */
const bendOf = (every: number) => Math.min(3, Math.max(0.25, 0.08 * every));

export function pegsOf(site: PegSite, { every, from, height }: PegOptions): PegList {
  const peg = (name: string, what: Peg["what"], { latitude, longitude }: GeoPoint): Peg => {
    const { bearing, distance } = groundInverse(from, { latitude, longitude }, height);
    return { name, what, latitude, longitude, bearing, distance };
  };
  let cutsIn = 0;
  const corners = site.zones.flatMap(({ name, geometry }) => {
    const along = cornersAlong(geometry.coordinates[0] ?? [], every, height);
    cutsIn = Math.max(cutsIn, along.cutsIn);
    return along.corners.map((at, index) => peg(`${name}, corner ${index + 1}`, "zone-corner", at));
  });
  return {
    pegs: [
      ...site.controlPoints.map((point) => peg(point.name, "control-point", point)),
      ...site.firingPoints.map((point) =>
        peg(`Firing point ${point.number}${point.name ? `, ${point.name}` : ""}`, "firing-point", point),
      ),
      ...corners,
    ],
    cutsIn,
  };
}

type Plane = [east: number, north: number];

/** Corners of an outline: where it bends, and between these no farther apart than `every` along it. */
function cornersAlong(
  ring: readonly Position[],
  every: number,
  height: number,
): { corners: GeoPoint[]; cutsIn: number } {
  const [first] = ring;
  if (!first) return { corners: [], cutsIn: 0 };
  const plane = localPlane(
    { longitude: normalLongitude(first[0] as number), latitude: first[1] as number },
    height,
  );
  const outline = ring.map(([longitude, latitude]): Plane => {
    const { east, north } = plane.toPlane({ longitude: longitude as number, latitude: latitude as number });
    return [east, north];
  });
  const kept = bends(outline, bendOf(every));
  const points: Plane[] = [];
  let cutsIn = 0;
  for (const [index, start] of kept.entries()) {
    const end = kept[index + 1];
    if (end === undefined) break;
    for (const stretch of stretches(outline.slice(start, end + 1), every)) {
      points.push(stretch[0] as Plane);
      cutsIn = Math.max(cutsIn, farthestInside(stretch));
    }
  }
  return {
    corners: points.map(([east, north]) => {
      const { latitude, longitude } = plane.toPoint({ east, north });
      return { latitude, longitude };
    }),
    cutsIn,
  };
}

/** Indices of the corners that a rope must go round (Douglas and Peucker 1973), both ends among them. */
function bends(outline: readonly Plane[], bend: number): number[] {
  const last = outline.length - 1;
  const origin = outline[0] as Plane;
  // A ring ends where it begins: its farthest corner parts it in two.
  let far = 0;
  for (const [index, point] of outline.entries())
    if (span(origin, point) > span(origin, outline[far] as Plane)) far = index;
  const kept = new Set([0, far, last]);
  const waiting: [number, number][] = [
    [0, far],
    [far, last],
  ];
  for (let next = waiting.pop(); next; next = waiting.pop()) {
    const [from, to] = next;
    let worst = bend;
    let at = -1;
    for (let index = from + 1; index < to; index++) {
      const off = Math.abs(offLine(outline[index] as Plane, outline[from] as Plane, outline[to] as Plane));
      if (off > worst) [worst, at] = [off, index];
    }
    if (at < 0) continue;
    kept.add(at);
    waiting.push([from, at], [at, to]);
  }
  return [...kept].sort((a, b) => a - b);
}

const span = ([ax, ay]: Plane, [bx, by]: Plane) => Math.hypot(bx - ax, by - ay);

/** m to the left of the line from a to b; from a itself where they are one point. */
function offLine([px, py]: Plane, a: Plane, b: Plane): number {
  const length = span(a, b);
  if (length === 0) return span(a, [px, py]);
  return ((b[0] - a[0]) * (py - a[1]) - (b[1] - a[1]) * (px - a[0])) / length;
}

/** A piece of the outline in stretches of equal length along it, none longer than `every`. */
function stretches(piece: readonly Plane[], every: number): Plane[][] {
  const lengths = piece.slice(1).map((point, index) => span(piece[index] as Plane, point));
  const whole = lengths.reduce((sum, length) => sum + length, 0);
  const step = whole / Math.max(1, Math.ceil(whole / every - 1e-9));
  const result: Plane[][] = [];
  let current: Plane[] = [piece[0] as Plane];
  let walked = 0;
  for (const [index, length] of lengths.entries()) {
    const [from, to] = [piece[index] as Plane, piece[index + 1] as Plane];
    let gone = 0;
    // The last end is the piece's own: rounding must not make another.
    while (walked + (length - gone) >= step && result.length + 1 < Math.round(whole / step)) {
      gone += step - walked;
      const t = length === 0 ? 0 : gone / length;
      const cut: Plane = [from[0] + t * (to[0] - from[0]), from[1] + t * (to[1] - from[1])];
      result.push([...current, cut]);
      current = [cut];
      walked = 0;
    }
    walked += length - gone;
    current.push(to);
  }
  result.push(current);
  return result;
}

/** Zones run counter-clockwise, so what lies right of the rope is zone outside it. */
function farthestInside(stretch: readonly Plane[]): number {
  const [a, b] = [stretch[0] as Plane, stretch.at(-1) as Plane];
  return stretch.slice(1, -1).reduce((most, point) => Math.max(most, -offLine(point, a, b)), 0);
}

const FIELDS = ["name", "what", "latitude", "longitude", "bearing_true_deg", "distance_m"];

/** Degrees to 0.1 mm, bearings to 0.001°, distances to 1 mm. */
export const pegsCsv = ({ pegs }: PegList): string =>
  csvOf(
    FIELDS,
    pegs.map(({ name, what, latitude, longitude, bearing, distance }) => [
      name,
      what,
      Number(latitude.toFixed(9)),
      Number(longitude.toFixed(9)),
      Number(bearing.toFixed(3)) % 360,
      Number(distance.toFixed(3)),
    ]),
  );
