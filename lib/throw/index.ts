/**
 * How far a machine throws: as meant, and on its worst day, forwards and backwards. Pure: no I/O, no React, no
 * clock. This file is the whole of what other rooms may import from here.
 */
export * from "./breakage";
export * from "./contracts";
export { type Film, type FilmMark, filmOf } from "./film/film";
export { type FilmInstant, type FilmPaths, type MachineInstant, Reel } from "./film/reel";
export type { Drawing, Mark, Part, Point } from "./machines/drawing";
export {
  type ChoiceInfo,
  isAskedFor,
  type MachineKind,
  type ParameterInfo,
  type TableInfo,
} from "./machines/kind";
export { MACHINE_KINDS, type Machine, machineKind, machineSchema } from "./machines/registry";
export type { CurvePoint, FlightPath, Preview, SwingFrame, SwingPicture } from "./picture";
export { replay } from "./replay/replay";
export { type LengthWords, sentenceOf } from "./replay/words";
export { hazardSheet, preview } from "./sheet";
export { calibrate } from "./spread/calibration";
export { dispersionChunk, type Landings, type Spread } from "./spread/dispersion";
export { joined, summarise } from "./spread/summary";
export * from "./stop";
export { CannotThrow } from "./swing/swing";
export * as trials from "./trials";
export * as tuning from "./tuning";
export { PROJECTILE_TOLERANCE, toleranceOf } from "./worst/box";
