/**
 * The equations of motion of an arm machine, one right-hand side for each way in which projectile, sling and
 * trough can stand to each other. The sling acts through its tension T along u, the unit vector from the tip to
 * the projectile, so that with t = d(tip)/dφ and c = d²(tip)/dφ²:
 *
 *   M φ̈ = Q + T (t·u)                            (the carrier, Q without the sling; hanger eliminated)
 *   m r̈ = −T u + m g + N ŷ ∓ μN x̂                (the projectile; N only on the trough)
 *   u·r̈ = (t·u) φ̈ + (c·u) φ̇² − l ψ̇²             (the taut sling keeps its length)
 *   (M + m t²) φ̈ = Q + m t·(g − c φ̇²)            (the projectile in a cup at the tip)
 *
 * Lagrange's equations for the carrier; T follows from the three, then φ̈ and r̈. See carrier.ts for M and Q.
 *
 * Everything is in the axes of the frame. Where it leans, gravity turns in them; where it rolls with the
 * acceleration a along e, all on it is under the gravity g − a e, and a follows from the level momentum of the
 * whole, which nothing from outside changes: (M_all) a + d/dt Σ m v·e = 0. All accelerations are linear in gravity
 * for a given state, so two evaluations give a. The frame's place and speed need no state of their own: they follow
 * from the centre of mass, which stays where it was along e, and from the momentum, which stays 0.
 */
import { MAX_SIZE, type RightHandSide } from "../numeric/dop853";
import { sinCos } from "../numeric/sincos";
import type { SwingSetup } from "./carrier";
import { CUP, LOOSE, LOOSE_ON_TROUGH, type Phase, SWING, stateSize, TROUGH } from "./phase";
import { Places } from "./places";
import { type Spring, springTorque, type Winding, WOUND } from "./spring";

export * from "./phase";

/** Speed below which a regularised friction fades, m/s: only after a reversal that may stick. */
const CREEP = 1e-3;

/** Sine and cosine of the last angle asked for. */
const pair = new Float64Array(2);
/** The same of three angles. */
const trio = new Float64Array(6);
/** Slopes under another gravity, of a frame that rolls. */
const other = new Float64Array(MAX_SIZE);

export class Motion extends Places {
  /** Set while the arm stands at its end stop. */
  locked = false;
  /** Direction of sliding on the trough that friction opposes: −1, 1, or 0 at rest. */
  sliding = -1;
  /** Set once the projectile has come to a stop under a taut sling: friction by a regularised law. */
  regularised = false;
  /** By which law the springs pull. */
  winding: Winding = WOUND;

  /** Of the last evaluation: tension of the sling (or push of the cup) and normal force of the trough, N. */
  tension = 0;
  normal = 0;
  /** Of the last evaluation: gravity on what rides on the frame, along its axes, downwards positive in y, m/s². */
  gravityX: number;
  gravityY: number;
  /** Of the last evaluation: acceleration of the frame along the ground, m/s². */
  frameAcceleration = 0;

  // Of the last `carrier` evaluation.
  private sin = 0;
  private cos = 1;
  private inverseInertia = 0;
  private torque = 0;
  private hangerForce = 0;
  /** coupling · cos(φ − β) */
  private hangerAlong = 0;
  // Of the last evaluation of a taut sling: its direction.
  private ux = 1;
  private uy = 0;

  // Constants of the setup at hand in fields: the equations are evaluated hundreds of thousands of times a sheet.
  private readonly inertia: number;
  private readonly inertiaCos2: number;
  private readonly moment: number;
  private readonly levelMoment: number;
  private readonly tipX: number;
  private readonly tipY: number;
  private readonly length: number;
  private readonly inverseLength: number;
  private readonly inverseMass: number;
  private readonly hangs: boolean;
  private readonly coupling: number;
  private readonly inverseHanger: number;
  private readonly hangerMoment: number;
  private readonly spring: Spring | null;

  constructor(setup: SwingSetup) {
    super(setup);
    this.gravityX = this.stillX;
    this.gravityY = this.stillY;
    const { carrier, mass, slingLength } = setup;
    this.inertia = carrier.inertia;
    this.inertiaCos2 = carrier.inertiaCos2;
    this.moment = carrier.moment;
    this.levelMoment = carrier.levelMoment;
    this.tipX = carrier.tipX;
    this.tipY = carrier.tipY;
    this.length = slingLength;
    this.inverseLength = 1 / slingLength;
    this.inverseMass = 1 / mass;
    this.hangs = carrier.hanger !== null;
    this.coupling = carrier.hanger?.coupling ?? 0;
    this.inverseHanger = carrier.hanger ? 1 / carrier.hanger.inertia : 0;
    this.hangerMoment = carrier.hanger?.moment ?? 0;
    this.spring = carrier.spring;
  }

