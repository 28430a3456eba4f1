/** What the engine is asked of a machine on a site: the same for a contest and for a practice yard. Pure. */
import {
  type Air,
  type Barrier,
  type Declaration,
  type HazardRequest,
  hazardRequestSchema,
  type Policy,
  type Terrain,
} from "../throw";

/** `site.height`: of its ground, m above the ellipsoid. Throws ZodError on what no request may hold. */
export function siteRequest(
  site: { latitude: number; height: number; policy: Policy },
  declaration: Declaration,
  { air, terrain, barriers = [] }: { air: Air; terrain?: Terrain | null | undefined; barriers?: Barrier[] },
): HazardRequest {
  const { latitude, height, policy } = site;
  return hazardRequestSchema.parse({
    ...declaration,
    policy,
    // The ground's height above the ellipsoid stands in for that above sea level: at most some 100 m, 1 % of density.
    air: air.pressure === undefined && air.altitude === undefined ? { ...air, altitude: height } : air,
    ...(terrain && { terrain }),
    ...(barriers.length > 0 && { barriers }),
    site: { latitude, height },
  });
}
