/** Designing an end stop from the energy that arrives at it. Closed forms; knows nothing of the swing. */
export type { Absorbed } from "./absorb";
export { type Anchoring, anchoring } from "./anchor";
export { BOLT_CLASSES, BOLT_SIZES, BOLT_STRENGTH, MOST_BOLTS, STRESS_AREA } from "./bolts";
export {
  STOP_KINDS,
  STOP_LIMITS,
  type StopInput,
  type StopKind,
  type StopLimit,
  stopInputSchema,
} from "./contract";
export { designStop, type StopDesign } from "./design";
