/** From any GeoJSON geometry to points, lines and outlines, position by position, with what is wrong said in words. */
import { type GeoPoint, inverse, normalLongitude } from "../earth";
import { SITE_RADIUS } from "../zones/feature-check";
import { LIMITS } from "./items";

export type PartType = "Point" | "LineString" | "Polygon";

/** One point, line or area; `lines` are its rings, its one line, or a list of its one point. */
export interface Part {
  type: PartType;
  lines: unknown[];
}

type Json = Record<string, unknown>;
export const isObject = (value: unknown): value is Json =>
  typeof value === "object" && value !== null && !Array.isArray(value);
const listOf = (value: unknown): unknown[] => (Array.isArray(value) ? value : []);

const DEPTH = 8;

/** The parts of a geometry, multi-geometries and collections taken apart; null where it is none. */
export function partsOf(geometry: unknown): Part[] | null {
  const parts: Part[] = [];
  const waiting: { value: unknown; depth: number }[] = [{ value: geometry, depth: 0 }];
  for (let next = waiting.pop(); next; next = waiting.pop()) {
    const { value, depth } = next;
    if (!isObject(value) || depth > DEPTH || parts.length > LIMITS.items) return null;
    const { type, coordinates, geometries } = value;
    const each = listOf(coordinates);
    if (type === "GeometryCollection") {
      for (const inside of listOf(geometries).toReversed()) waiting.push({ value: inside, depth: depth + 1 });
    } else if (type === "Point") parts.push({ type, lines: [[coordinates]] });
    else if (type === "LineString") parts.push({ type, lines: [coordinates] });
    else if (type === "Polygon") parts.push({ type, lines: each });
    else if (type === "MultiPoint") parts.push(...each.map((at): Part => ({ type: "Point", lines: [[at]] })));
    else if (type === "MultiLineString")
      parts.push(...each.map((line): Part => ({ type: "LineString", lines: [line] })));
    else if (type === "MultiPolygon")
      parts.push(...each.map((rings): Part => ({ type: "Polygon", lines: listOf(rings) })));
    else return null;
  }
  return parts;
}

/** Longitude, latitude and perhaps a height; NaN where the file had nothing usable. */
export type RawPosition = [number, number, number?];

/** The positions of a part, exchanged if wished. */
export function positionsOf(part: Part, swap: boolean): RawPosition[][] {
  return part.lines.map((line) =>
    listOf(line).map((position): RawPosition => {
      const [first, second, third] = listOf(position).map((value) =>
        typeof value === "number" ? value : Number.NaN,
      );
      const [x, y] = [first ?? Number.NaN, second ?? Number.NaN];
      const [longitude, latitude] = swap ? [y, x] : [x, y];
      return third === undefined ? [longitude, latitude] : [longitude, latitude, third];
    }),
  );
}

/** Beyond any way of counting degrees: metres of a map grid. */
const DEGREES = 360;

export const isProjected = ([x, y]: RawPosition): boolean => Math.abs(x) > DEGREES || Math.abs(y) > DEGREES;

export const PROJECTED =
  "not degrees but eastings and northings of a map grid. Export the file again in WGS 84 (EPSG:4326), as latitude and longitude.";

const degrees = (value: number) => String(Math.round(value * 1e6) / 1e6).replace("-", "−");

/** What is wrong with a position, as a sentence that begins with `which`; null when nothing is. */
export function positionProblem(position: RawPosition, which: string): string | null {
  const [x, y, z] = position;
  if (!Number.isFinite(x) || !Number.isFinite(y))
    return Number.isFinite(z)
      ? `${which} has a height but no latitude and longitude.`
      : `${which} has no usable latitude and longitude.`;
  if (isProjected(position)) return `${which} (${degrees(x)}, ${degrees(y)}) is ${PROJECTED}`;
  if (Math.abs(y) > 90)
    return `${which} has the latitude ${degrees(y)}, beyond 90°: latitude and longitude may be swapped.`;
  return null;
}

/** Some count longitudes from 0 to 360. */
export const wrapped = ([x, y, z]: RawPosition): RawPosition =>
  z === undefined ? [normalLongitude(x), y] : [normalLongitude(x), y, z];

export const distanceTo = (site: GeoPoint, [longitude, latitude]: RawPosition): number =>
  inverse(site, { latitude, longitude: normalLongitude(longitude) }).distance;

/** Most are decided by a flat reckoning; only near the limit does it take the exact distance. */
export function isNear(site: GeoPoint, position: RawPosition): boolean {
  if (positionProblem(position, "") !== null) return false;
  const [longitude, latitude] = position;
  const across = normalLongitude(longitude - site.longitude) * Math.cos((site.latitude * Math.PI) / 180);
  const flat = Math.hypot(across, latitude - site.latitude) * METRES_PER_DEGREE;
  if (flat > 2 * SITE_RADIUS && Math.abs(site.latitude) < 80) return false;
  if (flat < SITE_RADIUS / 2 && Math.abs(site.latitude) < 80) return true;
  return distanceTo(site, position) <= SITE_RADIUS;
}

const METRES_PER_DEGREE = 111_000;
