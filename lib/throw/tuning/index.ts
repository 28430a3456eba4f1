/** Tuning a machine: what one number does to the throw, and which numbers throw best. Never official. */
export type { Range } from "./crossings";
export { curve, type TuningPoint } from "./curve";
export { type Evaluation, evaluate, MEASURES, type Measure, type Measures } from "./evaluate";
export { ARM_RATIO, isInRange, type Knob, knobsOf, knobValue, withValues } from "./knobs";
export { effectOf, plainStep, type Sensitivity, scatter, sensitivities } from "./sensitivity";
export { type Goal, type Limits, type Tuned, type TuningResult, tune } from "./tune";
export { usualLimits } from "./usual";
