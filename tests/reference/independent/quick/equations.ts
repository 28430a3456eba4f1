/**
 * The same machines in as few coordinates as they have, for the thousands of draws of a tolerance box. Derived by
 * Lagrange's equations from the text alone, and held against the free bodies of ../mechanism.ts in
 * reduced.test.ts. State: frame x, arm angle, hanger angle, projectile x and y, and their rates.
 *
 * The arm's angle is that of its outward line from +x; the tip is at (X + reachX·cos, height + reachY·sin). A floating
 * arm's fulcrum runs along its track as X + shortArm·cos, which makes its tip's path an ellipse.
 */
import { type ArmMachine, GRAVITY } from "../mechanism";

export const FRAME = 0;
export const ARM = 1;
export const HANGER = 2;
export const PX = 3;
export const PY = 4;
/** Rates follow positions. */
export const RATE = 5;
export const SIZE = 10;
const RADIAN = Math.PI / 180;

export interface Contact {
  trough: boolean;
  loose: boolean;
  slide: -1 | 0 | 1;
  locked: boolean;
  failed: boolean;
}

export interface Options {
  rolling?: boolean | undefined;
  leanAlong?: number | undefined;
  gravity?: number | undefined;
}

export class Equations {
  readonly reachX: number;
  readonly reachY: number;
  readonly height: number;
  readonly sling: number;
  readonly trough: number;
  readonly friction: number;
  readonly longArm: number;
  readonly lean: number;
  readonly rolling: boolean;
  readonly start = new Float64Array(SIZE);
  /** Null without a stop. Positive past it. */
  readonly pastStop: ((y: Float64Array) => number) | null = null;
  tension = 0;
  normal = 0;
  /** Force that holds a load at rest on its trough, N. */
  grip = 0;

  private readonly total: number;
  private readonly levelMoment: number;
  private readonly heavyMoment: number;
  private readonly inertia: number;
  private readonly inertiaSin2: number;
  private readonly hangs: boolean;
  private readonly hanger: number = 0;
  private readonly weight: number = 0;
  private readonly coupling: number = 0;
  private readonly hangerInertia: number = 0;
  private readonly gx: number;
  private readonly gy: number;
  private readonly preload: number = 0;
  private readonly stiffness: number = 0;
  private readonly stopAt: number = 0;
  private readonly fade: number = 0;

  constructor(
    machine: ArmMachine,
    readonly mass: number,
    { rolling = false, leanAlong = machine.leanAlong ?? 0, gravity = GRAVITY }: Options = {},
  ) {
    const torsion = machine.kind === "torsion";
    const long = torsion ? machine.armLength : machine.longArm;
    const short = torsion ? 0 : machine.shortArm;
    const whole = long + short;
    const offset = (machine.armCentre ?? whole / 2) - short;
    const ownInertia = machine.armInertia ?? (machine.armMass * whole * whole) / 12;
    const load = torsion ? 0 : machine.counterweightMass;
    const frame = rolling && machine.base && machine.base !== "fixed" ? machine.base.frameMass : 0;
    this.longArm = long;
    this.rolling = rolling;
    this.lean = leanAlong * RADIAN;
    this.gx = gravity * Math.sin(this.lean);
    this.gy = -gravity * Math.cos(this.lean);
    this.friction = machine.troughFriction ?? 0;
    this.sling = machine.slingLength ?? 0;
    this.hangs = machine.kind === "hinged-counterweight";
    this.reachY = long;
    this.total = frame + machine.armMass + load;
    this.heavyMoment = machine.armMass * offset - load * short;
    this.inertia = ownInertia + machine.armMass * offset ** 2 + load * short ** 2;
    this.inertiaSin2 = 0;
    if (machine.kind === "floating-arm") {
      const { carriageMass } = machine;
      this.height = machine.trackHeight;
      this.reachX = whole;
      this.total += carriageMass;
      this.levelMoment = machine.armMass * (short + offset) + carriageMass * short;
      this.inertiaSin2 =
        machine.armMass * ((short + offset) ** 2 - offset ** 2) + (carriageMass - load) * short ** 2;
      const stop = machine.endStop;
      if (stop !== undefined) this.pastStop = (y) => short * Math.cos(y[ARM]) - stop;
    } else {
      this.height = machine.pivotHeight;
      this.reachX = long;
      this.levelMoment = this.heavyMoment;
    }
    if (machine.kind === "fixed-counterweight") this.inertia += machine.counterweightInertia;
    if (machine.kind === "hinged-counterweight") {
      this.hanger = machine.hangerLength;
      this.weight = load * this.hanger;
      this.coupling = -load * short * this.hanger;
      this.hangerInertia = load * this.hanger ** 2 + machine.counterweightInertia;
    }
    if (machine.kind === "torsion") {
      this.preload = machine.preloadTorque;
      this.stiffness = machine.stiffness;
      this.stopAt = -Math.PI - machine.stopAngle * RADIAN;
      const travel = (machine.cockedAngle + machine.stopAngle) * RADIAN;
      this.fade = Math.min(this.stiffness > 0 ? this.preload / this.stiffness : travel, travel);
      this.pastStop = (y) => this.stopAt - y[ARM];
    }
    const { start } = this;
    start[ARM] = machine.cockedAngle * RADIAN - Math.PI;
    start[HANGER] = Math.atan2(this.gy, this.gx);
    const tipX = this.reachX * Math.cos(start[ARM]);
    const tipY = this.height + this.reachY * Math.sin(start[ARM]);
    this.trough = this.sling > 0 ? (machine.troughHeight ?? 0) : tipY;
    start[PX] = tipX + Math.sqrt(this.sling ** 2 - (tipY - this.trough) ** 2);
    start[PY] = this.trough;
    if (this.sling > 0 && !(start[PX] >= tipX))
      throw new Error("The sling is too short to reach the trough.");
  }

