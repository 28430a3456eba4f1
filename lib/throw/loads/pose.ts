/**
 * One instant of a swing in full: where every part is, how it moves and speeds up, and what the parts do to each
 * other. Everything hangs on the motion of the tip, the arm's angle and the counterweight's, so it holds for a fixed
 * pivot and for a fulcrum on a track alike. All in the axes of the frame, where a frame that leans or rolls is felt
 * as gravity that turns.
 *
 * d'Alembert: forces and moments are those of weight and of mass times acceleration reversed. e is the direction of
 * the arm from pivot to tip, n the direction a quarter turn anticlockwise of it.
 */
import { MAX_SIZE } from "../numeric/dop853";
import type { SwingSetup } from "../swing/carrier";
import { CUP, LOOSE, LOOSE_ON_TROUGH, Motion, type Phase } from "../swing/motion";
import type { Trace } from "../swing/trace";
import type { Body } from "./body";

/** Step along the motion for the tip's acceleration, as a share of √(arm/g): central differences, good to 1e-8. */
const DIFFERENCE = 1e-5;

export class Pose {
  /** A motion of its own: evaluating it disturbs no recorded one. */
  readonly motion: Motion;
  phi = 0;
  rate = 0;
  acceleration = 0;
  /** Direction of the arm. */
  ex = 1;
  ey = 0;
  /** Position, velocity and acceleration, x then y: of the tip, the fulcrum, the short end, the counterweight. */
  readonly tip = new Float64Array(6);
  readonly fulcrum = new Float64Array(6);
  readonly shortEnd = new Float64Array(6);
  readonly counterweight = new Float64Array(6);
  /** Position and velocity of the projectile, x, y, ẋ, ẏ. */
  readonly ball = new Float64Array(4);
  /** Pull of the sling, or push of the cup, N. */
  tension = 0;
  /** What sling or cup do to the tip, N. */
  readonly tipForce = new Float64Array(2);
  /** Gravity as it is felt on the frame, m/s². */
  gx = 0;
  gy = 0;

  private readonly dy = new Float64Array(MAX_SIZE);
  private readonly moved = new Float64Array(MAX_SIZE);
  private readonly before = new Float64Array(4);
  private readonly difference: number;
  private readonly scratch = new Float64Array(6);
  private readonly force = new Float64Array(2);
  private hangerAcceleration = 0;
  private readonly turned: boolean;
  private rolled = { x: 0, speed: 0 };
  private recalled: { trace: Trace | null; step: number; mode: number } = { trace: null, step: -1, mode: 0 };

  constructor(
    readonly setup: SwingSetup,
    readonly body: Body,
  ) {
    this.motion = new Motion(setup);
    this.turned = setup.lean !== 0 || setup.frame !== null;
    this.difference = DIFFERENCE * Math.sqrt(setup.carrier.tipY / setup.gravity);
  }

  /** Positions and velocities alone: no forces, no accelerations. */
  place(phase: Phase, y: Float64Array): void {
    const { motion, tip, ball, body } = this;
    this.phi = y[0];
    this.rate = y[1];
    this.ex = Math.cos(y[0]);
    this.ey = Math.sin(y[0]);
    motion.projectileOnFrame(phase, y, ball);
    motion.tipOnFrame(y, tip);
    this.onArm(0, this.fulcrum);
    this.onArm(-body.shortArm, this.shortEnd);
    this.hang(y);
    if (this.turned) this.rolled = motion.frame(phase, y);
  }

  /** Everything, as it was recorded at a fraction of a step. */
  recall(trace: Trace, step: number, fraction: number): void {
    if (trace !== this.recalled.trace || step !== this.recalled.step) {
      this.recalled = { trace, step, mode: modeOf(trace, step) };
    }
    this.set(trace.phase(step), trace.stateAt(step, fraction), this.recalled.mode);
  }

