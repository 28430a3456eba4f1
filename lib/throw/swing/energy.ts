/** What bounds a swing whatever happens in it: the energy at the trigger, and how far its parts can reach. */
import type { SwingSetup } from "./carrier";
import { inCup, startX } from "./carrier";
import { springEnergy } from "./spring";

/** Largest energy that the machine can give, J: stored at the trigger less the least that it can reach. */
export function storedEnergy({ carrier, gravity, lean }: SwingSetup): number {
  const upright = gravity * Math.cos(lean) * carrier.moment;
  const aside = gravity * Math.sin(lean) * carrier.levelMoment;
  const { startAngle, spring } = carrier;
  // The hanger starts hanging straight down, so only what turns with the arm has height to lose.
  const start = -upright * Math.sin(startAngle) - aside * Math.cos(startAngle);
  return start + Math.hypot(upright, aside) + (spring ? springEnergy(spring, startAngle) : 0);
}

/**
 * The highest point above the ground and the farthest from the origin along it that the projectile can be at while
 * the machine holds it, m; and how high above the ground it lies at the trigger at most.
 */
export function swingExtent(setup: SwingSetup): { height: number; reach: number; start: number } {
  const { carrier, slingLength, lean, frame, mass } = setup;
  const [up, along] = [Math.cos(lean), Math.abs(Math.sin(lean))];
  const ends = Math.max(carrier.tipX, carrier.tipY);
  const about = lean === 0 ? carrier.tipX : ends;
  const height = carrier.originY * up + (lean === 0 ? carrier.tipY : ends) + slingLength;
  let reach = carrier.originY * along + about + slingLength;
  // The frame goes against what moves on it, no farther than their first moment can change.
  if (frame) {
    const { hanger } = carrier;
    const moving = Math.max(Math.abs(carrier.moment), Math.abs(carrier.levelMoment)) + (hanger?.moment ?? 0);
    reach += (2 * (moving + mass * (about + slingLength))) / (frame.mass + carrier.mass + mass);
  }
  const [x, y] = inCup(setup)
    ? [ends, carrier.originY + carrier.tipY * Math.sin(carrier.startAngle)]
    : [startX(setup), setup.troughHeight];
  return { height, reach, start: y * up + Math.abs(x) * along };
}