  private drive(angle: number, failed: boolean): number {
    const toGo = angle - this.stopAt;
    if (!failed || toGo >= 0) return -(this.preload + this.stiffness * toGo);
    return this.fade > 0 ? -this.preload * Math.max(0, 1 + toGo / this.fade) : 0;
  }

  /** Writes the derivative of the state; sets `tension`, `normal` and `grip`. */
  derivative(y: Float64Array, c: Contact, out: Float64Array): void {
    const { mass, gx, gy } = this;
    const w = y[RATE + ARM];
    const cos = Math.cos(y[ARM]);
    const sin = Math.sin(y[ARM]);
    for (let i = 0; i < RATE; i++) out[i] = y[RATE + i];
    // Machine: M q'' = Q + T r, reduced to frame and arm.
    let m11 = this.total;
    let m12 = -this.levelMoment * sin;
    let m22 = this.inertia + this.inertiaSin2 * sin * sin;
    let q1 = gx * this.total + this.levelMoment * cos * w * w;
    let q2 =
      -this.levelMoment * sin * gx + this.heavyMoment * cos * gy - this.inertiaSin2 * sin * cos * w * w;
    if (this.stopAt !== 0) q2 += this.drive(y[ARM], c.failed);
    let q3 = 0;
    let k13 = 0;
    let k23 = 0;
    if (this.hangs && !c.locked) {
      const hs = Math.sin(y[HANGER]);
      const hc = Math.cos(y[HANGER]);
      const rate = y[RATE + HANGER];
      const apart = sin * hc - cos * hs;
      const m13 = -this.weight * hs;
      const m23 = this.coupling * (cos * hc + sin * hs);
      q1 += this.weight * hc * rate * rate;
      q2 -= this.coupling * apart * rate * rate;
      q3 = this.coupling * apart * w * w + this.weight * (hc * gy - hs * gx);
      k13 = m13 / this.hangerInertia;
      k23 = m23 / this.hangerInertia;
      m11 -= m13 * k13;
      m12 -= m13 * k23;
      m22 -= m23 * k23;
      q1 -= k13 * q3;
      q2 -= k23 * q3;
    }
    const jx = -this.reachX * sin;
    const jy = this.reachY * cos;
    if (this.sling === 0) {
      // The cup's load is a point of the arm.
      m11 += mass;
      m12 += mass * jx;
      m22 += mass * (jx * jx + jy * jy);
      q1 += mass * (gx + this.reachX * cos * w * w);
      q2 += mass * (jx * gx + jy * gy);
    }
    // Forces along the trough: f = f0 + T f1, on the frame backwards.
    let f0 = 0;
    let f1 = 0;
    let sx = 0;
    let sy = 0;
    let closing = 0;
    if (!c.loose) {
      const dx = y[PX] - y[FRAME] - this.reachX * cos;
      const dy = y[PY] - this.height - this.reachY * sin;
      const length = Math.hypot(dx, dy);
      sx = dx / length;
      sy = dy / length;
      const ux = y[RATE + PX] - y[RATE + FRAME] - jx * w;
      const uy = y[RATE + PY] - jy * w;
      closing = (ux * ux + uy * uy) / length;
    }
    let r1 = sx;
    const r2 = jx * sx + jy * sy;
    const still = c.trough && c.slide === 0;
    if (still) {
      m11 += mass;
      q1 += mass * gx;
      r1 = 0;
    } else if (c.trough) {
      f0 = c.slide * this.friction * mass * gy;
      f1 = -c.slide * this.friction * sy;
      q1 -= f0;
      r1 -= f1;
    }
    // Accelerations of frame and arm without tension (0) and per newton of it (1).
    let x0 = 0;
    let x1 = 0;
    let a0 = 0;
    let a1 = 0;
    if (this.rolling && c.locked) {
      x0 = q1 / m11;
      x1 = r1 / m11;
    } else if (this.rolling) {
      const det = m11 * m22 - m12 * m12;
      x0 = (q1 * m22 - q2 * m12) / det;
      x1 = (r1 * m22 - r2 * m12) / det;
      a0 = (q2 * m11 - q1 * m12) / det;
      a1 = (r2 * m11 - r1 * m12) / det;
    } else if (!c.locked) {
      a0 = q2 / m22;
      a1 = r2 / m22;
    }
    let tension = 0;
    if (!c.loose) {
      const tip0 =
        sx * (x0 + jx * a0 - this.reachX * cos * w * w) + sy * (jy * a0 - this.reachY * sin * w * w);
      const tip1 = sx * (x1 + jx * a1) + sy * jy * a1;
      let own0 = sx * gx + sy * gy;
      let own1 = -1 / mass;
      if (still) {
        own0 = sx * x0;
        own1 = sx * x1;
      } else if (c.trough) {
        own0 = sx * (gx + f0 / mass);
        own1 = (sx * (f1 - sx)) / mass;
      }
      tension = (own0 - tip0 + closing) / (tip1 - own1);
    }
    this.tension = tension;
    const frame = x0 + tension * x1;
    const arm = a0 + tension * a1;
    out[RATE + FRAME] = frame;
    out[RATE + ARM] = arm;
    out[RATE + HANGER] = this.hangs && !c.locked ? q3 / this.hangerInertia - k13 * frame - k23 * arm : 0;
    this.normal = c.trough ? -mass * gy + tension * sy : 0;
    this.grip = still ? mass * (frame - gx) + tension * sx : 0;
    if (this.sling === 0) {
      out[RATE + PX] = frame + jx * arm - this.reachX * cos * w * w;
      out[RATE + PY] = jy * arm - this.reachY * sin * w * w;
    } else if (still) {
      out[RATE + PX] = frame;
      out[RATE + PY] = 0;
    } else {
      out[RATE + PX] = gx + (f0 + tension * (f1 - sx)) / mass;
      out[RATE + PY] = c.trough ? 0 : gy - (tension * sy) / mass;
    }
  }

