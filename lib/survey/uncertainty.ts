/**
 * Standard uncertainties taken where a fix gives none. All common practice, no source: a fibreglass tape pulled over
 * grass to a mark found by eye, a hand compass, a phone under open sky.
 */
export const DEFAULT_UNCERTAINTY = {
  /** m, whatever the distance: finding both ends. */
  tapeConstant: 0.02,
  /** Of the distance: pull, sag, slope. */
  tapeProportion: 0.0005,
  /** Degrees. */
  compass: 1,
  /** m along each axis. */
  receiver: 2.5,
  /** Degrees: a phone held up and turned by eye to a splash that is gone. */
  spotter: 2,
  /** m: a hand-held laser on a target of no great size. */
  laserRange: 0.5,
  /** Degrees, of its tilt sensor, and of any vertical angle whose instrument is not named. */
  inclination: 0.25,
  /** m, of a height difference between two places on the ground. */
  rise: 0.1,
  /** Degrees, of a right angle set out by eye with both arms. */
  rightAngle: 2,
  /** Degrees, of a centreline staked out from the firing point. */
  centreline: 0.25,
  /** Pixels that a fingertip misses by, along each axis. */
  tap: 10,
  /** m along each axis, by which the map itself may lie wrong. */
  map: 2,
} as const;

/** Coverage factor of a mark's expanded uncertainty (JCGM 100:2008, 6.2.1): about 95 %. */
export const COVERAGE_FACTOR = 2;

/** Standard uncertainty of a taped distance, m. */
export function tapeUncertainty(distance: number): number {
  return Math.hypot(DEFAULT_UNCERTAINTY.tapeConstant, DEFAULT_UNCERTAINTY.tapeProportion * distance);
}

/** Radius over standard deviation of a circular normal distribution that holds a share of it. */
export const circularRadius = (share: number) => Math.sqrt(-2 * Math.log(1 - share));

/** Standard uncertainty along each axis, m, of a position whose receiver reports a radius and its level in percent. */
export function receiverUncertainty(accuracy: number | undefined, level: number): number {
  return accuracy === undefined ? DEFAULT_UNCERTAINTY.receiver : accuracy / circularRadius(level / 100);
}
