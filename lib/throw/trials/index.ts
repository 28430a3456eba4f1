/** Practice throws: the machine that they show, the setting to try next, and a release read off a film. Never official. */
export { coverageFactor } from "./coverage";
export type { FallVerdict, FilmFall } from "./film-fall";
export type { Camera, KnownLength, Pixel } from "./film-plane";
export { releaseFromFootage } from "./film-release";
export {
  FEWEST_POINTS,
  FOOTAGE_SOURCES,
  type Footage,
  type FootageRefusal,
  type FootageResult,
  type FootageSource,
  type FrameMarks,
  UNREAD_WIND,
} from "./footage";
export { type CalibratedMachine, calibratedMachine } from "./machine";
export { type NextAsked, type NextSetting, nextSetting } from "./next-setting";
export { FEWEST_SETTINGS, FEWEST_THROWS, type OffsetFit, type OffsetRefusal } from "./offset";
export { type RefusedNumber, refusedNumber } from "./refused";
export type { Told } from "./throw-fit";
export { quickWorst, searchedWorst, type WorstOf } from "./worst-throws";