  /** Vector from tip to load, its length, its growth, and the speed of the load against the tip. */
  slingOf(y: Float64Array) {
    const cos = Math.cos(y[ARM]);
    const sin = Math.sin(y[ARM]);
    const x = y[PX] - y[FRAME] - this.reachX * cos;
    const h = y[PY] - this.height - this.reachY * sin;
    const ux = y[RATE + PX] - y[RATE + FRAME] + this.reachX * sin * y[RATE + ARM];
    const uy = y[RATE + PY] - this.reachY * cos * y[RATE + ARM];
    const length = Math.hypot(x, h);
    return { x, y: h, length, growth: (x * ux + h * uy) / length, speed: Math.hypot(ux, uy) };
  }

  /**
   * Inelastic jerk along the sling: an impulse J on the load towards the tip and back on the tip; the trough, where
   * the load is pressed on it, answers with its friction against the slide.
   */
  jerk(y: Float64Array, c: Contact): void {
    const s = this.slingOf(y);
    const sx = s.x / s.length;
    const sy = s.y / s.length;
    const jx = -this.reachX * Math.sin(y[ARM]);
    const jy = this.reachY * Math.cos(y[ARM]);
    // Along the trough the load takes −J sx + f, with f = −slide·μ·J·sy (its normal impulse is J sy).
    const share = c.trough ? -c.slide * this.friction * sy : 0;
    const own = c.trough ? (sx * (sx - share)) / this.mass : 1 / this.mass;
    const machine = this.response(y, c, sx - share, jx * sx + jy * sy, 0);
    const tip = sx * (machine.frame + jx * machine.arm) + sy * jy * machine.arm;
    const impulse = s.growth / (own + tip);
    this.push(y, machine, impulse);
    y[RATE + PX] -= (impulse * (sx - share)) / this.mass;
    if (!c.trough) y[RATE + PY] -= (impulse * sy) / this.mass;
  }

