/**
 * The bearings on which a machine's zone touches nothing that it must not.
 *
 * Seen from the firing point each feature with its stand-off begins at some distance on every quarter degree, and the
 * zone turned to a bearing reaches so far on every quarter degree: the bearing is clear if it reaches less on all of
 * them. Both sides hold for whole quarter degrees, so a run of clear bearings is clear between them too.
 */
import type { GeoPoint } from "../earth";
import { type BearingArc, BearingSet } from "./bearing-set";
import { conflictsOn } from "./conflicts";
import { lowerBy } from "./polar";
import { profileOf, STEPS, STEPS_A_DEGREE } from "./profile";
import { outlineExcess, reachPolygon } from "./reach";
import { type LaidFeature, layOut, layZone, type Site, type ZoneFeature } from "./site";

export type { BearingArc };

/** Where a machine stands. */
export interface Stand extends GeoPoint {
  /** Of the ground, m above the ellipsoid. */
  height: number;
  /** How far a machine on it may stand from these coordinates, m. */
  accuracy?: number | undefined;
}

export interface ClearBearings {
  /** In quarter degrees. */
  clear: BearingArc[];
  /** The rest, with the id of every feature that blocks a bearing of it. */
  blocked: (BearingArc & { by: string[] })[];
}

/** More than the drawn outline's excess, a touch's width and the plane's distortions come to, m. */
const slackOf = (farthest: number) => outlineExcess(farthest) + 0.02 + farthest ** 3 * 1e-14;
/** How many quarter degrees the exact test may add to an arc on either side. */
const MOST_ADDED = 2;

/** What may block a bearing, seen from a stand. */
interface Seen {
  id: string;
  /** By quarter degree clockwise from north, how near it comes with its stand-off, m. */
  profile: Float64Array;
  /** The least of that; 0 blocks every bearing. */
  nearest: number;
  laid: LaidFeature;
}

/** What lies around a firing point, for every machine that might stand there and reaches no farther than this. */
export interface Surroundings {
  stand: Stand;
  site: Site;
  seen: readonly Seen[];
  /** The nearest of all of them. */
  all: Pick<Seen, "profile" | "nearest">;
}

/** The farthest that a machine's zone comes from its firing point, m. */
const farthestOf = (reach: readonly number[], stand: Stand) => Math.max(...reach) + (stand.accuracy ?? 0);

export function surroundings(
  stand: Stand,
  features: readonly ZoneFeature[],
  reaches: readonly (readonly number[])[],
): Surroundings {
  const farthest = Math.max(1, ...reaches.map((reach) => farthestOf(reach, stand)));
  // A plane of its own: in another one's, north would be turned.
  const site = layOut(features, stand, stand.height);
  const slack = slackOf(farthest);
  const seen = site.features.flatMap((laid): Seen[] => {
    const { feature, rule, standOff } = laid;
    const strict = rule === "protected" || rule === "contains";
    if (feature.agreement || (!strict && standOff === 0)) return [];
    const margin = standOff + slack;
    const profile = new Float64Array(STEPS).fill(Number.POSITIVE_INFINITY);
    const blocksAll = rule === "contains" && site.ground ? outsideGround(site) : within(laid);
    const edges = rule === "contains" && site.ground ? site.ground.edges : laid.edges;
    if (blocksAll || !lowerByAll(profile, edges, margin, farthest)) profile.fill(0);
    let nearest = Number.POSITIVE_INFINITY;
    for (let step = 0; step < STEPS; step++) if (profile[step] < nearest) nearest = profile[step];
    return nearest > farthest ? [] : [{ id: feature.id, profile, nearest, laid }];
  });
  const profile = new Float64Array(STEPS).fill(Number.POSITIVE_INFINITY);
  for (const each of seen)
    for (let step = 0; step < STEPS; step++) profile[step] = Math.min(profile[step], each.profile[step]);
  const nearest = Math.min(Number.POSITIVE_INFINITY, ...seen.map((each) => each.nearest));
  return { stand, site, seen, all: { profile, nearest } };
}

/** The stand is the plane's origin. */
const outsideGround = ({ ground }: Site) => ground !== null && !ground.index.contains(0, 0);

function within({ shape, edges }: LaidFeature): boolean {
  if (shape.polygons.length === 0) return false;
  let inside = false;
  for (let at = 0; at < edges.length; at += 4) {
    const [ax, ay, bx, by] = [edges[at], edges[at + 1], edges[at + 2], edges[at + 3]];
    if (ay > 0 !== by > 0 && ax - (ay * (bx - ax)) / (by - ay) > 0) inside = !inside;
  }
  return inside;
}

/** False when the stand itself lies within the margin of an edge. */
function lowerByAll(profile: Float64Array, edges: Float64Array, margin: number, farthest: number): boolean {
  const beyond = farthest + margin;
  for (let at = 0; at < edges.length; at += 4) {
    const [ax, ay, bx, by] = [edges[at], edges[at + 1], edges[at + 2], edges[at + 3]];
    if (Math.min(ax, bx) > beyond || Math.max(ax, bx) < -beyond) continue;
    if (Math.min(ay, by) > beyond || Math.max(ay, by) < -beyond) continue;
    if (!lowerBy(profile, ax, ay, bx, by, margin)) return false;
  }
  return true;
}

