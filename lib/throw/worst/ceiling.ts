/** What conservation of energy forbids any throw of a machine to exceed. */

import type { Air } from "../flight/flight";
import { Scout } from "../flight/scout";
import type { EnergyBound } from "../machines/kind";
import type { SwingSetup } from "../swing/carrier";
import { storedEnergy } from "../swing/carrier";

export interface Ceiling {
  /** m/s: all the stored energy in the projectile. */
  speed: number;
  /** m from the firing point, the farther of the two directions. */
  distance: number;
}

/** Farthest airless throw at `speed` from `height` above the ground, at its best angle, m. */
export function bestAirlessRange(speed: number, height: number, gravity: number): number {
  return (speed / gravity) * Math.sqrt(speed * speed + 2 * gravity * height);
}

/**
 * All the energy stored at the trigger goes into the projectile; nothing is taken off for lifting it. It leaves
 * from the highest and farthest point that arm and sling can reach.
 * @param airs of the worst case: where wind or lift can carry a projectile past the airless figure, the
 *   best-angle flight in them counts if it goes farther
 */
export function swingCeiling(setup: SwingSetup, airs: readonly Air[]): Ceiling {
  const { carrier, mass, slingLength, gravity, troughHeight } = setup;
  const energy = storedEnergy(carrier, gravity);
  const speed = Math.sqrt((2 * energy) / mass);
  const height = carrier.originY + carrier.tipY + slingLength;
  const ceiling = ceilingOf({ speed, height, reach: carrier.tipX + slingLength }, gravity, airs);
  // What the projectile itself loses in height from a raised trough counts too.
  const falling = Math.sqrt(speed * speed + 2 * gravity * troughHeight);
  const raised = carrier.tipX + slingLength + bestAirlessRange(falling, 0, gravity);
  return { speed, distance: Math.max(ceiling.distance, raised) };
}

/** The farthest throw at the highest speed from the highest and farthest point that energy allows. */
export function ceilingOf(
  { speed, height, reach }: EnergyBound,
  gravity: number,
  airs: readonly Air[],
): Ceiling {
  const airless = bestAirlessRange(speed, height, gravity);
  return { speed, distance: reach + Math.max(airless, bestFlight(airs, speed, height)) };
}

/** Farthest flight at `speed` from `height` over all launch angles in airs that can help it; 0 if none can. */
export function bestFlight(airs: readonly Air[], speed: number, height: number): number {
  const scout = new Scout();
  let best = 0;
  for (const air of airs) {
    if (air.lift === 0 && air.windX === 0) continue;
    const toward = air.windX < 0 ? -1 : 1;
    const range = (degrees: number) => {
      const angle = (degrees * Math.PI) / 180;
      const impact = scout.fly(air, 0, height, toward * speed * Math.cos(angle), speed * Math.sin(angle));
      return toward * impact.x;
    };
    for (let degrees = -10; degrees <= 90; degrees += 1) best = Math.max(best, range(degrees));
  }
  // More than a smooth maximum rises between whole degrees and the scout errs.
  return best * 1.002;
}
