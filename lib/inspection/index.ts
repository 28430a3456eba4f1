/**
 * What is looked at and reckoned before a machine throws: the checklist by kind, transport, raising, ground, filling,
 * clearances, spares, firing permits. Pure, on lib/throw and what that stands on: the workbench uses it at home, an inspection on the day.
 */
export { type Figure, type FramePush, framePush, sweptRadius } from "./checklist/figures";
export { type Known, knownOf } from "./checklist/known";
export { LINES, type Line, linesFor } from "./checklist/lines";
export { changedSince, type Stood, stoodOn } from "./checklist/stood";
export { type GroundGaps, groundGaps, RIM_CLEARANCE, sway } from "./clearance";
export {
  type Charge,
  type ChargeFor,
  type Counterweight,
  chargeFor,
  chargeFull,
  gapIn,
} from "./fill/counterweight";
export { type Drum, depthFor, drumVolume, filledTo, type Stands } from "./fill/drum";
export { bulkDensity, FILL, FILLS, type Fill, type FillName } from "./fill/materials";
export {
  angleOfShare,
  FEET,
  type Foot,
  type Lean,
  type Levelled,
  levelFeet,
  levelSlopes,
  sideOfLean,
} from "./ground/level";
export {
  asMeasured,
  type DeclaredDimension,
  dimensionsOf,
  isOff,
  type Measured,
  offDeclared,
} from "./inspect/dimensions";
export {
  bestOutcome,
  FINDINGS,
  type Finding,
  type InspectedLine,
  type InspectionOutcome,
  needsNote,
  OUTCOMES_OF_INSPECTION,
  whatIsMissing,
} from "./inspect/outcome";
export {
  FALL_CAUSES,
  type Fall,
  type FallCause,
  fallsOf,
  type Happened,
  passes,
  type Signed,
  type Wind,
} from "./permit/falls";
export { type PermitLimits, permitLimitsSchema } from "./permit/limits";
export { tooWide, widestLimits } from "./permit/widest";
export { noteWithStop, practiceStopIn } from "./practice-stop";
export { haulingPull, ROPE_FACTOR, ratingFor, reserveOfRope, SHEAVE } from "./raise/tackle";
export { cockedBy, cocking, type Pull, standingUp, type Turned, type Turning, turn } from "./raise/turn";
export { type Spare, sparesFor } from "./spares";
export { type Pose, type PoseSize, poseOf } from "./transport/poses";
export { type TrailerItem, type TrailerLoads, trailerLoads, USUAL_SHARE } from "./transport/trailer";
