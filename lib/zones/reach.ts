/** From the reach by azimuth to the keep-out zone's outline on the map. */
import type { MultiPolygon, Polygon, Position } from "geojson";
import { intersection } from "polyclip-ts";
import { type GeoPoint, nearPlane, unwrapped } from "../earth";
import { LARGEST_LATITUDE } from "./latitude";
import { profileOf, STEPS_A_DEGREE } from "./profile";

const RADIANS = Math.PI / 180;
/** How far a chord may lie outside its arc: this, or the same share of a reach beyond 1 km. */
const SAGITTA = 0.0096; // m
/** No arc is drawn with fewer corners than one in this many degrees. */
const LARGEST_STEP = 15;
/** Coordinates are written to 9 decimals (0.1 mm); this much further out they can never round inwards, m. */
const ROUNDING = 0.0002;
const DECIMALS = 1e9;
/** Where the reach steps, the longer side is widened by this much, so that no edge lies inside it, m. */
const WIDENING = 0.002;
const LARGEST_WIDENING = 0.1; // degrees
/** Radial edges are split: a line in longitude and latitude leaves the geodesic by 1 mm in this length. */
const LONGEST_RADIAL = 100; // m

/** How far outside the profile the outline of a zone with this reach may lie anywhere, m. */
export const outlineExcess = (reach: number): number =>
  Math.max(SAGITTA, (SAGITTA / 1000) * reach) + ROUNDING + 2 * WIDENING;

interface PolarPoint {
  /** Degrees clockwise from the bearing. */
  azimuth: number;
  /** m */
  radius: number;
}

/** Azimuths from one to another over which the reach is the same. */
interface Arc {
  from: number;
  to: number;
  radius: number;
}

function arcsOf(profile: Float64Array): Arc[] {
  const arcs: Arc[] = [];
  for (const [step, radius] of profile.entries()) {
    const last = arcs.at(-1);
    if (last?.radius === radius) last.to = (step + 1) / STEPS_A_DEGREE;
    else arcs.push({ from: step / STEPS_A_DEGREE, to: (step + 1) / STEPS_A_DEGREE, radius });
  }
  return arcs;
}

/** Degrees by which the edge between two arcs moves, to the side of the shorter reach. */
function edgeShift(before: Arc, after: Arc): number {
  const shift = Math.min(WIDENING / Math.max(before.radius, after.radius) / RADIANS, LARGEST_WIDENING);
  return Math.sign(before.radius - after.radius) * shift;
}

/** An arc as tangents: vertices pushed out so far that the chords touch the arc from outside. */
function tangents(radius: number, from: number, to: number): PolarPoint[] {
  const sagitta = Math.max(SAGITTA, (SAGITTA / 1000) * radius);
  const longest = Math.min(Math.sqrt((8 * sagitta) / radius) / RADIANS, LARGEST_STEP);
  const count = Math.ceil((to - from) / longest);
  const step = (to - from) / count;
  const outside = radius / Math.cos((step / 2) * RADIANS) + ROUNDING;
  return Array.from({ length: count + 1 }, (_, index) => ({
    azimuth: from + index * step,
    radius: outside,
  }));
}

/** The outline in polar form, clockwise from the bearing. */
function outline(profile: Float64Array): PolarPoint[] {
  const arcs = arcsOf(profile);
  const points: PolarPoint[] = [];
  for (const [index, arc] of arcs.entries()) {
    const before = arcs.at(index - 1) as Arc;
    const after = arcs[(index + 1) % arcs.length] as Arc;
    const corners = tangents(arc.radius, arc.from + edgeShift(before, arc), arc.to + edgeShift(arc, after));
    const last = points.at(-1);
    const first = corners[0] as PolarPoint;
    if (last && Math.abs(last.radius - first.radius) < ROUNDING) {
      // The same reach goes on: one vertex, the farther of the two.
      last.radius = Math.max(last.radius, first.radius);
      corners.shift();
    } else if (last) {
      points.push(...radialSteps(last, first));
    }
    points.push(...corners);
  }
  const [first, last] = [points[0] as PolarPoint, points.at(-1) as PolarPoint];
  if (Math.abs(last.radius - first.radius) < ROUNDING) {
    first.radius = Math.max(last.radius, first.radius);
    points.pop();
  } else {
    points.push(...radialSteps(last, first));
  }
  return points;
}

