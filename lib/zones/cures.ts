/**
 * What would keep a zone off what it must not touch: the least turn, the least step aside, the least move of a crowd
 * line. Each is found by search and proven with `conflictsOn` on the very zone it is offered with; between the tried
 * values nothing is promised, so a cheaper one may exist. Pure.
 */
import type { Polygon, Position } from "geojson";
import { type GeoPoint, groundDirect, groundInverse, normalBearing, turnOf } from "../earth";
import type { BearingArc, Stand } from "./clear-bearings";
import { type Conflict, conflictsOn } from "./conflicts";
import type { FeatureKindName } from "./kinds";
import { linesOf } from "./lines";
import { reachPolygon } from "./reach";
import { layOut, layZone, type Site, type ZoneFeature } from "./site";

export const standZone = (stand: Stand, bearing: number, reach: readonly number[]): Polygon =>
  reachPolygon(stand, bearing, reach, stand.height, stand.accuracy);

/** What a zone does against the rule of any feature of a site. */
export function broken(site: Site, zone: Polygon): Conflict[] {
  return conflictsOn(site, layZone(site, zone)).filter(({ inConflict }) => inConflict);
}

/**
 * Answers "does this zone touch nothing it must not?" many times over: what broke a rule before is looked at first,
 * so that most noes are cheap; a yes has looked at everything.
 */
export function clearOn(site: Site): (zone: Polygon) => boolean {
  const suspects = new Set<string>();
  return (zone) => {
    const laid = layZone(site, zone);
    const against = (features: Site["features"]) => {
      const ground = features.some(({ rule }) => rule === "contains") ? site.ground : null;
      const part: Site = { ...site, features, order: [...features.keys()], ground };
      return conflictsOn(part, laid).filter(({ inConflict }) => inConflict);
    };
    const suspected = site.features.filter(({ feature }) => suspects.has(feature.id));
    if (suspected.length > 0 && against(suspected).length > 0) return false;
    const found = against(site.features);
    for (const { featureId } of found) suspects.add(featureId);
    return found.length === 0;
  };
}

