/**
 * What follows from a state of the swing alone: places, speeds, momentum and energy, in the axes of the frame and over
 * the ground. The frame leans by a turn about the origin on the ground, and rolls along it.
 */
import { MAX_SIZE } from "../numeric/dop853";
import { sinCos } from "../numeric/sincos";
import { carrierPoints, inCup, type SwingSetup, startX } from "./carrier";
import { CUP, LOOSE, type Phase, SWING, TROUGH } from "./phase";
import { springEnergy } from "./spring";

/** Sine and cosine of the last angle asked for. */
const pair = new Float64Array(2);
/** Where the projectile is, while something follows from it. */
const place = new Float64Array(4);

export class Places {
  /** Gravity in the frame's axes, and level ground's direction in them. */
  protected readonly stillX: number;
  protected readonly stillY: number;
  readonly ex: number;
  readonly ey: number;
  /** Of frame, machine and projectile together, kg; 0 while the frame is held. */
  readonly rollingMass: number;
  /** Level first moment of what moves on the frame at the trigger, kg·m. */
  protected readonly startMoment: number = 0;

  constructor(readonly setup: SwingSetup) {
    const { gravity, lean, frame, carrier, mass } = setup;
    this.ex = Math.cos(lean);
    this.ey = Math.sin(lean);
    this.stillX = gravity * this.ey;
    this.stillY = gravity * this.ex;
    this.rollingMass = frame ? frame.mass + carrier.mass + mass : 0;
    if (!frame) return;
    const y = new Float64Array(MAX_SIZE);
    y[0] = carrier.startAngle;
    y[2] = -Math.PI / 2 + lean;
    const cup = inCup(setup);
    if (!cup) y[4] = startX(setup);
    this.startMoment = -this.frame(cup ? CUP : TROUGH, y).x * this.rollingMass;
  }

  /** Level momentum relative to the frame, N·s; of the arm and the counterweight alone without a phase. */
  levelMomentum(y: Float64Array, phase?: Phase): number {
    const { carrier, mass } = this.setup;
    const { ex, ey } = this;
    let sum = (-carrier.levelMoment * Math.sin(y[0]) * ex - carrier.moment * Math.cos(y[0]) * ey) * y[1];
    if (carrier.hanger) {
      sum += carrier.hanger.moment * (-Math.sin(y[2]) * ex + Math.cos(y[2]) * ey) * y[3];
    }
    if (phase === undefined) return sum;
    this.projectileOnFrame(phase, y, place);
    return sum + mass * (place[2] * ex + place[3] * ey);
  }

  /** How far the frame has rolled along the ground, m, and how fast it rolls, m/s, downrange positive. */
  frame(phase: Phase, y: Float64Array): { x: number; speed: number } {
    if (this.rollingMass === 0) return { x: 0, speed: 0 };
    this.rolled(phase, y, place);
    return { x: this.rolledX, speed: this.rolledSpeed };
  }

  private rolledX = 0;
  private rolledSpeed = 0;

  /** The same into two fields, for all the instants of a swing. @param ball overwritten */
  private rolled(phase: Phase, y: Float64Array, ball: Float64Array): void {
    const { carrier, mass } = this.setup;
    const { ex, ey, rollingMass } = this;
    sinCos(y[0], pair);
    const along = carrier.levelMoment * ex;
    const up = carrier.moment * ey;
    let moment = along * pair[1] - up * pair[0];
    let momentum = -(along * pair[0] + up * pair[1]) * y[1];
    if (carrier.hanger) {
      sinCos(y[2], pair);
      moment += carrier.hanger.moment * (pair[1] * ex + pair[0] * ey);
      momentum += carrier.hanger.moment * (pair[1] * ey - pair[0] * ex) * y[3];
    }
    this.projectileOnFrame(phase, y, ball);
    moment += mass * (ball[0] * ex + ball[1] * ey);
    momentum += mass * (ball[2] * ex + ball[3] * ey);
    this.rolledX = (this.startMoment - moment) / rollingMass;
    this.rolledSpeed = -momentum / rollingMass;
  }

