/** Which way a phone points, from what its sensors say. Degrees from magnetic north, clockwise. Pure. */
import { normalBearing, turnOf } from "@/lib/earth/bearing";

const RADIANS = Math.PI / 180;

/** One reading of a phone's compass. */
export interface Heading {
  bearing: number;
  /** How far off the phone says that it may be, degrees; null when it does not say. */
  accuracy: number | null;
  /** ms */
  at: number;
}

/** What browsers tell, of which each knows a part. */
export interface Turned {
  alpha: number | null;
  beta: number | null;
  gamma: number | null;
  absolute?: boolean;
  /** Of iPhones: clockwise from magnetic north, for the top edge; and its accuracy, negative when there is none. */
  webkitCompassHeading?: number | null;
  webkitCompassAccuracy?: number | null;
}

/** Held higher than this, an iPhone's heading is no longer that of its top edge, degrees. */
const TOO_STEEP = 60;

/**
 * Where the top edge points of a phone that lies flat, or the back of one that is held upright, its screen more than
 * 45° from level (the rotation Z-X'-Y'' of the W3C's DeviceOrientation Event Specification). Null when it cannot tell.
 */
export function headingOf(turned: Turned): { bearing: number; accuracy: number | null } | null {
  const { alpha, beta, gamma, webkitCompassHeading, webkitCompassAccuracy } = turned;
  if (typeof webkitCompassHeading === "number") {
    const accuracy = webkitCompassAccuracy ?? -1;
    if (accuracy < 0 || Math.abs(beta ?? 0) > TOO_STEEP) return null;
    return { bearing: normalBearing(webkitCompassHeading), accuracy };
  }
  if (!turned.absolute || alpha === null || beta === null || gamma === null) return null;
  const [sa, ca] = [Math.sin(alpha * RADIANS), Math.cos(alpha * RADIANS)];
  const [sb, cb] = [Math.sin(beta * RADIANS), Math.cos(beta * RADIANS)];
  const [sg, cg] = [Math.sin(gamma * RADIANS), Math.cos(gamma * RADIANS)];
  const top = { east: -sa * cb, north: ca * cb };
  const back = { east: -sg * ca - cg * sb * sa, north: -sg * sa + cg * sb * ca };
  const flat = Math.abs(cb * cg) >= Math.SQRT1_2;
  const axis = flat ? top : back;
  return { bearing: normalBearing(Math.atan2(axis.east, axis.north) / RADIANS), accuracy: null };
}

/** A hand shakes: readings of this long are taken together, ms. */
export const TOGETHER = 1000;

/** The mean of the newest readings, and their standard deviation in degrees; null without any. */
export function steady(
  readings: readonly Heading[],
): { bearing: number; spread: number; accuracy: number | null } | null {
  const last = readings.at(-1);
  if (!last) return null;
  const near = readings.filter(({ at }) => last.at - at <= TOGETHER);
  const off = near.map(({ bearing }) => turnOf(last.bearing, bearing));
  const mean = off.reduce((sum, turn) => sum + turn, 0) / off.length;
  const spread = Math.sqrt(off.reduce((sum, turn) => sum + (turn - mean) ** 2, 0) / off.length);
  return { bearing: normalBearing(last.bearing + mean), spread, accuracy: last.accuracy };
}
