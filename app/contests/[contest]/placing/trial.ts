/** A machine tried at a place: its zone from the stored reach, and what that does to the site. Runs in the browser. */
import type { ContestOverview, Placing } from "@/lib/api/contracts";
import { groundDistance } from "@/lib/earth";
import { type Conflict, conflictsOn, layOut, layZone, type Site, standZone } from "@/lib/zones";

export type FiringPoint = ContestOverview["firingPoints"][number];
export type Feature = ContestOverview["features"][number];

export interface Stand {
  latitude: number;
  longitude: number;
  height: number;
  accuracy: number;
}

/** `pointId` is null between the firing points. */
export interface Trial {
  pointId: string | null;
  stand: Stand;
  bearing: number;
}

export const zoneOf = standZone;

export function trialAt(point: FiringPoint, bearing: number): Trial {
  const { id, latitude, longitude, height, accuracy } = point;
  return { pointId: id, stand: { latitude, longitude, height, accuracy }, bearing };
}

/** So near a firing point means that point, m. */
const SNAP = 8;

/** Dropped at a firing point, or between them. */
export function droppedAt(
  at: { latitude: number; longitude: number },
  from: Trial,
  points: readonly FiringPoint[],
): Trial {
  const stand = { ...from.stand, ...at };
  const near = points
    .map((point) => ({ point, distance: groundDistance(stand, point, stand.height) }))
    .sort((first, second) => first.distance - second.distance)[0];
  if (near && near.distance <= SNAP) return trialAt(near.point, from.bearing);
  return { ...from, pointId: null, stand };
}

export function siteOf(features: readonly Feature[], agreements: Placing["agreements"], middle: Stand): Site {
  const agreed = new Map(agreements.map(({ featureId, expiresOn }) => [featureId, { expiresOn }]));
  return layOut(
    features.map((feature) => ({ ...feature, agreement: agreed.get(feature.id) ?? null })),
    middle,
    middle.height,
  );
}

export function touched(site: Site, trial: Trial, reach: readonly number[]): Conflict[] {
  const zone = zoneOf(trial.stand, trial.bearing, reach);
  return conflictsOn(site, layZone(site, zone)).filter(({ inConflict }) => inConflict);
}