  /** `locked`, `sliding`, `regularised` and `winding` in one number, to be recorded and recalled. */
  get mode(): number {
    return (
      (this.locked ? 1 : 0) | (this.regularised ? 2 : 0) | ((this.sliding + 1) << 2) | (this.winding << 4)
    );
  }

  set mode(mode: number) {
    this.locked = (mode & 1) !== 0;
    this.regularised = (mode & 2) !== 0;
    this.sliding = ((mode >> 2) & 3) - 1;
    this.winding = (mode >> 4) as Winding;
  }

  /** Carrier terms at a state, all but the sling's pull. */
  private carrier(y: Float64Array): void {
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
    const { gravityX, gravityY, inertiaCos2 } = this;
    const rate2 = y[1] * y[1];
    let inertia = this.inertia + inertiaCos2 * c * c;
    let torque = gravityY * this.moment * c - gravityX * this.levelMoment * s + inertiaCos2 * c * s * rate2;
    if (this.spring !== null) torque -= springTorque(this.spring, this.winding, y[0]);
    if (this.hangs) {
      sinCos(y[2], pair);
      const sb = pair[0];
      const cb = pair[1];
      const { coupling, inverseHanger } = this;
      const along = coupling * (c * cb + s * sb);
      const across = coupling * (s * cb - c * sb);
      const force = -across * rate2 - this.hangerMoment * (gravityY * cb + gravityX * sb);
      inertia -= along * along * inverseHanger;
      torque += across * y[3] * y[3] + along * force * inverseHanger;
      this.hangerForce = force;
      this.hangerAlong = along;
    }
    this.inverseInertia = 1 / inertia;
    this.torque = torque;
  }

  /** φ̈ and β̈ under a pull `drive` = T (t·u) into `dy`. */
  private carrierAcceleration(y: Float64Array, dy: Float64Array, drive: number): void {
    const acceleration = (this.torque + drive) * this.inverseInertia;
    dy[0] = y[1];
    dy[1] = acceleration;
    if (this.hangs && !this.locked) {
      dy[2] = y[3];
      dy[3] = (this.hangerForce + this.hangerAlong * acceleration) * this.inverseHanger;
    } else {
      dy[2] = 0;
      dy[3] = 0;
    }
  }

  /** The sling taut, clear of the trough; on a frame that does not roll. */
  private swing(y: Float64Array, dy: Float64Array): void {
    this.carrier(y);
    sinCos(y[4], pair);
    const ux = pair[1];
    const uy = pair[0];
    const { gravityX, gravityY, tipX, tipY, sin, cos, inverseInertia } = this;
    const tx = -tipX * sin;
    const ty = tipY * cos;
    const cx = -tipX * cos;
    const cy = -tipY * sin;
    const rate2 = y[1] * y[1];
    const along = tx * ux + ty * uy;
    const pull = along * inverseInertia;
    const tension =
      (this.length * y[5] * y[5] -
        (cx * ux + cy * uy) * rate2 +
        gravityX * ux -
        gravityY * uy -
        pull * this.torque) /
      (this.inverseMass + along * pull);
    this.tension = tension;
    this.normal = 0;
    this.ux = ux;
    this.uy = uy;
    this.carrierAcceleration(y, dy, tension * along);
    dy[4] = y[5];
    dy[5] =
      (-gravityY * ux - gravityX * uy - (ty * ux - tx * uy) * dy[1] - (cy * ux - cx * uy) * rate2) *
      this.inverseLength;
  }

  /** On the trough with a taut sling; on a frame that does not roll. */
  private trough(y: Float64Array, dy: Float64Array): void {
    const { carrier, mass, slingLength, troughHeight, troughFriction } = this.setup;
    const { gravityX, gravityY } = this;
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
      (centripetal - turning - pull * this.torque - (friction * gravityY - gravityX) * ux) /
      ((ux * (ux + friction * uy)) / mass + along * pull);
    this.tension = tension;
    this.normal = mass * gravityY + tension * uy;
    this.ux = ux;
    this.uy = uy;
    this.carrierAcceleration(y, dy, tension * along);
    dy[4] = y[5];
    dy[5] = gravityX - (tension * ux + friction * this.normal) / mass;
  }

