/**
 * What would keep a zone off what it must not touch: the least turn, the least step aside, the least move of a crowd
 * line. Each is found by search and proven with `conflicts` on the very zone it is offered with; between the tried
 * values nothing is promised, so a cheaper one may exist. Pure.
 */
import type { Polygon, Position } from "geojson";
import { type GeoPoint, groundDirect, groundInverse } from "../earth";
import { type Conflict, conflicts, type ZoneFeature } from "./conflicts";
import type { FeatureKindName } from "./kinds";
import { reachPolygon } from "./reach";

/** Where a machine stands. */
export interface Stand extends GeoPoint {
  /** Of the ground, m above the ellipsoid. */
  height: number;
}

/** Bearings clear from `from` clockwise to `to`, degrees. */
export interface ClearArc {
  from: number;
  to: number;
}

export const standZone = (stand: Stand, bearing: number, reach: readonly number[]): Polygon =>
  reachPolygon(stand, bearing, reach, stand.height);

/** What a zone does against the rule of any feature. */
export function broken(zone: Polygon, features: readonly ZoneFeature[], height: number): Conflict[] {
  return conflicts(zone, features, height).filter(({ inConflict }) => inConflict);
}

/**
 * Answers "does this zone touch nothing it must not?" many times over: what broke a rule before is looked at first,
 * so that most noes are cheap; a yes has looked at everything.
 */
export function clearOf(features: readonly ZoneFeature[], height: number): (zone: Polygon) => boolean {
  const boundaries = features.filter(({ kind }) => kind === "boundary");
  let suspects: readonly ZoneFeature[] = [];
  return (zone) => {
    if (suspects.length > 0 && broken(zone, suspects, height).length > 0) return false;
    const found = new Set(broken(zone, features, height).map(({ featureId }) => featureId));
    if (found.size === 0) return true;
    const known = new Set(suspects.map(({ id }) => id));
    const more = features.filter(({ id, kind }) => found.has(id) && !known.has(id) && kind !== "boundary");
    // Boundaries count together as one piece of ground.
    const ground = boundaries.some(({ id }) => found.has(id) && !known.has(id)) ? boundaries : [];
    suspects = [...suspects, ...more, ...ground];
    return false;
  };
}

// ---------------------------------------------------------------- turning

const turnOf = (from: number, to: number) => ((((to - from) % 360) + 540) % 360) - 180;
const normal = (bearing: number) => ((bearing % 360) + 360) % 360;
/** Clear bearings are told in steps of this, degrees. */
const STEP = 0.25;
/** So many steps into an arc its end may still fail the exact test. */
const INWARDS = 4;

export interface Turn {
  bearing: number;
  /** Degrees, clockwise positive. */
  turn: number;
}

/**
 * The nearest bearing inside a clear arc either way, the smaller turn first; both may be missing. `isClear` decides,
 * so that an arc's end that just fails is not offered.
 */
export function turnsTo(
  arcs: readonly ClearArc[],
  bearing: number,
  isClear: (bearing: number) => boolean,
): Turn[] {
  const nearest = (ends: readonly number[], way: 1 | -1): Turn[] => {
    // An end reached clockwise is entered clockwise, and the other way round.
    const ordered = ends
      .map((end) => normal(way * (end - bearing)))
      .sort((first, second) => first - second)
      .filter((turn) => turn <= 180);
    for (const turn of ordered) {
      for (let inwards = 0; inwards <= INWARDS; inwards++) {
        const at = normal(bearing + way * (turn + inwards * STEP));
        if (isClear(at)) return [{ bearing: at, turn: turnOf(bearing, at) }];
      }
    }
    return [];
  };
  return [
    ...nearest(
      arcs.map(({ from }) => from),
      1,
    ),
    ...nearest(
      arcs.map(({ to }) => to),
      -1,
    ),
  ].sort((first, second) => Math.abs(first.turn) - Math.abs(second.turn));
}

// ---------------------------------------------------------------- stepping aside

export const DIRECTIONS = ["left", "right", "ahead", "back"] as const;
export type Direction = (typeof DIRECTIONS)[number];
const ASIDE: Record<Direction, number> = { left: -90, right: 90, ahead: 0, back: 180 };

export interface Shift {
  direction: Direction;
  /** m */
  distance: number;
  stand: Stand;
}

/** Steps of the first look and the fineness of the answer, m. */
const LOOK = 4;
const FINE = 0.5;

/** The least of `LOOK`, 2·`LOOK` … `most` that works, brought down by halving to `FINE`; null when none works. */
function least(most: number, works: (distance: number) => boolean): number | null {
  for (let far = LOOK; far <= most; far += LOOK) {
    if (!works(far)) continue;
    let [bad, good] = [far - LOOK, far];
    while (good - bad > FINE) {
      const middle = (good + bad) / 2;
      if (works(middle)) good = middle;
      else bad = middle;
    }
    return good;
  }
  return null;
}

