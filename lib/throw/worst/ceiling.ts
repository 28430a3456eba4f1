/** What conservation of energy forbids any throw of a machine to exceed. */

import type { Air } from "../flight/flight";
import { Scout } from "../flight/scout";
import type { EnergyBound } from "../machines/kind";
import type { SwingSetup } from "../swing/carrier";
import { storedEnergy, swingExtent } from "../swing/energy";

export interface Ceiling {
  /** m/s: all the stored energy in the projectile. */
  speed: number;
  /** m from the firing point, the farther of the two directions. */
  distance: number;
}

/** Farthest airless throw at `speed` from `height` above level ground, at its best angle, m. */
function bestAirlessRange(speed: number, height: number, gravity: number): number {
  return (speed / gravity) * Math.sqrt(speed * speed + 2 * gravity * height);
}

/**
 * All the energy stored at the trigger goes into the projectile; nothing is taken off for lifting it. It leaves
 * from the highest and farthest point that arm and sling can reach.
 */
export function swingBound(setup: SwingSetup): EnergyBound {
  const { mass, gravity } = setup;
  const { height, reach, start } = swingExtent(setup);
  const square = (2 * storedEnergy(setup)) / mass;
  // What the projectile itself loses in height from where it lies counts as the height that carries it as far.
  const raised = square > 0 ? 2 * start * (1 + (gravity * start) / square) : 0;
  return { speed: Math.sqrt(square), height: Math.max(height, raised), reach };
}

/**
 * The farthest throw at the highest speed from the highest and farthest point that energy allows.
 * @param airs of the worst case: where wind, lift or falling ground can carry a projectile past the airless figure
 *   on level ground, the best-angle flight in them counts
 */
export function ceilingOf({ speed, height, reach }: EnergyBound, airs: readonly Air[]): Ceiling {
  const { gravity, below, fall } = airs[0];
  const flown = bestFlight(airs, speed, height, reach);
  return {
    speed,
    distance:
      reach +
      Math.max(
        bestAirlessRange(speed, height, gravity),
        below > 0 || fall !== 0 ? bestOnSlope(airs[0], speed, height, reach) : 0,
        flown,
      ),
  };
}

/** As `bestAirlessRange` to a plane that falls away, whichever way it falls. */
function bestOnSlope({ gravity, below, fall }: Air, speed: number, height: number, reach: number): number {
  const slope = Math.abs(fall);
  const start = height + below + slope * reach;
  let best = 0;
  for (let degrees = -60; degrees <= 90; degrees += 0.5) {
    const angle = (degrees * Math.PI) / 180;
    const climb = speed * (Math.sin(angle) + slope * Math.cos(angle));
    const time = (climb + Math.sqrt(climb * climb + 2 * gravity * start)) / gravity;
    best = Math.max(best, speed * Math.cos(angle) * time);
  }
  return best * BETWEEN;
}

/** A smooth maximum rises by less than this between the angles tried, and the scout errs by less. */
const BETWEEN = 1.002;

/** Farthest flight over all launch angles in airs that can help it; 0 if none can. */
function bestFlight(airs: readonly Air[], speed: number, height: number, reach: number): number {
  const scout = new Scout();
  let best = 0;
  for (const air of airs) {
    if (air.lift === 0 && air.windX === 0) continue;
    for (const way of air.windX < 0 ? [-1] : air.windX > 0 ? [1] : [1, -1]) {
      const raised = height + Math.max(0, way * air.fall) * reach;
      for (let degrees = -10; degrees <= 90; degrees += 1) {
        const angle = (degrees * Math.PI) / 180;
        const impact = scout.fly(air, 0, raised, way * speed * Math.cos(angle), speed * Math.sin(angle));
        best = Math.max(best, way * impact.x);
      }
    }
  }
  return best * BETWEEN;
}