  private loose(y: Float64Array, dy: Float64Array): void {
    this.carrier(y);
    this.tension = 0;
    this.normal = 0;
    this.carrierAcceleration(y, dy, 0);
    dy[4] = y[5];
    dy[5] = this.gravityX;
    dy[6] = y[7];
    dy[7] = -this.gravityY;
  }

  private looseOnTrough(y: Float64Array, dy: Float64Array): void {
    const { mass, troughFriction } = this.setup;
    this.carrier(y);
    this.tension = 0;
    this.normal = mass * this.gravityY;
    this.carrierAcceleration(y, dy, 0);
    const held = this.sliding === 0 && troughFriction > 0;
    dy[4] = held ? 0 : y[5];
    dy[5] = held ? 0 : this.gravityX - this.sliding * troughFriction * this.gravityY;
  }

  private cup(y: Float64Array, dy: Float64Array): void {
    const { carrier, mass } = this.setup;
    this.carrier(y);
    const tx = -carrier.tipX * this.sin;
    const ty = carrier.tipY * this.cos;
    const rate2 = y[1] * y[1];
    // Weight and centrifugal force of the projectile along the tip's path.
    const load =
      tx * (this.gravityX + carrier.tipX * this.cos * rate2) -
      ty * (this.gravityY - carrier.tipY * this.sin * rate2);
    const across2 = tx * tx + ty * ty;
    const acceleration =
      ((this.torque + mass * load) * this.inverseInertia) / (1 + mass * across2 * this.inverseInertia);
    this.carrierAcceleration(y, dy, acceleration / this.inverseInertia - this.torque);
    // Along the way of the throw, in which φ falls.
    this.tension = (mass * (load - across2 * dy[1])) / Math.sqrt(across2);
    this.normal = 0;
  }

  /**
   * `swing` for a free arm with a hanging counterweight and no spring, all in one: most of what is ever integrated.
   * With D = M/m + (t·u)², T = (M b − (t·u) Q) / D, so that one division serves φ̈ and T.
   */
  private hangingSwing(y: Float64Array, dy: Float64Array): void {
    const { gravityX, gravityY, coupling, inverseHanger, inverseMass } = this;
    sinCos(y[0], trio, 0);
    sinCos(y[2], trio, 2);
    sinCos(y[4], trio, 4);
    const sin = trio[0];
    const cos = trio[1];
    const sb = trio[2];
    const cb = trio[3];
    const uy = trio[4];
    const ux = trio[5];
    const rate2 = y[1] * y[1];
    const swung = y[3];
    const turned = y[5];
    const hangerAlong = coupling * (cos * cb + sin * sb);
    const hangerAcross = coupling * (sin * cb - cos * sb);
    const force = -hangerAcross * rate2 - this.hangerMoment * (gravityY * cb + gravityX * sb);
    const shared = hangerAlong * inverseHanger;
    const squared = this.inertiaCos2 * cos;
    const inertia = this.inertia + squared * cos - hangerAlong * shared;
    const torque =
      gravityY * this.moment * cos -
      gravityX * this.levelMoment * sin +
      squared * sin * rate2 +
      hangerAcross * swung * swung +
      shared * force;
    const tipAcross = this.tipX * sin;
    const tipAlong = this.tipX * cos;
    const tipUp = this.tipY * sin;
    const tipLevel = this.tipY * cos;
    const along = tipLevel * uy - tipAcross * ux;
    const pulled =
      this.length * turned * turned + (tipAlong * ux + tipUp * uy) * rate2 + gravityX * ux - gravityY * uy;
    const both = inertia * inverseMass + along * along;
    const inverse = 1 / (inertia * both);
    const tension = (inertia * pulled - along * torque) * inertia * inverse;
    const acceleration = (both * torque + along * (inertia * pulled - along * torque)) * inverse;
    this.tension = tension;
    this.normal = 0;
    dy[0] = y[1];
    dy[1] = acceleration;
    dy[2] = swung;
    dy[3] = (force + hangerAlong * acceleration) * inverseHanger;
    dy[4] = turned;
    dy[5] =
      ((tipUp * ux - tipAlong * uy) * rate2 -
        gravityY * ux -
        gravityX * uy -
        (tipLevel * ux + tipAcross * uy) * acceleration) *
      this.inverseLength;
  }