  /** The same where friction stops the load on its trough. */
  jerkToRest(y: Float64Array, c: Contact): void {
    const before = y[RATE + PX] - y[RATE + FRAME];
    if (this.rolling) {
      const machine = this.response(y, c, 1, 0, 0);
      const impulse = before / (1 / this.mass + machine.frame);
      this.push(y, machine, impulse);
    }
    y[RATE + PX] = y[RATE + FRAME];
    const s = this.slingOf(y);
    const sx = s.x / s.length;
    const sy = s.y / s.length;
    const jx = -this.reachX * Math.sin(y[ARM]);
    const jy = this.reachY * Math.cos(y[ARM]);
    const machine = this.response(y, c, 0, jx * sx + jy * sy, this.mass);
    const tip = sx * jx * machine.arm + sy * jy * machine.arm;
    if (tip > 0) this.push(y, machine, s.growth / tip);
    y[RATE + PX] = y[RATE + FRAME];
  }

  private push(y: Float64Array, by: { frame: number; arm: number; hanger: number }, impulse: number) {
    y[RATE + FRAME] += impulse * by.frame;
    y[RATE + ARM] += impulse * by.arm;
    y[RATE + HANGER] += impulse * by.hanger;
  }

  /** Rates that unit impulses r1 on the frame and r2 on the arm's angle give the machine. */
  private response(y: Float64Array, c: Contact, r1: number, r2: number, carried: number) {
    const cos = Math.cos(y[ARM]);
    const sin = Math.sin(y[ARM]);
    let m11 = this.total + carried;
    let m12 = -this.levelMoment * sin;
    let m22 = this.inertia + this.inertiaSin2 * sin * sin;
    let k13 = 0;
    let k23 = 0;
    if (this.hangs && !c.locked) {
      const hs = Math.sin(y[HANGER]);
      const hc = Math.cos(y[HANGER]);
      const m23 = this.coupling * (cos * hc + sin * hs);
      k13 = (-this.weight * hs) / this.hangerInertia;
      k23 = m23 / this.hangerInertia;
      m11 += this.weight * hs * k13;
      m12 += this.weight * hs * k23;
      m22 -= m23 * k23;
    }
    let frame = 0;
    let arm = 0;
    if (this.rolling && c.locked) frame = r1 / m11;
    else if (this.rolling) {
      const det = m11 * m22 - m12 * m12;
      frame = (r1 * m22 - r2 * m12) / det;
      arm = (r2 * m11 - r1 * m12) / det;
    } else if (!c.locked) arm = r2 / m22;
    return { frame, arm, hanger: -k13 * frame - k23 * arm };
  }

  /** The arm and all it carries stop dead against the frame, which keeps their level momentum if it rolls. */
  lock(y: Float64Array): void {
    if (this.rolling) {
      y[RATE + FRAME] += (-this.levelMoment * Math.sin(y[ARM]) * y[RATE + ARM]) / this.total;
    }
    y[RATE + ARM] = 0;
    y[RATE + HANGER] = 0;
  }

  /** Removes the drift of the sling's length that a step leaves. */
  project(y: Float64Array, c: Contact): void {
    const cos = Math.cos(y[ARM]);
    const sin = Math.sin(y[ARM]);
    const tipX = y[FRAME] + this.reachX * cos;
    const tipY = this.height + this.reachY * sin;
    const tipU = y[RATE + FRAME] - this.reachX * sin * y[RATE + ARM];
    const tipV = this.reachY * cos * y[RATE + ARM];
    if (this.sling === 0) {
      y[PX] = tipX;
      y[PY] = tipY;
      y[RATE + PX] = tipU;
      y[RATE + PY] = tipV;
      return;
    }
    if (c.loose || (c.trough && c.slide === 0)) return;
    const dx = y[PX] - tipX;
    const dy = y[PY] - tipY;
    if (c.trough) {
      const level = Math.sqrt(Math.max(0, this.sling ** 2 - dy * dy));
      y[PX] = tipX + Math.sign(dx) * level;
      if (level > 0) y[RATE + PX] = tipU + (dy * tipV) / (Math.sign(dx) * level);
      return;
    }
    const length = Math.hypot(dx, dy);
    const sx = dx / length;
    const sy = dy / length;
    const radial = sx * (y[RATE + PX] - tipU) + sy * (y[RATE + PY] - tipV);
    y[PX] = tipX + this.sling * sx;
    y[PY] = tipY + this.sling * sy;
    y[RATE + PX] -= radial * sx;
    y[RATE + PY] -= radial * sy;
  }
}
