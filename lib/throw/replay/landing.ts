/** Flies what came free towards a place on the ground, turned out of its plane as its cause allows. */
import type { Policy } from "../contracts/policy";
import { type Air, Flight, type Impact } from "../flight/flight";
import { runOut } from "../flight/runout";
import { Scout } from "../flight/scout";
import { SpaceScout } from "../flight/space-scout";
import { type Target, wrapped } from "./target";

/** Where something comes free and how it moves then, m and m/s. */
export interface Start {
  x: number;
  y: number;
  vx: number;
  vy: number;
  z?: number;
  vz?: number;
}

/** Out of the plane: the whole flight about the firing point, or its velocity alone; rad, to the right. */
export interface Turn {
  plane: number;
  velocity: number;
}

export const STRAIGHT: Turn = { plane: 0, velocity: 0 };

export interface Landed {
  fromX: number;
  fromZ: number;
  x: number;
  z: number;
  restX: number;
  restZ: number;
  /** What counts against the target: the rest where that was found, else the first impact. */
  endX: number;
  endZ: number;
}

/** How far something may be turned, rad. */
export interface Limits {
  plane: number;
  velocity: number;
}

/** A flight that cannot be followed: it counts for nothing. */
const NOWHERE: Impact = { x: Number.NaN, z: Number.NaN, time: 0, apex: 0, vx: 0, vy: 0, vz: 0 };

/** Nearer to the firing point than this a direction means nothing, m. */
const AT_HAND = 0.5;

export class Lander {
  flown = 0;
  private readonly careful = new Flight();
  private readonly planar = new Scout();
  private readonly spatial = new SpaceScout();

  constructor(
    readonly target: Target,
    private readonly ground: Policy["ground"],
  ) {}

  /** @param roll multiplies bounce and roll */
  land(start: Start, air: Air, turn: Turn, careful: boolean, roll = 1): Landed {
    this.flown++;
    const { x, y, vx, vy, z = 0, vz = 0 } = start;
    const [cos, sin] = [Math.cos(turn.plane), Math.sin(turn.plane)];
    const speed = Math.hypot(vx, vy, vz);
    const kept = Math.cos(turn.velocity);
    const ux = vx * kept;
    const uz = vz * kept + speed * Math.sin(turn.velocity);
    const fromX = x * cos - z * sin;
    const fromZ = x * sin + z * cos;
    const impact = this.fly(
      air,
      careful,
      fromX,
      y,
      vy * kept,
      turn.plane === 0 ? ux : ux * cos - uz * sin,
      turn.plane === 0 ? uz : ux * sin + uz * cos,
    );
    const landedX = impact.x;
    const landedZ = fromZ + impact.z;
    const level = Math.hypot(impact.vx, impact.vz);
    let [restX, restZ] = [landedX, landedZ];
    if (this.target.rest && level > 0) {
      const fall = (air.fall * impact.vx + air.cross * impact.vz) / level;
      const rolled = roll * runOut(level, impact.vy, this.ground, air.gravity, fall);
      restX += (rolled * impact.vx) / level;
      restZ += (rolled * impact.vz) / level;
    }
    return { fromX, fromZ, x: landedX, z: landedZ, restX, restZ, endX: restX, endZ: restZ };
  }

  private fly(air: Air, careful: boolean, x: number, y: number, vy: number, vx: number, vz: number): Impact {
    if (!careful) {
      try {
        if (vz === 0 && air.windZ === 0 && air.sideLift === 0) return this.planar.fly(air, x, y, vx, vy);
        return this.spatial.fly(air, x, y, vx, vy, vz);
      } catch (error) {
        // What is let go at rest in the wind changes too fast at first for the quick flights.
        if (!(error instanceof RangeError)) throw error;
      }
    }
    try {
      return this.careful.fly(air, x, y, vx, vy, vz);
    } catch (error) {
      if (!(error instanceof RangeError)) throw error;
      return NOWHERE;
    }
  }