/** The points between the ends of a long radial edge. */
function radialSteps(from: PolarPoint, to: PolarPoint): PolarPoint[] {
  const count = Math.ceil(Math.abs(to.radius - from.radius) / LONGEST_RADIAL);
  return Array.from({ length: count - 1 }, (_, index) => ({
    azimuth: from.azimuth,
    radius: from.radius + ((to.radius - from.radius) * (index + 1)) / count,
  }));
}

/**
 * The keep-out zone as a GeoJSON polygon (RFC 7946: longitude before latitude, closed, counter-clockwise).
 *
 * `origin`: the firing point. `bearing`: degrees true. `reach`: metres on the ground at `height` (m above the
 * ellipsoid), `reach[i]` at i degrees clockwise from the bearing, 360 numbers. Between two degrees the zone
 * takes the larger reach; its edges lie outside that arc, never inside, by at most 1 cm up to 1 km. `accuracy`: how far
 * the machine may stand from the origin, m; every point of the zone moved by as much lies inside.
 *
 * Where the zone crosses the antimeridian its longitudes run on past ±180, so that the ring stays whole for
 * drawing and computing; `cutAtAntimeridian` makes what RFC 7946, 3.1.9, asks for in exchange.
 *
 * Throws RangeError on a reach that is not 360 numbers of 0 to 50 km, and beyond 85° of latitude.
 */
export function reachPolygon(
  origin: GeoPoint,
  bearing: number,
  reach: readonly number[],
  height = 0,
  accuracy = 0,
): Polygon {
  const profile = profileOf(reach, accuracy);
  if (!Number.isFinite(bearing)) throw new RangeError("The bearing must be a number of degrees.");
  if (!(Math.abs(origin.latitude) <= LARGEST_LATITUDE)) {
    throw new RangeError(`Zones are drawn up to ${LARGEST_LATITUDE} degrees of latitude.`);
  }
  const plane = nearPlane(origin, height);
  const ring = outline(profile)
    .reverse()
    .map(({ azimuth, radius }): Position => {
      const point = plane.along(bearing + azimuth, radius);
      const longitude = unwrapped(point.longitude, origin.longitude);
      return [rounded(longitude), rounded(point.latitude)];
    });
  ring.push([...(ring[0] as Position)]);
  return { type: "Polygon", coordinates: [ring] };
}

/** Degrees to 9 decimals. */
export const rounded = (degrees: number) => Math.round(degrees * DECIMALS) / DECIMALS;

/** A polygon whose longitudes run past ±180, cut there into parts within ±180 (RFC 7946, 3.1.9). */
export function cutAtAntimeridian(polygon: Polygon): Polygon | MultiPolygon {
  const longitudes = polygon.coordinates.flat().map((position) => position[0] as number);
  const first = Math.floor((Math.min(...longitudes) + 180) / 360);
  const last = Math.ceil((Math.max(...longitudes) + 180) / 360) - 1;
  if (first === 0 && last === 0) return polygon;
  const rings = polygon.coordinates as [number, number][][];
  const parts: Position[][][] = [];
  for (let turn = first; turn <= last; turn++) {
    const [west, east] = [turn * 360 - 180, turn * 360 + 180];
    const strip: [number, number][] = [
      [west, -90],
      [east, -90],
      [east, 90],
      [west, 90],
      [west, -90],
    ];
    const inside = intersection(rings, [strip]);
    for (const part of inside) {
      parts.push(part.map((ring) => ring.map(([longitude, latitude]) => [longitude - turn * 360, latitude])));
    }
  }
  const [only] = parts;
  return parts.length === 1 && only
    ? { type: "Polygon", coordinates: only }
    : { type: "MultiPolygon", coordinates: parts };
}
