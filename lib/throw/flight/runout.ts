/**
 * How far a projectile goes on after its first impact: bounces until they are lower than a hand, then rolls.
 * Every impact keeps a share of the vertical and of the level speed; rolling is slowed by a constant force.
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

/** @param level speed along the ground at impact, m/s; @param down speed into it, m/s; @returns m */
export function runOut(level: number, down: number, ground: Policy["ground"], gravity: number): number {
  const { rebound, keep, rolling } = GROUND[ground];
  let distance = 0;
  let along = level * keep;
  let up = Math.abs(down) * rebound;
  while (up > LAST_BOUNCE) {
    distance += (2 * up * along) / gravity;
    up *= rebound;
    along *= keep;
  }
  return distance + (along * along) / (2 * rolling * gravity);
}