  /** How much farther from the firing point than the target it ends, m; what ends on the other side falls short. */
  beyond({ endX, endZ }: Landed): number {
    const { x, z, distance } = this.target;
    const range = Math.hypot(endX, endZ);
    return (endX * x + endZ * z < 0 ? -range : range) - distance;
  }

  miss({ endX, endZ }: Landed): number {
    return Math.hypot(endX - this.target.x, endZ - this.target.z);
  }

  /**
   * The turn that brings a start towards the target, the plane's before the velocity's: it needs less. Null where none
   * within the limits does; what goes the other way altogether cannot be turned.
   */
  turnFor({ vx, vy }: Start, limits: Limits): Turn | null {
    const { target } = this;
    if (target.distance < AT_HAND) return STRAIGHT;
    const off = wrapped(target.azimuth - (vx >= 0 ? 0 : Math.PI));
    if (Math.abs(off) <= limits.plane) return { plane: off, velocity: 0 };
    if (Math.abs(off) > Math.PI / 2) return null;
    const speed = Math.hypot(vx, vy);
    if (speed === 0) return null;
    const side = target.z < 0 ? -1 : 1;
    const needed = Math.atan((Math.tan(Math.abs(off)) * Math.abs(vx)) / speed);
    if (needed <= limits.velocity) return { plane: 0, velocity: side * needed };
    const reached = Math.atan2(Math.tan(limits.velocity) * speed, Math.abs(vx));
    const left = Math.abs(off) - reached;
    if (left > limits.plane) return null;
    return { plane: Math.sign(off) * left, velocity: side * limits.velocity };
  }

  /** The turn corrected by what a flight still ended aside of the target, within the limits. */
  corrected({ vx, vy }: Start, turn: Turn, landed: Landed, limits: Limits): Turn {
    const { target } = this;
    if (target.distance < AT_HAND || Math.hypot(landed.endX, landed.endZ) < AT_HAND) return turn;
    const error = wrapped(target.azimuth - Math.atan2(landed.endZ, landed.endX));
    if (turn.velocity === 0) return { plane: clamp(turn.plane + error, limits.plane), velocity: 0 };
    // From tan(azimuth off the plane) = tan(turn)·speed/level speed, as without air: steep throws swing round fast.
    const off = Math.atan2(Math.abs(landed.endZ), Math.abs(landed.endX));
    const level = Math.abs(vx) / Math.max(1e-9, Math.hypot(vx, vy));
    const slope = Math.min(1, (level * Math.cos(turn.velocity) ** 2) / Math.max(1e-6, Math.cos(off) ** 2));
    const ahead = vx >= 0 ? 1 : -1;
    return { plane: turn.plane, velocity: clamp(turn.velocity + ahead * slope * error, limits.velocity) };
  }
}

export const clamp = (value: number, limit: number): number => Math.max(-limit, Math.min(limit, value));

/**
 * Where a function crosses zero between two points of unlike signs (Illinois method).
 * @returns the point with the smallest value met
 */
export function crossing(at: (x: number) => number, from: number, to: number, small: number): number {
  let [a, b] = [from, to];
  let [fa, fb] = [at(a), at(b)];
  let best = Math.abs(fa) < Math.abs(fb) ? a : b;
  let least = Math.min(Math.abs(fa), Math.abs(fb));
  if (!(fa * fb <= 0)) return best;
  for (let i = 0; i < 40 && least > small && a !== b; i++) {
    const secant = (a * fb - b * fa) / (fb - fa);
    // Where one end is not finite, or both are alike, the middle does.
    const x = Number.isFinite(secant) ? secant : (a + b) / 2;
    const f = at(x);
    if (Math.abs(f) < least) {
      least = Math.abs(f);
      best = x;
    }
    if (f * fb < 0) {
      a = b;
      fa = fb;
    } else fa /= 2;
    b = x;
    fb = f;
  }
  return best;
}
