/** A spotter's sighting while it is made: from compass, dial or map to a bearing that says how sure it is. Pure. */

import type { KeptSighting } from "@/app/_ui/offline/database";
import { bearingText } from "@/app/_ui/words";
import { newKey } from "@/app/_ui/write/key";
import type { ControlPointInfo, SightingRequest } from "@/lib/api/contracts";
import { type GeoPoint, groundInverse, normalBearing } from "@/lib/earth";
import { DEFAULT_UNCERTAINTY } from "@/lib/survey";
import { titleOf } from "../judge/assign";
import type { JudgeShot } from "../judge/entry";

export type Sight = Pick<SightingRequest, "bearing" | "north" | "uncertainty" | "way"> & { bearing: number };
export type Way = Sight["way"];

/** How well it was seen, standard, degrees. The two worse ones are common practice, no source. */
export const SURENESS = [DEFAULT_UNCERTAINTY.spotter, 5, 10] as const;

/** The contract takes no more, degrees. */
const MOST = 90;
/** Nearer than this to the post a touch on the map says nothing of the bearing, m. */
const NEAREST = 2;

const tenth = (value: number) => Math.round(value * 10) / 10;
const sight = (way: Way, bearing: number, north: Sight["north"], uncertainty: number): Sight => ({
  bearing: normalBearing(tenth(bearing)),
  north,
  uncertainty: Math.min(MOST, Math.max(0.1, tenth(uncertainty))),
  way,
});

/**
 * The phone's compass counts from magnetic north. What it says that it may be off by at most is taken as evenly spread
 * (JCGM 100:2008, 4.3.7), and how much the hand shook is added.
 */
export const byCompass = (
  { bearing, spread, accuracy }: { bearing: number; spread: number; accuracy: number | null },
  sureness: number,
): Sight =>
  sight("compass", bearing, "magnetic", Math.hypot(sureness, spread, (accuracy ?? 0) / Math.sqrt(3)));

export const byDial = (bearing: number, north: Sight["north"], sureness: number): Sight =>
  sight("dial", bearing, north, sureness);

/** From the post to a touch on the map; null too near the post. The finger's width and the map's own error count. */
export function byMap(
  post: Pick<ControlPointInfo, "latitude" | "longitude" | "height">,
  spot: GeoPoint,
  metresPerPixel: number,
  sureness: number,
): Sight | null {
  const { distance, bearing } = groundInverse(post, spot, post.height);
  if (distance < NEAREST) return null;
  const aside = Math.hypot(DEFAULT_UNCERTAINTY.tap * metresPerPixel, DEFAULT_UNCERTAINTY.map);
  return sight("map", bearing, "true", Math.hypot(sureness, (Math.atan2(aside, distance) * 180) / Math.PI));
}

/** Ready for the phone's store; a null sight says that this post saw nothing. */
export function sightingFor(
  slug: string,
  shot: JudgeShot,
  post: ControlPointInfo,
  made: Sight | null,
  owner: string | null,
  now: Date,
): KeptSighting {
  const nothing = {
    bearing: null,
    north: "true",
    uncertainty: DEFAULT_UNCERTAINTY.spotter,
    way: "dial",
  } as const;
  return {
    kind: "sighting",
    key: newKey(),
    slug,
    owner,
    url: `/api/v1/contests/${slug}/shots/${shot.id}/sightings`,
    body: { from: post.id, ...(made ?? nothing), observedAt: now.toISOString() },
    shotId: shot.id,
    title: titleOf(shot),
    result: made ? `${bearingText(made.bearing)} from ${post.name}` : `not seen from ${post.name}`,
    madeAt: now.toISOString(),
    tried: false,
    refused: null,
  };
}

/**
 * The shot that a post sees next: the first without an entry after the last that it has done, for a spotter's shots
 * come before the judge has walked out and entered them.
 */
export function likelyShot<S extends Pick<JudgeShot, "fix"> & { out?: boolean }>(
  shots: readonly S[],
  done: (shot: S) => boolean,
): S | null {
  const open = (shot: S) => shot.fix === null && !shot.out && !done(shot);
  return shots.slice(shots.findLastIndex(done) + 1).find(open) ?? shots.find(open) ?? null;
}