  /** The equations of a phase at a state, the frame's rolling included: dy/dt into `dy`, the forces into fields. */
  evaluate(phase: Phase, y: Float64Array, dy: Float64Array): void {
    if (this.rollingMass > 0) this.roll(phase, y, dy);
    else if (phase === SWING && this.hangs && !this.locked && this.spring === null) this.hangingSwing(y, dy);
    else this.held(phase, y, dy);
  }

  /** The same as a function, for an integrator. */
  rightHandSide(phase: Phase): RightHandSide {
    return (y, dy) => this.evaluate(phase, y, dy);
  }

  /** On a frame that does not roll. */
  private held(phase: Phase, y: Float64Array, dy: Float64Array): void {
    if (phase === SWING) this.swing(y, dy);
    else if (phase === TROUGH) this.trough(y, dy);
    else if (phase === LOOSE) this.loose(y, dy);
    else if (phase === CUP) this.cup(y, dy);
    else this.looseOnTrough(y, dy);
  }

  private roll(phase: Phase, y: Float64Array, dy: Float64Array): void {
    const { setup, rollingMass } = this;
    // Large enough that the difference keeps its digits.
    const unit = setup.gravity;
    this.gravityX = this.stillX;
    this.gravityY = this.stillY;
    this.held(phase, y, dy);
    const { tension, normal } = this;
    const force = this.levelForce(phase, y, dy);
    this.gravityX -= unit * this.ex;
    this.gravityY += unit * this.ey;
    this.held(phase, y, other);
    const change = this.levelForce(phase, y, other) - force;
    const share = -force / (rollingMass * unit + change);
    const size = stateSize(phase);
    for (let i = 1; i < size; i += 2) dy[i] += share * (other[i] - dy[i]);
    this.tension = tension + share * (this.tension - tension);
    this.normal = normal + share * (this.normal - normal);
    this.frameAcceleration = share * unit;
    this.gravityX = this.stillX - this.frameAcceleration * this.ex;
    this.gravityY = this.stillY + this.frameAcceleration * this.ey;
  }

  /** d/dt of the level momentum relative to the frame, N, at the accelerations just evaluated into `dy`. */
  private levelForce(phase: Phase, y: Float64Array, dy: Float64Array): number {
    const { carrier, mass } = this.setup;
    const { ex, ey, sin, cos } = this;
    const rate2 = y[1] * y[1];
    const turned = sin * dy[1] + cos * rate2;
    const raised = cos * dy[1] - sin * rate2;
    let force = -carrier.levelMoment * turned * ex - carrier.moment * raised * ey;
    if (carrier.hanger) {
      sinCos(y[2], pair);
      const sb = pair[0];
      const cb = pair[1];
      const swung2 = y[3] * y[3];
      force += carrier.hanger.moment * (-(sb * dy[3] + cb * swung2) * ex + (cb * dy[3] - sb * swung2) * ey);
    }
    if (phase === TROUGH || phase === LOOSE_ON_TROUGH) return force + mass * dy[5] * ex;
    if (phase === CUP) {
      return force + mass * (-carrier.tipX * turned * ex + carrier.tipY * raised * ey);
    }
    force += mass * (this.gravityX * ex - this.gravityY * ey);
    return phase === SWING ? force - this.tension * (this.ux * ex + this.uy * ey) : force;
  }

  /** Whether a projectile at rest on the trough under a slack sling begins to slide, after an evaluation of it. */
  slips(): boolean {
    return Math.abs(this.gravityX) > this.setup.troughFriction * this.gravityY;
  }

  /**
   * An impulse `moment` = J (t·u) on the carrier while the frame's speed changes by `jolt` (m/s): changes φ̇ and β̇
   * in `y`. What moves on the frame feels the jolt as an impulse of gravity against it.
   */
  strike(y: Float64Array, moment: number, jolt = 0): void {
    if (this.locked) return;
    this.carrier(y);
    const { carrier } = this.setup;
    const { hanger } = carrier;
    const [kickX, kickY] = [-jolt * this.ex, jolt * this.ey];
    let turning = moment + kickY * carrier.moment * this.cos - kickX * carrier.levelMoment * this.sin;
    if (!hanger) {
      y[1] += turning * this.inverseInertia;
      return;
    }
    const swinging = -hanger.moment * (kickY * Math.cos(y[2]) + kickX * Math.sin(y[2]));
    turning += (this.hangerAlong * swinging) / hanger.inertia;
    const change = turning * this.inverseInertia;
    y[1] += change;
    y[3] += (swinging + this.hangerAlong * change) / hanger.inertia;
  }
}
