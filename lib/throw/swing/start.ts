/** How a machine stands at the trigger, and which machines do not throw at all. */
import { MAX_SIZE } from "../numeric/dop853";
import { type Carrier, inCup, startX } from "./carrier";
import { CUP, LOOSE_ON_TROUGH, type Motion, type Phase, SWING, TROUGH } from "./motion";
import { WOUND } from "./spring";

/** A machine that does not throw at all, with the field to change. */
export class CannotThrow extends Error {
  constructor(
    readonly field: string,
    message: string,
  ) {
    super(message);
  }
}

function doesNotMove({ spring }: Carrier): CannotThrow {
  return spring
    ? new CannotThrow(
        "preloadTorque",
        "The arm does not move: the springs cannot lift the arm and the projectile against the friction of the trough. Wind them harder, or make the arm shorter or lighter.",
      )
    : new CannotThrow(
        "counterweightMass",
        "The arm cannot fall: the counterweight does not outweigh the arm, the projectile and the friction of the trough. Make it heavier, or the long arm shorter or lighter.",
      );
}

/** Slopes at the trigger. */
const dy = new Float64Array(MAX_SIZE);

/** State of the projectile and machine at the trigger; throws CannotThrow when the arm cannot fall. */
export function startState(motion: Motion, y: Float64Array): Phase {
  const { setup } = motion;
  const { carrier, slingLength, troughHeight, lean } = setup;
  y.fill(0);
  y[0] = carrier.startAngle;
  y[2] = -Math.PI / 2 + lean;
  motion.sliding = -1;
  motion.regularised = false;
  motion.locked = false;
  motion.winding = WOUND;
  if (inCup(setup)) {
    motion.evaluate(CUP, y, dy);
    if (!(dy[1] < 0)) throw doesNotMove(carrier);
    return CUP;
  }
  const drop = troughHeight - carrier.originY - carrier.tipY * Math.sin(carrier.startAngle);
  y[4] = startX(setup);
  motion.evaluate(TROUGH, y, dy);
  if (motion.tension <= 0) {
    // The tip first moves towards the projectile, which lies where it is until the sling comes taut.
    motion.sliding = 0;
    motion.evaluate(LOOSE_ON_TROUGH, y, dy);
    if (dy[1] < 0) {
      if (motion.slips()) motion.sliding = Math.sign(motion.gravityX);
      return LOOSE_ON_TROUGH;
    }
  }
  if (!(dy[1] < 0 && motion.tension > 0)) throw doesNotMove(carrier);
  if (motion.normal > 0) return TROUGH;
  y[4] = Math.atan2(drop, Math.sqrt(slingLength ** 2 - drop ** 2));
  return SWING;
}