  /** Everything at a state, forces and accelerations included. @param mode of the motion then */
  set(phase: Phase, y: Float64Array, mode: number): void {
    const { motion, tip, ball, dy, moved, before, difference, tipForce } = this;
    motion.mode = mode;
    motion.evaluate(phase, y, dy);
    this.tension = motion.tension;
    this.gx = motion.gravityX;
    this.gy = -motion.gravityY;
    this.acceleration = dy[1];
    this.hangerAcceleration = dy[3];
    for (let i = 0; i < MAX_SIZE; i++) moved[i] = y[i] - difference * dy[i];
    motion.tipOnFrame(moved, before);
    for (let i = 0; i < MAX_SIZE; i++) moved[i] = y[i] + difference * dy[i];
    motion.tipOnFrame(moved, tip);
    tip[4] = (tip[2] - before[2]) / (2 * difference);
    tip[5] = (tip[3] - before[3]) / (2 * difference);
    this.place(phase, y);
    if (phase === CUP) {
      const { mass } = this.setup;
      tipForce[0] = mass * (this.gx - tip[4]);
      tipForce[1] = mass * (this.gy - tip[5]);
      this.tension = Math.hypot(tipForce[0], tipForce[1]);
      return;
    }
    const length = Math.hypot(ball[0] - tip[0], ball[1] - tip[1]);
    const pull = length > 0 && phase !== LOOSE && phase !== LOOSE_ON_TROUGH ? this.tension / length : 0;
    tipForce[0] = pull * (ball[0] - tip[0]);
    tipForce[1] = pull * (ball[1] - tip[1]);
  }

  /** Takes a place and a velocity, x, y, ẋ, ẏ, from the frame's axes to those of the ground. */
  toGround(p: Float64Array): void {
    if (!this.turned) return;
    const { ex, ey } = this.motion;
    const [x, y, vx, vy] = [p[0], p[1], p[2], p[3]];
    p[0] = x * ex + y * ey + this.rolled.x;
    p[1] = y * ex - x * ey;
    p[2] = vx * ex + vy * ey + this.rolled.speed;
    p[3] = vy * ex - vx * ey;
  }

  /** Position, velocity and acceleration of the point of the arm at a station, m from the pivot to the tip. */
  onArm(station: number, out: Float64Array): void {
    const { tip, ex, ey, rate, acceleration } = this;
    const back = this.body.longArm - station;
    out[0] = tip[0] - back * ex;
    out[1] = tip[1] - back * ey;
    out[2] = tip[2] + back * rate * ey;
    out[3] = tip[3] - back * rate * ex;
    out[4] = tip[4] + back * (acceleration * ey + rate * rate * ex);
    out[5] = tip[5] - back * (acceleration * ex - rate * rate * ey);
  }

  private hang(y: Float64Array): void {
    const { counterweight, shortEnd, hangerAcceleration } = this;
    counterweight.set(shortEnd);
    const { hanger } = this.setup.carrier;
    if (!hanger) return;
    const hx = hanger.length * Math.cos(y[2]);
    const hy = hanger.length * Math.sin(y[2]);
    const rate2 = y[3] * y[3];
    counterweight[0] += hx;
    counterweight[1] += hy;
    counterweight[2] -= hy * y[3];
    counterweight[3] += hx * y[3];
    counterweight[4] -= hy * hangerAcceleration + hx * rate2;
    counterweight[5] += hx * hangerAcceleration - hy * rate2;
  }

  /** Force of the counterweight on what carries it, N, into `out`. */
  counterweightForce(out: Float64Array): void {
    const { counterweightMass } = this.body;
    out[0] = counterweightMass * (this.gx - this.counterweight[4]);
    out[1] = counterweightMass * (this.gy - this.counterweight[5]);
  }