/** For each different reach, largest first, on which quarter degrees a zone reaches as far or farther, mirrored. */
class Reaches {
  readonly #levels: number[] = [];
  readonly #sets: BearingSet[] = [];

  constructor(profile: Float64Array) {
    const order = [...profile.keys()].sort((a, b) => profile[b] - profile[a]);
    const set = new BearingSet();
    for (const step of order) {
      const radius = profile[step];
      if (radius !== this.#levels.at(-1)) {
        this.#levels.push(radius);
        this.#sets.push(set.copy());
      }
      const mirrored = (STEPS - step) % STEPS;
      set.add(mirrored);
      (this.#sets.at(-1) as BearingSet).add(mirrored);
    }
  }

  /** The steps that reach as far as this or farther; null when none does. */
  atLeast(distance: number): BearingSet | null {
    let [low, high] = [0, this.#levels.length];
    while (low < high) {
      const middle = (low + high) >> 1;
      if (this.#levels[middle] >= distance) low = middle + 1;
      else high = middle;
    }
    return low === 0 ? null : (this.#sets[low - 1] as BearingSet);
  }
}

/** A zone that reaches out on step j meets what lies on step i when it is turned by i − j. */
function blockedBy({ profile, nearest }: Surroundings["all"], reaches: Reaches): BearingSet | null {
  if (!reaches.atLeast(nearest)) return null;
  const blocked = new BearingSet();
  if (nearest === 0) {
    blocked.fill();
    return blocked;
  }
  for (let step = 0; step < STEPS; step++) {
    if (profile[step] === Number.POSITIVE_INFINITY) continue;
    const far = reaches.atLeast(profile[step]);
    if (far) blocked.addTurned(far, step);
  }
  return blocked;
}

const reachesAt = ({ stand }: Surroundings, reach: readonly number[]) =>
  new Reaches(profileOf(reach, stand.accuracy));

/** The bearings that nothing blocks, not yet tried on a drawn zone. */
export function freeBearings(around: Surroundings, reach: readonly number[]): BearingSet {
  return (blockedBy(around.all, reachesAt(around, reach)) ?? new BearingSet()).others();
}

/** Of every feature that blocks any, the bearings that it blocks. */
export function blockers(
  around: Surroundings,
  reach: readonly number[],
): { id: string; blocked: BearingSet }[] {
  const reaches = reachesAt(around, reach);
  return around.seen.flatMap((seen) => {
    const blocked = blockedBy(seen, reaches);
    return blocked ? [{ id: seen.id, blocked }] : [];
  });
}

/** Answers whether the drawn zone is clear on a bearing, by the exact measures. */
export function exactTest(around: Surroundings, reach: readonly number[]): (bearing: number) => boolean {
  const { stand, site, seen } = around;
  const features = seen.map(({ laid }) => laid);
  const near: Site = { ...site, features, order: [...features.keys()] };
  return (bearing) => {
    const zone = layZone(near, reachPolygon(stand, bearing, reach, stand.height, stand.accuracy));
    return !conflictsOn(near, zone).some(({ inConflict }) => inConflict);
  };
}

/** Runs of the set by the exact test: ends that fail are taken off, ends that can go on for a step or two do. */
function settled(free: BearingSet, isClear: (bearing: number) => boolean): BearingSet {
  const set = free.copy();
  const clear = (step: number) => isClear(step / STEPS_A_DEGREE);
  for (const { from, to } of free.arcs()) {
    if (to - from === 360) continue;
    for (const [end, outwards] of [
      [from * STEPS_A_DEGREE, STEPS - 1],
      [to * STEPS_A_DEGREE, 1],
    ] as const) {
      let step = end;
      const inwards = STEPS - outwards;
      while (set.has(step) && !clear(step)) {
        set.delete(step);
        step = (step + inwards) % STEPS;
      }
      if (step !== end) continue;
      for (let added = 0; added < MOST_ADDED; added++) {
        step = (step + outwards) % STEPS;
        if (set.has(step) || !clear(step)) break;
        set.add(step);
      }
    }
  }
  return set;
}

/**
 * On which bearings, to a quarter of a degree, a machine with this reach (as `reachPolygon` takes it) is clear at a
 * firing point: its zone touches nothing protected, comes no nearer than any stand-off and stays inside the boundary.
 * Every bearing of a clear arc is clear by the exact `conflicts` too; a blocked one at the very end of an arc, or a
 * gap of a quarter degree, may be clear by a hair.
 */
export function clearBearings(
  stand: Stand,
  reach: readonly number[],
  features: readonly ZoneFeature[],
): ClearBearings {
  return clearAmid(surroundings(stand, features, [reach]), reach);
}

/** `clearBearings` with what lies around a firing point looked at once for many machines. */
export function clearAmid(around: Surroundings, reach: readonly number[]): ClearBearings {
  const clear = settled(freeBearings(around, reach), exactTest(around, reach));
  const inTheWay = blockers(around, reach);
  return {
    clear: clear.arcs(),
    blocked: clear
      .others()
      .arcs()
      .map((arc) => ({
        ...arc,
        by: inTheWay.flatMap(({ id, blocked }) => (blocked.meets(arc) ? [id] : [])),
      })),
  };
}
