/**
 * The equations of motion of an arm machine, one right-hand side for each way in which projectile, sling and
 * trough can stand to each other. The sling acts through its tension T along u, the unit vector from the tip to
 * the projectile, so that with t = d(tip)/dφ and c = d²(tip)/dφ²:
 *
 *   M φ̈ = Q + T (t·u)                            (the carrier, Q without the sling; hanger eliminated)
 *   m r̈ = −T u − m g ŷ + N ŷ ∓ μN x̂              (the projectile; N only on the trough)
 *   u·r̈ = (t·u) φ̈ + (c·u) φ̇² − l ψ̇²             (the taut sling keeps its length)
 *
 * Lagrange's equations for the carrier; T follows from the three, then φ̈ and r̈. See carrier.ts for M and Q.
 */
import { sinCos } from "../numeric/sincos";
import type { SwingSetup } from "./carrier";

/** On the trough with a taut sling; swinging; flying with a slack sling; sliding or resting with a slack one. */
export const TROUGH = 0;
export const SWING = 1;
export const LOOSE = 2;
export const LOOSE_ON_TROUGH = 3;
export type Phase = typeof TROUGH | typeof SWING | typeof LOOSE | typeof LOOSE_ON_TROUGH;

/**
 * State: 0 φ, 1 φ̇, 2 β, 3 β̇, then by phase: TROUGH and LOOSE_ON_TROUGH 4 x, 5 ẋ; SWING 4 ψ, 5 ψ̇ (ψ the
 * direction of the sling from the tip); LOOSE 4 x, 5 ẋ, 6 y, 7 ẏ.
 */
export function stateSize(phase: Phase): number {
  return phase === LOOSE ? 8 : 6;
}

/** Speed below which a regularised friction fades, m/s: only after a reversal that may stick. */
const CREEP = 1e-3;

/** Sine and cosine of the last angle asked for. */
const pair = new Float64Array(2);

export class Motion {
  /** Set while a floating arm stands at its end stop. */
  locked = false;
  /** Direction of sliding on the trough that friction opposes: −1, 1, or 0 at rest. */
  sliding = -1;
  /** Set once the projectile has come to a stop under a taut sling: friction by a regularised law. */
  regularised = false;

  /** Of the last evaluation: tension of the sling and normal force of the trough, N. */
  tension = 0;
  normal = 0;

  // Of the last `carrier` evaluation.
  private sin = 0;
  private cos = 1;
  private inverseInertia = 0;
  private torque = 0;
  private hangerForce = 0;
  private hangerCos = 0;

  constructor(readonly setup: SwingSetup) {}

  /** Carrier terms at a state, all but the sling's pull. */
  private carrier(y: Float64Array): void {
    const { carrier, gravity } = this.setup;
    sinCos(y[0], pair);
    const s = pair[0];
    const c = pair[1];
    this.sin = s;
    this.cos = c;
    if (this.locked) {
      this.inverseInertia = 0;
      this.torque = 0;
      return;
    }
    const rate2 = y[1] * y[1];
    let inertia = carrier.inertia + carrier.inertiaCos2 * c * c;
    let torque = gravity * carrier.moment * c + carrier.inertiaCos2 * c * s * rate2;
    const { hanger } = carrier;
    if (hanger) {
      sinCos(y[2], pair);
      const sb = pair[0];
      const cb = pair[1];
      const cosBetween = c * cb + s * sb;
      const sinBetween = s * cb - c * sb;
      const force = -hanger.coupling * sinBetween * rate2 - hanger.moment * gravity * cb;
      inertia -= (hanger.coupling * cosBetween) ** 2 / hanger.inertia;
      torque += hanger.coupling * (sinBetween * y[3] * y[3] + (cosBetween * force) / hanger.inertia);
      this.hangerForce = force;
      this.hangerCos = cosBetween;
    }
    this.inverseInertia = 1 / inertia;
    this.torque = torque;
  }

  /** φ̈ and β̈ under a pull `drive` = T (t·u) into `dy`. */
  private carrierAcceleration(y: Float64Array, dy: Float64Array, drive: number): void {
    const { hanger } = this.setup.carrier;
    const acceleration = (this.torque + drive) * this.inverseInertia;
    dy[0] = y[1];
    dy[1] = acceleration;
    dy[2] = 0;
    dy[3] = 0;
    if (hanger && !this.locked) {
      dy[2] = y[3];
      dy[3] = (this.hangerForce + hanger.coupling * this.hangerCos * acceleration) / hanger.inertia;
    }
  }

  readonly swing = (y: Float64Array, dy: Float64Array): void => {
    const { carrier, mass, slingLength, gravity } = this.setup;
    this.carrier(y);
    sinCos(y[4], pair);
    const ux = pair[1];
    const uy = pair[0];
    const tx = -carrier.tipX * this.sin;
    const ty = carrier.tipY * this.cos;
    const cx = -carrier.tipX * this.cos;
    const cy = -carrier.tipY * this.sin;
    const rate2 = y[1] * y[1];
    const along = tx * ux + ty * uy;
    const pull = along * this.inverseInertia;
    const tension =
      (slingLength * y[5] * y[5] - (cx * ux + cy * uy) * rate2 - gravity * uy - pull * this.torque) /
      (1 / mass + along * pull);
    this.tension = tension;
    this.normal = 0;
    this.carrierAcceleration(y, dy, tension * along);
    dy[4] = y[5];
    dy[5] = (-gravity * ux - (ty * ux - tx * uy) * dy[1] - (cy * ux - cx * uy) * rate2) / slingLength;
  };