  /** Position and velocity of the projectile in the frame's axes, x, y, ẋ, ẏ. */
  projectileOnFrame(phase: Phase, y: Float64Array, out: Float64Array): void {
    if (phase === SWING) {
      const { carrier, slingLength } = this.setup;
      sinCos(y[0], pair);
      const s = pair[0];
      const c = pair[1];
      sinCos(y[4], pair);
      const ux = pair[1];
      const uy = pair[0];
      out[0] = carrier.tipX * c + slingLength * ux;
      out[1] = carrier.originY + carrier.tipY * s + slingLength * uy;
      out[2] = -carrier.tipX * s * y[1] - slingLength * y[5] * uy;
      out[3] = carrier.tipY * c * y[1] + slingLength * y[5] * ux;
    } else if (phase === CUP) {
      this.tipOnFrame(y, out);
    } else {
      out[0] = y[4];
      out[1] = phase === LOOSE ? y[6] : this.setup.troughHeight;
      out[2] = y[5];
      out[3] = phase === LOOSE ? y[7] : 0;
    }
  }

  /** Position and velocity of the tip in the frame's axes, x, y, ẋ, ẏ. */
  tipOnFrame(y: Float64Array, out: Float64Array): void {
    const { carrier } = this.setup;
    sinCos(y[0], pair);
    const s = pair[0];
    const c = pair[1];
    out[0] = carrier.tipX * c;
    out[1] = carrier.originY + carrier.tipY * s;
    out[2] = -carrier.tipX * s * y[1];
    out[3] = carrier.tipY * c * y[1];
  }

  /** Position and velocity of the projectile over the ground, x, y, ẋ, ẏ. */
  projectile(phase: Phase, y: Float64Array, out: Float64Array): void {
    this.projectileOnFrame(phase, y, out);
    this.toGround(phase, y, out);
  }

  /** Position and velocity of the tip over the ground, x, y, ẋ, ẏ. */
  tip(phase: Phase, y: Float64Array, out: Float64Array): void {
    this.tipOnFrame(y, out);
    this.toGround(phase, y, out);
  }

  /** Takes a position and a velocity from the frame's axes to those of the ground. */
  private toGround(phase: Phase, y: Float64Array, p: Float64Array): void {
    const { ex, ey } = this;
    if (ey !== 0) {
      const x0 = p[0];
      const y0 = p[1];
      const vx = p[2];
      const vy = p[3];
      p[0] = x0 * ex + y0 * ey;
      p[1] = y0 * ex - x0 * ey;
      p[2] = vx * ex + vy * ey;
      p[3] = vy * ex - vx * ey;
    }
    if (this.rollingMass > 0) {
      this.rolled(phase, y, place);
      p[0] += this.rolledX;
      p[2] += this.rolledSpeed;
    }
  }

  /** Height above the ground of a point in the frame's axes, m. */
  height(x: number, y: number): number {
    return y * this.ex - x * this.ey;
  }

  /** Where fulcrum, tip, short end and counterweight are over the ground. */
  points(phase: Phase, y: Float64Array): ReturnType<typeof carrierPoints> {
    const points = carrierPoints(this.setup.carrier, y[0], y[2]);
    const { ex, ey } = this;
    const rolled = this.frame(phase, y).x;
    const onGround = ([px, py]: [number, number]): [number, number] => [
      px * ex + py * ey + rolled,
      py * ex - px * ey,
    ];
    return {
      fulcrum: onGround(points.fulcrum),
      tip: onGround(points.tip),
      shortEnd: onGround(points.shortEnd),
      counterweight: onGround(points.counterweight),
    };
  }

  /** Mechanical energy of frame, machine and projectile, J, for the tests of the integration. */
  energy(phase: Phase, y: Float64Array): number {
    const { carrier, mass } = this.setup;
    const { stillX, stillY } = this;
    const c = Math.cos(y[0]);
    const s = Math.sin(y[0]);
    let energy = 0.5 * (carrier.inertia + carrier.inertiaCos2 * c * c) * y[1] * y[1];
    energy -= stillY * carrier.moment * s + stillX * carrier.levelMoment * c;
    if (carrier.spring) energy += springEnergy(carrier.spring, y[0]);
    const { hanger } = carrier;
    if (hanger) {
      const cosBetween = c * Math.cos(y[2]) + s * Math.sin(y[2]);
      energy += 0.5 * hanger.inertia * y[3] * y[3] - hanger.coupling * cosBetween * y[1] * y[3];
      energy += hanger.moment * (stillY * Math.sin(y[2]) - stillX * Math.cos(y[2]));
    }
    const p = new Float64Array(4);
    this.projectileOnFrame(phase, y, p);
    energy += mass * (0.5 * (p[2] * p[2] + p[3] * p[3]) + stillY * p[1] - stillX * p[0]);
    // ½ M V² + V Σ m v·e with the level momentum 0 as a whole.
    return this.rollingMass > 0 ? energy - 0.5 * this.rollingMass * this.frame(phase, y).speed ** 2 : energy;
  }
}