  /** Force of the moving parts on the frame, at the pivot or at both tracks together, N, into `out`. */
  frameForce(out: Float64Array): void {
    const { body, scratch, fulcrum, tipForce, gx, gy } = this;
    this.onArm(body.armOffset, scratch);
    this.counterweightForce(out);
    out[0] += tipForce[0] + body.armMass * (gx - scratch[4]) + body.carriageMass * (gx - fulcrum[4]);
    out[1] += tipForce[1] + body.armMass * (gy - scratch[5]) + body.carriageMass * (gy - fulcrum[5]);
  }

  /** Moment of the moving parts on the frame about a point of its base at x, N·m, anticlockwise. */
  frameMoment(x: number): number {
    const { body, scratch, tip, fulcrum, counterweight, tipForce, acceleration, gx, gy } = this;
    const turned = (at: Float64Array, mass: number) =>
      mass * ((at[0] - x) * (gy - at[5]) - at[1] * (gx - at[4]));
    this.onArm(body.armOffset, scratch);
    let moment = turned(scratch, body.armMass) - body.armInertia * acceleration;
    moment += turned(counterweight, body.counterweightMass) + turned(fulcrum, body.carriageMass);
    const { hanger } = this.setup.carrier;
    moment -= body.counterweightInertia * (hanger ? this.hangerAcceleration : acceleration);
    return moment + (tip[0] - x) * tipForce[1] - tip[1] * tipForce[0];
  }

  /** Bending moment at a station, N·m, from the part beyond it: towards the tip, or towards the short end. */
  bending(station: number): number {
    const { ex, ey, tip, tipForce } = this;
    const across = (this.gy - tip[5]) * ex - (this.gx - tip[4]) * ey;
    const pull = tipForce[1] * ex - tipForce[0] * ey;
    if (station >= 0) return bendingBeyond(this.body, station, pull, across, this.acceleration);
    return -this.bendingOfShortEnd(station, across);
  }

  /** Moment about a station of the short arm of all that acts between it and the short end. */
  private bendingOfShortEnd(station: number, across: number): number {
    const { body, acceleration, ex, ey, force } = this;
    const { carrier } = this.setup;
    this.counterweightForce(force);
    let fx = force[0];
    const fy = force[1];
    if (carrier.floats) {
      // The drop track bears the level force there.
      this.frameForce(force);
      fx -= force[0];
    }
    const d = station + body.shortArm;
    let moment = -d * (fy * ex - fx * ey);
    if (!carrier.hanger) moment -= body.counterweightInertia * acceleration;
    if (body.lumps) {
      for (const { station: at, mass } of body.lumps) {
        if (at >= station) continue;
        moment += mass * (at - station) * (across + (body.longArm - at) * acceleration);
      }
      return moment;
    }
    const density = body.armMass / (body.longArm + body.shortArm);
    const back = body.longArm - station;
    return moment - density * ((across * d * d) / 2 + acceleration * ((back * d * d) / 2 + (d * d * d) / 3));
  }
}

/** In which mode the motion was at a step. Reads a state of the trace: ask before `stateAt`. */
export function modeOf(trace: Trace, step: number): number {
  return trace.forcesAt(step, 0).mode;
}

/**
 * Moment about a station of a pull at the tip and of the inertia and weight of the arm beyond it, N·m.
 * @param pull of the sling across the arm, along n, N
 * @param across weight less the tip's acceleration, along n, m/s²
 * @param acceleration of the arm's angle, rad/s²
 */
export function bendingBeyond(
  body: Body,
  station: number,
  pull: number,
  across: number,
  acceleration: number,
): number {
  const beyond = body.longArm - station;
  if (body.lumps) {
    let moment = pull * beyond;
    for (const { station: at, mass } of body.lumps) {
      if (at <= station) continue;
      moment += mass * (at - station) * (across + (body.longArm - at) * acceleration);
    }
    return moment;
  }
  const density = body.armMass / (body.longArm + body.shortArm);
  return pull * beyond + density * ((across * beyond ** 2) / 2 + (acceleration * beyond ** 3) / 6);
}
