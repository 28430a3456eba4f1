/** Where lines of sight and tapes cross, in the plane, and how well. Bearings in radians from the plane's north. */
import type { PlanePoint } from "../../earth";
import { turned } from "../adjust";
import type { Budget } from "../budget";
import { covarianceOf } from "../budget";
import { RADIANS } from "../site";

export const between = (from: PlanePoint, to: PlanePoint) =>
  Math.hypot(to.east - from.east, to.north - from.north);
export const directionTo = (from: PlanePoint, to: PlanePoint) =>
  Math.atan2(to.east - from.east, to.north - from.north);

/** Positive when a point lies to the right of the line from one to another; m. */
export function rightOf(from: PlanePoint, to: PlanePoint, point: PlanePoint): number {
  const [e, n] = [to.east - from.east, to.north - from.north];
  return ((point.east - from.east) * n - (point.north - from.north) * e) / Math.hypot(e, n);
}

export interface Arc {
  centre: PlanePoint;
  radius: number;
}

/** Both crossings of two circles, right of the line between their centres first; how much they miss by when they do not. */
export function crossArcs(
  first: Arc,
  second: Arc,
): { gap: number; apart: boolean; right: PlanePoint; left: PlanePoint } {
  const base = between(first.centre, second.centre);
  const [east, north] = [
    (second.centre.east - first.centre.east) / base,
    (second.centre.north - first.centre.north) / base,
  ];
  const [r, s] = [first.radius, second.radius];
  const short = base - r - s;
  const inside = Math.abs(r - s) - base;
  // Where they do not meet, the middle of the gap stands for both.
  const touching = short > 0 ? r + short / 2 : r > s ? r - inside / 2 : -(r + inside / 2);
  const gap = Math.max(short, inside);
  const foot = gap > 0 ? touching : (r * r - s * s + base * base) / (2 * base);
  const height = gap > 0 ? 0 : Math.sqrt(Math.max(0, (r - foot) * (r + foot)));
  const at = (aside: number) => ({
    east: first.centre.east + foot * east + aside * north,
    north: first.centre.north + foot * north - aside * east,
  });
  return { gap, apart: short > 0, right: at(height), left: at(-height) };
}

/** Where two lines of sight cross and how far along each that is (behind the eye negative, m); null when parallel. */
export function crossSights(
  first: { at: PlanePoint; direction: number },
  second: { at: PlanePoint; direction: number },
): { at: PlanePoint; along: [number, number] } | null {
  const sine = Math.sin(second.direction - first.direction);
  if (Math.abs(sine) < 1e-9) return null;
  const [e, n] = [second.at.east - first.at.east, second.at.north - first.at.north];
  const reach = (direction: number) => (e * Math.cos(direction) - n * Math.sin(direction)) / sine;
  const along: [number, number] = [-reach(second.direction), -reach(first.direction)];
  return {
    at: {
      east: first.at.east + along[0] * Math.sin(first.direction),
      north: first.at.north + along[0] * Math.cos(first.direction),
    },
    along,
  };
}

/** The best angle at which any two of some directions cross, degrees from 0 to 90. */
export function bestCrossing(directions: readonly number[]): number {
  let best = 0;
  directions.forEach((first, index) => {
    for (const second of directions.slice(index + 1)) {
      const angle = Math.abs(turned(second - first)) / RADIANS;
      best = Math.max(best, Math.min(angle, 180 - angle));
    }
  });
  return best;
}

/** Standard uncertainty of a point in its worst direction, m. */
export function worstDirection(budget: Budget): number {
  const [ee, en, nn] = covarianceOf(budget);
  return Math.sqrt((ee + nn) / 2 + Math.hypot((ee - nn) / 2, en));
}

/** Below this the crossing is called flat, degrees (common practice of surveyors). */
export const FLAT = 30;
