/**
 * What happens in no time: the sling comes taut, the arm meets its stop. Speeds jump by an impulse J along the sling
 * and, where the frame rolls, by a jolt of its speed; both follow from two linear conditions, that the sling no
 * longer lengthens and that the level momentum of the whole stays.
 */
import { MAX_SIZE } from "../numeric/dop853";
import type { Motion } from "./motion";

export interface Jump {
  /** Direction from the tip to the projectile. */
  ux: number;
  uy: number;
  /** Whether the sling may pull. */
  taut: boolean;
  /** Whether the trough bears the projectile, and the direction in which it slides against friction. */
  borne: boolean;
  slide: number;
  /** Level momentum relative to the frame before anything changed, N·s. */
  momentum: number;
}

const changed = new Float64Array(MAX_SIZE);
const moved = new Float64Array(4);
const tip = new Float64Array(4);

/** Speed at which the sling lengthens, and the level momentum on the frame, after J and a jolt. */
function after(motion: Motion, y: Float64Array, ball: Float64Array, jump: Jump, J: number, jolt: number) {
  changed.set(y);
  moved.set(ball);
  apply(motion, changed, moved, jump, J, jolt);
  motion.tipOnFrame(changed, tip);
  return {
    apart: (moved[2] - tip[2]) * jump.ux + (moved[3] - tip[3]) * jump.uy,
    momentum:
      motion.levelMomentum(changed) + motion.setup.mass * (moved[2] * motion.ex + moved[3] * motion.ey),
  };
}

/** Changes the rates in `y` and the velocity in `ball`. */
function apply(motion: Motion, y: Float64Array, ball: Float64Array, jump: Jump, J: number, jolt: number) {
  const { carrier, mass, troughFriction } = motion.setup;
  const { ux, uy } = jump;
  const along = -carrier.tipX * Math.sin(y[0]) * ux + carrier.tipY * Math.cos(y[0]) * uy;
  motion.strike(y, J * along, jolt);
  const [kickX, kickY] = [-jolt * motion.ex, jolt * motion.ey];
  if (jump.borne) {
    // The trough's own impulse, and its friction.
    const friction = jump.slide * troughFriction * (kickY + (J * uy) / mass);
    ball[2] += kickX - (J * ux) / mass - friction;
  } else {
    ball[2] += kickX - (J * ux) / mass;
    ball[3] += -kickY - (J * uy) / mass;
  }
}

/**
 * Carries out a jump: changes φ̇ and β̇ in `y` and the velocity of the projectile in `ball` (frame's axes).
 * @returns whether the sling is taut after it
 */
export function carryOut(motion: Motion, y: Float64Array, ball: Float64Array, jump: Jump): boolean {
  const { rollingMass } = motion;
  const now = after(motion, y, ball, jump, 0, 0);
  let joltAlone = 0;
  let joltOfPull = 0;
  let opening = now.apart;
  // About 1 m/s, so that the differences keep their digits.
  const unit = motion.setup.mass;
  const pulled = jump.taut ? after(motion, y, ball, jump, unit, 0) : now;
  let closing = (now.apart - pulled.apart) / unit;
  if (rollingMass > 0) {
    const jolted = after(motion, y, ball, jump, 0, 1);
    const inertia = rollingMass + jolted.momentum - now.momentum;
    joltAlone = (jump.momentum - now.momentum) / inertia;
    opening += joltAlone * (jolted.apart - now.apart);
    joltOfPull = (now.momentum - pulled.momentum) / (unit * inertia);
    closing -= joltOfPull * (jolted.apart - now.apart);
  }
  const J = closing > 0 ? Math.max(0, opening) / closing : 0;
  apply(motion, y, ball, jump, J, joltAlone + J * joltOfPull);
  return jump.taut && opening >= 0;
}