// ---------------------------------------------------------------- turning

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
  arcs: readonly BearingArc[],
  bearing: number,
  isClear: (bearing: number) => boolean,
): Turn[] {
  const nearest = (ends: readonly number[], way: 1 | -1): Turn[] => {
    // An end reached clockwise is entered clockwise, and the other way round.
    const ordered = ends
      .map((end) => normalBearing(way * (end - bearing)))
      .sort((first, second) => first - second)
      .filter((turn) => turn <= 180);
    for (const turn of ordered) {
      for (let inwards = 0; inwards <= INWARDS; inwards++) {
        const at = normalBearing(bearing + way * (turn + inwards * STEP));
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

/** The least step one way, as seen along the bearing, of up to `most` m; null when none is enough. */
export function shiftTo(
  direction: Direction,
  stand: Stand,
  bearing: number,
  reach: readonly number[],
  isClear: (zone: Polygon) => boolean,
  most = 60,
): Shift | null {
  const at = (distance: number): Stand => ({
    ...stand,
    ...groundDirect(stand, bearing + ASIDE[direction], distance, stand.height),
  });
  const distance = least(most, (metres) => isClear(standZone(at(metres), bearing, reach)));
  return distance === null ? null : { direction, distance, stand: at(distance) };
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
  site: Site,
  feature: ZoneFeature,
  zones: readonly Polygon[],
  stand: Stand,
  most = 100,
): Move | null {
  const { origin, height } = site.plane;
  const laid = zones.map((zone) => layZone(site, zone));
  const fits = (geometry: ZoneFeature["geometry"]) => {
    const alone = layOut([{ ...feature, geometry }], origin, height);
    return laid.every((zone) => conflictsOn(alone, zone).every(({ inConflict }) => !inConflict));
  };
  const lines = placesOf(feature.geometry).map((at) => groundInverse(stand, at, stand.height));
  const outwards = lines.reduce((near, line) => (line.distance < near.distance ? line : near)).bearing;
  const moves = [0, -45, 45, -90, 90].flatMap((aside): Move[] => {
    const bearing = normalBearing(Math.round(outwards + aside));
    const at = (distance: number) => movedBy(feature.geometry, bearing, distance, stand.height);
    const distance = least(most, (metres) => fits(at(metres)));
    return distance === null ? [] : [{ geometry: at(distance), distance, bearing }];
  });
  return moves.sort((first, second) => first.distance - second.distance)[0] ?? null;
}

/** Places along an edge at which its nearest is looked for. */
const ALONG = 16;

/** Places all along a geometry. */
function placesOf(geometry: ZoneFeature["geometry"]): GeoPoint[] {
  const lines = linesOf(geometry) as [number, number][][];
  return lines.flatMap((line) =>
    line.flatMap(([longitude, latitude], index) => {
      const [east, north] = line[index + 1] ?? [longitude, latitude];
      return Array.from({ length: ALONG }, (_, part) => ({
        latitude: latitude + ((north - latitude) * part) / ALONG,
        longitude: longitude + ((east - longitude) * part) / ALONG,
      }));
    }),
  );
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

// ---------------------------------------------------------------- a barrier before what is touched

const RADIANS = Math.PI / 180;
/** A wall is wider than what it shades by so much on either side, degrees: a zone counts on none of its ends. */
const WIDER = 4;
/** It stands so much nearer than the stand-off asks, m. */
const NEARER = 2;
/** Nearer to the firing point nobody builds one, m; nor one that goes round more of it, degrees. */
const NEAREST = 5;
const WIDEST = 120;

export interface Wall {
  /** Longitude before latitude: one straight line. */
  line: [[number, number], [number, number]];
  /** m */
  length: number;
  /** Of its nearer parts from the firing point, m. */
  distance: number;
}

/**
 * The straight line before all that a zone touches or comes too near to, as seen from the firing point; null where it
 * would stand in the machine's way or go round it. Whether a barrier there stops anything is for the engine to say.
 */
export function wallBefore(
  touched: readonly { geometry: ZoneFeature["geometry"]; standOff: number }[],
  stand: Stand,
  bearing: number,
  reach: readonly number[],
): Wall | null {
  const seen = touched.flatMap(({ geometry, standOff }) =>
    placesOf(geometry).flatMap((at) => {
      const { distance, bearing: towards } = groundInverse(stand, at, stand.height);
      const near = reach[Math.round(normalBearing(towards - bearing)) % 360] as number;
      // What comes past its ends keeps the stand-off too.
      const aside = Math.atan2(standOff, distance) / RADIANS + WIDER;
      return distance <= near + standOff ? [{ towards, distance: distance - standOff - NEARER, aside }] : [];
    }),
  );
  const distance = Math.min(...seen.map((place) => place.distance));
  if (seen.length === 0 || distance < NEAREST) return null;
  const nearest = seen.find((place) => place.distance === distance)?.towards as number;
  const left = Math.min(...seen.map(({ towards, aside }) => turnOf(nearest, towards) - aside));
  const right = Math.max(...seen.map(({ towards, aside }) => turnOf(nearest, towards) + aside));
  if (right - left > WIDEST) return null;
  const end = (turn: number): [number, number] => {
    const { latitude, longitude } = groundDirect(stand, nearest + turn, distance, stand.height);
    return [rounded(longitude), rounded(latitude)];
  };
  const half = ((right - left) / 2) * RADIANS;
  return {
    line: [end(left), end(right)],
    length: 2 * distance * Math.sin(half),
    distance: distance * Math.cos(half),
  };
}

// ---------------------------------------------------------------- what a cure costs

/**
 * Points for each kind of cure: so many at once, and so many more for each degree of a turn, each metre of a move, each
 * square metre of a barrier and each percent of the distance as meant that a weaker machine loses. A guide to their order, not a price: common
 * practice, no source.
 */
export const CURE_COSTS = {
  turn: { once: 1, each: 0.1 },
  point: { once: 3, each: 0.05 },
  shift: { once: 4, each: 0.2 },
  crowd: { once: 6, each: 0.3 },
  strength: { once: 2, each: 0.4 },
  barrier: { once: 10, each: 0.1 },
} as const;

export type CureKind = keyof typeof CURE_COSTS;

export const cureCost = (kind: CureKind, amount: number): number =>
  CURE_COSTS[kind].once + CURE_COSTS[kind].each * Math.abs(amount);