/** How far a machine must step left, right, ahead or back along its bearing, up to `most` m; the least first. */
export function shiftsTo(
  stand: Stand,
  bearing: number,
  reach: readonly number[],
  isClear: (zone: Polygon) => boolean,
  most = 60,
): Shift[] {
  return DIRECTIONS.flatMap((direction): Shift[] => {
    const at = (distance: number): Stand => ({
      ...stand,
      ...groundDirect(stand, bearing + ASIDE[direction], distance, stand.height),
    });
    const distance = least(most, (metres) => isClear(standZone(at(metres), bearing, reach)));
    return distance === null ? [] : [{ direction, distance, stand: at(distance) }];
  }).sort((first, second) => first.distance - second.distance);
}

// ---------------------------------------------------------------- moving what is touched

/** What an organiser can lay out elsewhere. */
export const MOVABLE: readonly FeatureKindName[] = ["spectators", "car-park", "path", "post", "crew-shelter"];

export interface Move {
  geometry: ZoneFeature["geometry"];
  distance: number;
  /** Degrees true. */
  bearing: number;
}

/**
 * The shortest of the tried moves of a whole feature after which none of the zones is against its rule: straight away
 * from the firing point and 45° and 90° to either side. Null when `most` m do not suffice.
 */
export function moveAway(
  feature: ZoneFeature,
  zones: readonly Polygon[],
  stand: Stand,
  most = 100,
): Move | null {
  const corners = positionsOf(feature.geometry);
  const away = Math.min(...corners.map((corner) => groundInverse(stand, corner, stand.height).distance));
  const nearest = corners.find((c) => groundInverse(stand, c, stand.height).distance === away) ?? stand;
  const outwards = groundInverse(stand, nearest, stand.height).bearing;
  const moves = [0, -45, 45, -90, 90].flatMap((aside): Move[] => {
    const bearing = normal(Math.round(outwards + aside));
    const at = (distance: number) => movedBy(feature.geometry, bearing, distance, stand.height);
    const distance = least(most, (metres) => {
      const moved = { ...feature, geometry: at(metres) };
      return zones.every((zone) => broken(zone, [moved], stand.height).length === 0);
    });
    return distance === null ? [] : [{ geometry: at(distance), distance, bearing }];
  });
  return moves.sort((first, second) => first.distance - second.distance)[0] ?? null;
}

function positionsOf(geometry: ZoneFeature["geometry"]): GeoPoint[] {
  const positions =
    geometry.type === "Point"
      ? [geometry.coordinates]
      : geometry.type === "LineString"
        ? geometry.coordinates
        : geometry.coordinates.flat();
  return (positions as [number, number][]).map(([longitude, latitude]) => ({ latitude, longitude }));
}

/** Coordinates to 1 mm, as a drawn feature has them. */
const rounded = (degrees: number) => Math.round(degrees * 1e8) / 1e8;

function movedBy(
  geometry: ZoneFeature["geometry"],
  bearing: number,
  distance: number,
  height: number,
): ZoneFeature["geometry"] {
  const move = ([longitude, latitude]: Position): Position => {
    const from = { latitude: latitude as number, longitude: longitude as number };
    const to = groundDirect(from, bearing, distance, height);
    return [rounded(to.longitude), rounded(to.latitude)];
  };
  switch (geometry.type) {
    case "Point":
      return { ...geometry, coordinates: move(geometry.coordinates) };
    case "LineString":
      return { ...geometry, coordinates: geometry.coordinates.map(move) };
    case "Polygon":
      return { ...geometry, coordinates: geometry.coordinates.map((ring) => ring.map(move)) };
  }
}

// ---------------------------------------------------------------- what a cure costs

/**
 * Points for each kind of cure: so many at once, and so many more for each of what it takes. A guide to their order,
 * not a price: common practice, no source.
 */
export const CURE_COSTS = {
  turn: { once: 1, each: 0.1, text: "Turning it: 1 point, and 1 more for every 10 degrees." },
  shift: {
    once: 4,
    each: 0.2,
    text: "Moving the machine to a new firing point: 4 points, and 1 more for every 5 metres.",
  },
  point: {
    once: 3,
    each: 0.05,
    text: "Moving it to a free firing point: 3 points, 1 more for every 20 metres, and what its turn costs beyond the first point.",
  },
  crowd: {
    once: 6,
    each: 0.3,
    text: "Moving what is touched: 6 points for each feature, and 3 more for every 10 metres.",
  },
  strength: {
    once: 2,
    each: 0.4,
    text: "A weaker machine: 2 points, and 4 more for every tenth of its distance that it loses.",
  },
} as const;

export type CureKind = keyof typeof CURE_COSTS;

/** `amount`: degrees, metres, or percent of the distance as meant. */
export const cureCost = (kind: CureKind, amount: number): number =>
  CURE_COSTS[kind].once + CURE_COSTS[kind].each * Math.abs(amount);
