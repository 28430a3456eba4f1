/** Keep-out zones: their outline from the reach by azimuth, and what they do to the features of the site. */
export { type Conflict, conflicts, type ZoneFeature } from "./conflicts";
export * from "./cures";
export {
  type FeatureGeometry,
  featureGeometrySchema,
  featureWarnings,
  geometryProblem,
} from "./feature-check";
export * from "./kinds";
export { cutAtAntimeridian, reachPolygon } from "./reach";
