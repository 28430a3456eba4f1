/** Every way to measure a landing point, in the order in which a form offers them. */
import { bearingDistance } from "./bearing-distance";
import { bearings } from "./bearings";
import { centrelineOffset } from "./centreline-offset";
import { laser } from "./laser";
import { mapTap } from "./map-tap";
import { position } from "./position";
import { positionMean, positionSamples } from "./position-average";
import { spotters } from "./spotters";
import { tapes } from "./tapes";
import { twoTapes } from "./two-tapes";

export const METHODS = [
  bearingDistance,
  position,
  centrelineOffset,
  twoTapes,
  tapes,
  laser,
  bearings,
  positionSamples,
  positionMean,
  spotters,
  mapTap,
] as const;

export type FixMethod = (typeof METHODS)[number]["method"];

export type { Field, Placed, SurveyMethod } from "./method";
export { LANDINGS } from "./parts";
export { RECEIVERS, SATELLITES } from "./receiver";
export { sightSchema } from "./sighted";
