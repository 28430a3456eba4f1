/**
 * How far a projectile goes on after its first impact: bounces until they are lower than a hand, then rolls.
 * Every impact keeps a share of the vertical and of the level speed; rolling is slowed by a constant force. Bounces
 * are counted as a real number, so that the run-out changes smoothly from throw to throw: a count that jumps would
 * make the farthest of many throws depend on which of them were flown.
 * All values are common practice, no source: measure on the day's ground where it matters.
 */
import type { Policy } from "../contracts/policy";

interface Firmness {
  /** Share of the vertical speed kept at an impact. */
  rebound: number;
  /** Share of the level speed kept at an impact. */
  keep: number;
  /** Deceleration while rolling, in units of gravity. */
  rolling: number;
}

const GROUND: Record<Policy["ground"], Firmness> = {
  soft: { rebound: 0.08, keep: 0.4, rolling: 0.4 },
  firm: { rebound: 0.25, keep: 0.6, rolling: 0.3 },
  hard: { rebound: 0.45, keep: 0.75, rolling: 0.15 },
};

/** Below this vertical speed a bounce is a roll, m/s (a hop of 5 cm). */
const LAST_BOUNCE = 1;

/** Ground that falls away steeply stops nothing: at least this deceleration is counted on, in units of gravity. */
const LEAST_ROLLING = 0.04;

/** How high the first bounce goes, m. */
export function firstHop(down: number, ground: Policy["ground"], gravity: number): number {
  return (GROUND[ground].rebound * down) ** 2 / (2 * gravity);
}

/**
 * @param level speed along the ground at impact, m/s
 * @param down speed into it, m/s
 * @param fall tangent by which the ground falls away along the roll; rising ground is taken as level
 * @returns m
 */
export function runOut(
  level: number,
  down: number,
  ground: Policy["ground"],
  gravity: number,
  fall = 0,
): number {
  const { rebound, keep, rolling } = GROUND[ground];
  const falls = Math.max(0, fall);
  const slowing = Math.max(LEAST_ROLLING, rolling - falls);
  const along = level * keep;
  const up = Math.abs(down) * rebound;
  const bounces = Math.max(0, Math.log(up / LAST_BOUNCE) / -Math.log(rebound));
  const last = along * keep ** bounces;
  // Two geometric series to the last bounce: level hops, and what they gain where the ground falls away under them.
  const hops = bounces > 0 ? (up * along - LAST_BOUNCE * last) / (1 - keep * rebound) : 0;
  const gained = (falls * (along * along - last * last)) / (1 - keep * keep);
  return (2 * (hops + gained)) / gravity + (last * last) / (2 * slowing * gravity);
}
