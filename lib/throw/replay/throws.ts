/** Throws of one machine let go at any instant, in any air that counts, and of its corners where those are needed. */
import { moved } from "../case";
import { refusals } from "../check";
import type { HazardRequest } from "../contracts/request";
import type { Air } from "../flight/flight";
import type { Instant } from "../release";
import type { Frame } from "../setup";
import { CannotThrow } from "../swing/swing";
import { type Box, cornerOf, requestAt } from "../worst/box";
import { QUICK } from "../worst/quick";
import { type AirName, between, skyOf, worstSkies } from "./airs";
import { EXACT, type Found, foundOf, MEAN, type Scene } from "./found";
import { InstantScan, type Scanned } from "./instants";
import type { Lander, Limits } from "./landing";

/** Halvings of a share: the least that will do is then known to 3 %. */
const HALVINGS = 5;

interface Shared {
  lander: Lander;
  limits: Limits;
  /** The throw as meant of the declared machine, by which early and late are told. */
  nominal: Instant | null;
}

/** Groups of instants that a fit is known for; a second one that needs more of air or tolerance adds nothing. */
export type Met = Set<string>;

/** The releases of the declared machine, in the mean wind and then in each other air for the groups still missing. */
export function declaredThrows(
  request: HazardRequest,
  releases: ReturnType<typeof moved>["releases"],
  scene: Omit<Scene, "air" | "tolerance">,
  { lander, limits, nominal }: Shared,
  met: Met,
): Found[] {
  const scan = new InstantScan(releases, lander, limits, nominal);
  const speed = nominal ? Math.hypot(nominal.vx, nominal.vy) : fastestOf(releases.list);
  const { mean, others } = skyOf(request, speed);
  const out: Found[] = [];
  const keep = ({ hits, nearest }: Scanned, name: AirName, share: number) => {
    const air = name === "mean" ? MEAN : { name, share };
    for (const hit of [...hits, ...nearest]) {
      out.push(foundOf(hit, { ...scene, air, tolerance: EXACT }, nominal, lander.target));
    }
  };
  const plain = scan.run(mean);
  keep(plain, "mean", 0);
  for (const { key } of fitting(plain, lander)) met.add(key);
  for (const { name, air } of [...others, ...worstSkies(request)]) {
    const found = scan.run(air);
    for (const key of new Set(fitting(found, lander).map((hit) => hit.key))) {
      if (met.has(key)) continue;
      met.add(key);
      const mixed = (share: number) => scan.run(between(mean, air, share, speed), key);
      const share = name === "worst" ? 1 : leastShare((at) => fitting(mixed(at), lander).length > 0);
      keep(share < 1 ? mixed(share) : only(found, key), name, share);
    }
    if (name === "worst")
      keep({ hits: [], nearest: found.nearest.filter(({ key }) => !met.has(key)) }, name, 1);
  }
  return out;
}

/** A corner of a box, as a point of it. */
export interface Corner {
  box: Box;
  point: Float64Array;
}

/**
 * The groups that no throw of the declared machine meets, on the corners in turn: the first that meets one, by the
 * least share of its way.
 */
export function cornerThrows(
  corners: readonly Corner[],
  scene: Omit<Scene, "air" | "tolerance" | "load" | "frame">,
  shared: Shared,
  met: Met,
  tried: () => boolean,
): Found[] {
  const { lander, limits, nominal } = shared;
  const out: Found[] = [];
  for (const { box, point } of corners) {
    if (!tried()) break;
    const skies = skiesAt(box, point);
    if (!skies) continue;
    const scanAt = (share: number) => {
      const releases = releasesAt(requestAt(box, scaled(point, share)), box.frame);
      return releases && new InstantScan(releases, lander, limits, nominal);
    };
    const whole = scanAt(1);
    if (!whole) continue;
    for (const { name, air } of skies) {
      const found = whole.run(air);
      const keep = (each: Scanned, share: number) => {
        const tolerance = { share, corner: cornerOf(box, scaled(point, share)) };
        const { load, frame } = box;
        const full = { ...scene, load, frame, air: { name, share: name === "mean" ? 0 : 1 }, tolerance };
        for (const hit of [...each.hits, ...each.nearest])
          out.push(foundOf(hit, full, nominal, lander.target));
      };
      for (const key of new Set(fitting(found, lander).map((hit) => hit.key))) {
        const known = `${box.load}/${key}`;
        if (met.has(known) || (box.load === "declared" && met.has(key))) continue;
        met.add(known);
        const fits = (share: number) => {
          const scan = scanAt(share);
          return scan !== null && fitting(scan.run(air, key), lander).length > 0;
        };
        const share = leastShare(fits);
        keep(share < 1 ? (scanAt(share)?.run(air, key) ?? only(found, key)) : only(found, key), share);
      }
      keep({ hits: [], nearest: found.nearest.filter(({ key }) => !met.has(`${box.load}/${key}`)) }, 1);
    }
  }
  return out;
}

/** A corner's air is first the mean wind, then the worst. */
function skiesAt(box: Box, point: Float64Array): { name: AirName; air: Air }[] | null {
  const request = requestAt(box, point);
  if (refusals(request).length > 0) return null;
  return [{ name: "mean", air: skyOf(request, 0).mean }, ...worstSkies(request)];
}

function releasesAt(request: HazardRequest, frame: Frame) {
  if (refusals(request).length > 0) return null;
  try {
    return moved(request, frame, QUICK).releases;
  } catch (error) {
    if (error instanceof CannotThrow || error instanceof RangeError) return null;
    throw error;
  }
}

const scaled = (point: Float64Array, share: number) => point.map((u) => u * share);

const only = ({ hits, nearest }: Scanned, key: string): Scanned => ({
  hits: hits.filter((hit) => hit.key === key),
  nearest: nearest.filter((hit) => hit.key === key),
});

const fitting = ({ hits, nearest }: Scanned, { target }: Lander) =>
  [...hits, ...nearest].filter(({ miss }) => miss <= target.uncertainty);

/** The least share of the way at which something still holds, given that it holds at 1. */
function leastShare(holds: (share: number) => boolean): number {
  let [low, high] = [0, 1];
  for (let i = 0; i < HALVINGS; i++) {
    const middle = (low + high) / 2;
    if (holds(middle)) high = middle;
    else low = middle;
  }
  return high;
}

const fastestOf = (list: readonly Instant[]) =>
  list.reduce((most, { vx, vy }) => Math.max(most, Math.hypot(vx, vy)), 0);
