/** Keep-out zones: their outline from the reach by azimuth, and what they do to the features of the site. */
export { type Agreement, agreementOf, type Days, type RegisteredConsent } from "./agreement";
export {
  type BearingArc,
  type ClearBearings,
  clearAmid,
  clearBearings,
  type Stand,
  type Surroundings,
  surroundings,
} from "./clear-bearings";
export { type Conflict, conflicts, conflictsOn } from "./conflicts";
export {
  type ChanceContour,
  CONTOUR_LABEL,
  chanceContours,
  type LandingSpread,
  landingSpread,
} from "./contours";
export * from "./cures";
export { type DayZone, dayZone } from "./day";
export {
  type FeatureGeometry,
  featureGeometrySchema,
  featureWarnings,
  geometryProblem,
  SITE_RADIUS,
} from "./feature-check";
export * from "./kinds";
export { linesOf } from "./lines";
export { type InZone, pieceInZone, type StoodZone, stretched } from "./piece-in-zone";
export { type MachineToPlace, type Placement, type PlacePoint, type Placing, place } from "./placing";
export { cutAtAntimeridian, reachPolygon } from "./reach";
export { type LaidZone, layOut, layZone, type Site, type ZoneFeature } from "./site";
export { type CrewPlace, type StandClear, standClear } from "./stand-clear";
export { type WalkGround, type WalkState, type WalkZone, type Way, walkGround, walkState } from "./walk";
export { type ZoneDistances, zoneDistances } from "./zone-distances";
