/** The bearings on which a machine's zone touches nothing that it must not. */
import type { GeoPoint } from "../earth";

/** Where a machine stands. */
export interface Stand extends GeoPoint {
  /** Of the ground, m above the ellipsoid. */
  height: number;
  /** How far a machine on it may stand from these coordinates, m. */
  accuracy?: number | undefined;
}

/** Clockwise from one bearing to another, both included, degrees true in quarter degrees; `to` may pass 360. */
export interface BearingArc {
  from: number;
  to: number;
}

export interface ClearBearings {
  clear: BearingArc[];
  /** The rest, with every feature that blocks some bearing of it, by id. */
  blocked: (BearingArc & { featureIds: string[] })[];
}