  readonly trough = (y: Float64Array, dy: Float64Array): void => {
    const { carrier, mass, slingLength, troughHeight, troughFriction, gravity } = this.setup;
    this.carrier(y);
    const ux = (y[4] - carrier.tipX * this.cos) / slingLength;
    const uy = (troughHeight - carrier.originY - carrier.tipY * this.sin) / slingLength;
    const tx = -carrier.tipX * this.sin;
    const ty = carrier.tipY * this.cos;
    const rate = y[1];
    // l ψ̇ is the velocity of the projectile relative to the tip, across the sling.
    const across = ux * -ty * rate - uy * (y[5] - tx * rate);
    const friction = troughFriction * (this.regularised ? Math.tanh(y[5] / CREEP) : this.sliding);
    const along = tx * ux + ty * uy;
    const pull = along * this.inverseInertia;
    const centripetal = (across * across) / slingLength;
    const turning = (-carrier.tipX * this.cos * ux - carrier.tipY * this.sin * uy) * rate * rate;
    const tension =
      (centripetal - turning - pull * this.torque - friction * gravity * ux) /
      ((ux * (ux + friction * uy)) / mass + along * pull);
    this.tension = tension;
    this.normal = mass * gravity + tension * uy;
    this.carrierAcceleration(y, dy, tension * along);
    dy[4] = y[5];
    dy[5] = -(tension * ux + friction * this.normal) / mass;
  };

  readonly loose = (y: Float64Array, dy: Float64Array): void => {
    this.carrier(y);
    this.tension = 0;
    this.normal = 0;
    this.carrierAcceleration(y, dy, 0);
    dy[4] = y[5];
    dy[5] = 0;
    dy[6] = y[7];
    dy[7] = -this.setup.gravity;
  };

  readonly looseOnTrough = (y: Float64Array, dy: Float64Array): void => {
    this.carrier(y);
    this.tension = 0;
    this.normal = this.setup.mass * this.setup.gravity;
    this.carrierAcceleration(y, dy, 0);
    dy[4] = this.sliding === 0 ? 0 : y[5];
    dy[5] = -this.sliding * this.setup.troughFriction * this.setup.gravity;
  };

  rightHandSide(phase: Phase) {
    if (phase === SWING) return this.swing;
    if (phase === LOOSE) return this.loose;
    return phase === TROUGH ? this.trough : this.looseOnTrough;
  }

  /** Position and velocity of the projectile, x, y, ẋ, ẏ. */
  projectile(phase: Phase, y: Float64Array, out: Float64Array): void {
    if (phase === SWING) {
      const { carrier, slingLength } = this.setup;
      const s = Math.sin(y[0]);
      const c = Math.cos(y[0]);
      const ux = Math.cos(y[4]);
      const uy = Math.sin(y[4]);
      out[0] = carrier.tipX * c + slingLength * ux;
      out[1] = carrier.originY + carrier.tipY * s + slingLength * uy;
      out[2] = -carrier.tipX * s * y[1] - slingLength * y[5] * uy;
      out[3] = carrier.tipY * c * y[1] + slingLength * y[5] * ux;
    } else {
      out[0] = y[4];
      out[1] = phase === LOOSE ? y[6] : this.setup.troughHeight;
      out[2] = y[5];
      out[3] = phase === LOOSE ? y[7] : 0;
    }
  }

  /** Position and velocity of the tip, x, y, ẋ, ẏ. */
  tip(y: Float64Array, out: Float64Array): void {
    const { carrier } = this.setup;
    const s = Math.sin(y[0]);
    const c = Math.cos(y[0]);
    out[0] = carrier.tipX * c;
    out[1] = carrier.originY + carrier.tipY * s;
    out[2] = -carrier.tipX * s * y[1];
    out[3] = carrier.tipY * c * y[1];
  }

  /** Mechanical energy of machine and projectile, J, for the tests of the integration. */
  energy(phase: Phase, y: Float64Array): number {
    const { carrier, mass, gravity } = this.setup;
    const c = Math.cos(y[0]);
    const s = Math.sin(y[0]);
    let energy = 0.5 * (carrier.inertia + carrier.inertiaCos2 * c * c) * y[1] * y[1];
    energy -= gravity * carrier.moment * s;
    const { hanger } = carrier;
    if (hanger) {
      const cosBetween = c * Math.cos(y[2]) + s * Math.sin(y[2]);
      energy += 0.5 * hanger.inertia * y[3] * y[3] - hanger.coupling * cosBetween * y[1] * y[3];
      energy += hanger.moment * gravity * Math.sin(y[2]);
    }
    const p = new Float64Array(4);
    this.projectile(phase, y, p);
    return energy + mass * (0.5 * (p[2] * p[2] + p[3] * p[3]) + gravity * p[1]);
  }

  /** M(φ) with the hanger eliminated, inverted; 0 at the end stop. For impulses. */
  inverseInertiaAt(y: Float64Array): number {
    this.carrier(y);
    return this.inverseInertia;
  }

  /** Applies an impulse `moment` = J (t·u) on the carrier: changes φ̇ and β̇ in `y`. */
  strike(y: Float64Array, moment: number): void {
    this.carrier(y);
    const change = moment * this.inverseInertia;
    y[1] += change;
    const { hanger } = this.setup.carrier;
    if (hanger && !this.locked) y[3] += (hanger.coupling * this.hangerCos * change) / hanger.inertia;
  }
}
