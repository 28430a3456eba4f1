/**
 * Measuring a landing point: each method from what a judge enters to a point, its covariance and a mark. Pure.
 *
 * `METHODS` is every way to measure with its title, contract and fields, from which a form can be made. `measure` turns
 * a fix into a point with its warnings, `combine` several fixes of one shot into one, `markOf` a point into the mark by
 * the contest's rule.
 */
export { AGREEMENT_LEVEL, BLUNDER_LIMIT, type Residual } from "./adjust";
export type { Budget, Contribution, Covariance } from "./budget";
export { type Combined, combine } from "./combine";
export * from "./fix";
export { type Ellipse, ellipseOf, type RoughPoint, roughPointOf, type WayThere, wayThere } from "./guide";
export { type Located, locate, type Measured, measure } from "./locate";
export { type InSector, type Mark, type MarkRule, markOf, markRuleSchema, type Verdict } from "./mark-of";
export {
  type Field,
  type FixMethod,
  LANDINGS,
  METHODS,
  RECEIVERS,
  SATELLITES,
  type SurveyMethod,
  sightSchema,
} from "./methods";
export { FIRING_POINT, type FiringPoint, type Peg, type Site } from "./site";
export { COVERAGE_FACTOR, DEFAULT_UNCERTAINTY, tapeUncertainty } from "./uncertainty";
export { WARNING_CODES, type Warning, type WarningCode } from "./warnings";
