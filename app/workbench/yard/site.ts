/** A yard as the map's pages and files take a site. Pure. */
import type { LaidOut } from "@/app/_ui/site-editor/draft";
import type { ContestOverview } from "@/lib/api/contracts";
import type { SiteContents, ZoneContents } from "@/lib/exchange";
import type { Yard } from "./yard";

export interface YardSite extends LaidOut {
  firingPoints: (ContestOverview["firingPoints"][number] & { bearing?: number })[];
  latitude: number;
  longitude: number;
  height: number;
  declination: number;
}

/** Nothing is retired and nothing allowed: what is taken away is gone, and a yard has no safety officer. */
export function siteOf(yard: Yard): YardSite {
  const { latitude, longitude, declination } = yard;
  const ground = yard.height ?? 0;
  const laid = <P extends { height: number | null }>(point: P) => ({
    ...point,
    height: point.height ?? ground,
    heightGiven: point.height !== null,
    retired: false,
  });
  return {
    ...{ latitude, longitude, declination },
    height: ground,
    features: yard.features.map((feature) => ({ ...feature, allowance: null, retired: false })),
    firingPoints: yard.firingPoints.map(({ bearing, ...point }) => ({
      ...laid(point),
      ...(bearing === null ? {} : { bearing }),
    })),
    controlPoints: yard.controlPoints.map(laid),
    spotHeights: yard.spotHeights.map((spot) => ({ ...spot, retired: false })),
  };
}

/** What a file of the yard holds: not who decides there, nor its own name, height and declination. */
export const contentsOf = (yard: Yard, zones: readonly ZoneContents[]): SiteContents => ({
  name: yard.name || "Practice yard",
  features: yard.features,
  firingPoints: yard.firingPoints,
  controlPoints: yard.controlPoints,
  spotHeights: yard.spotHeights,
  zones,
  barriers: [],
});
