/**
 * Accelerations, impulses and steps of a mechanism in one contact mode. Every step solves the Lagrange
 * multiplier equations M a + Jᵀ λ = F, J a = −J̇ v as they stand, then projects positions and velocities back on the
 * constraints, so that nothing drifts.
 */
import { solveLinear } from "./linear";
import {
  type Constraint,
  frozen,
  holdX,
  holdY,
  type Mechanism,
  positionX,
  positionY,
  tautLine,
  velocityX,
  velocityY,
} from "./mechanism";

export interface Mode {
  /** The projectile is on the trough. */
  trough: boolean;
  /** The sling is slack. */
  loose: boolean;
  /** On the trough: the sign of the sliding velocity; 0 at rest. */
  slide: -1 | 0 | 1;
  /** The end stop has locked arm, counterweight and carriage to the frame. */
  locked: boolean;
  /** The end stop has failed: the drive runs out. */
  failed: boolean;
}

export interface Forces {
  acceleration: number[];
  /** N; a negative one means that the sling would have to push. */
  tension: number;
  /** N, of the trough on the projectile; negative where it would have to pull. */
  normal: number;
  /** N, what holds the projectile at rest on the trough. */
  grip: number;
}

interface Active {
  list: Constraint[];
  sling: number;
  trough: number;
  grip: number;
}

/** The constraints in force; `from` holds the frozen coordinates. */
function activeConstraints(m: Mechanism, mode: Mode, from: number[]): Active {
  const list: Constraint[] = [];
  if (mode.locked) {
    for (let i = 0; i < m.masses.length - 2; i++) {
      if (i === m.frame) continue;
      const carried = m.frame >= 0 && m.levels.includes(i);
      list.push(carried ? frozen(i, from[i] - from[m.frame], m.frame) : frozen(i, from[i]));
    }
  } else {
    list.push(...m.constraints);
  }
  const active: Active = { list, sling: -1, trough: -1, grip: -1 };
  if (!mode.loose) {
    active.sling = list.length;
    list.push(tautLine(m.tip, m.projectile, m.slingLength));
  }
  if (mode.trough) {
    active.trough = list.length;
    list.push(holdY(m.projectile, m.troughHeight));
    if (mode.slide === 0) {
      active.grip = list.length;
      const at = from[m.projectile.x] - (m.frame < 0 ? 0 : from[m.frame]);
      list.push(holdX(m.projectile, at, m.frame));
    }
  }
  return active;
}

/** The multiplier equations: rows M | Jᵀ and J | 0. */
function equations(m: Mechanism, active: Active, q: number[], v: number[]) {
  const n = m.masses.length;
  const size = n + active.list.length;
  const a: number[][] = [];
  for (let i = 0; i < size; i++) a.push(new Array(size).fill(0));
  const values: number[] = [];
  const biases: number[] = [];
  for (let i = 0; i < n; i++) a[i][i] = m.masses[i];
  for (let c = 0; c < active.list.length; c++) {
    const row = new Array(n).fill(0);
    const { value, bias } = active.list[c](q, v, row);
    values.push(value);
    biases.push(bias);
    for (let i = 0; i < n; i++) {
      a[n + c][i] = row[i];
      a[i][n + c] = row[i];
    }
  }
  return { a, values, biases, n };
}

/** The trough's force or impulse brings its share along the trough, and the frame takes the reaction. */
function rub(m: Mechanism, a: number[][], column: number, share: number) {
  a[m.projectile.x][column] -= share;
  if (m.frame >= 0) a[m.frame][column] += share;
}

export function forces(m: Mechanism, mode: Mode, q: number[], v: number[]): Forces {
  const active = activeConstraints(m, mode, q);
  const { a, biases, n } = equations(m, active, q, v);
  const b: number[] = new Array(n).fill(0);
  for (const i of m.heights) b[i] = m.masses[i] * m.gravity.y;
  for (const i of m.levels) b[i] = m.masses[i] * m.gravity.x;
  b[m.projectile.x] = m.masses[m.projectile.x] * m.gravity.x;
  if (m.frame >= 0) b[m.frame] = m.masses[m.frame] * m.gravity.x;
  if (m.drive) b[m.armAngle] += m.drive.torque(q[m.armAngle], mode.failed);
  for (const bias of biases) b.push(-bias);
  // Coulomb friction −slide·μ·N with N = −λ of the trough.
  if (active.trough >= 0 && mode.slide !== 0) {
    rub(m, a, n + active.trough, mode.slide * m.troughFriction);
  }
  const x = solveLinear(a, b);
  return {
    acceleration: x.slice(0, n),
    tension: active.sling < 0 ? 0 : x[n + active.sling] * m.slingLength,
    normal: active.trough < 0 ? 0 : -x[n + active.trough],
    grip: active.grip < 0 ? 0 : -x[n + active.grip],
  };
}

/**
 * The velocities that satisfy the constraints of the mode after an inelastic impulse: without friction those nearest
 * by kinetic energy. With it, the trough's impulse has its Coulomb share against the slide, too.
 */
export function inelastic(m: Mechanism, mode: Mode, q: number[], v: number[], friction = 0): number[] {
  const active = activeConstraints(m, mode, q);
  const { a, n } = equations(m, active, q, v);
  if (active.trough >= 0) rub(m, a, n + active.trough, mode.slide * friction);
  const b = new Array(a.length).fill(0);
  for (let i = 0; i < n; i++) b[i] = m.masses[i] * v[i];
  return solveLinear(a, b).slice(0, n);
}

/** Positions brought back on the constraints (Newton, by least kinetic distance), then velocities. */
function project(m: Mechanism, mode: Mode, q: number[], v: number[], from: number[]) {
  const active = activeConstraints(m, mode, from);
  for (let pass = 0; pass < 4; pass++) {
    const { a, values, n } = equations(m, active, q, v);
    if (Math.max(...values.map(Math.abs)) < 1e-14) break;
    const b = new Array(n).fill(0).concat(values.map((value) => -value));
    const x = solveLinear(a, b);
    for (let i = 0; i < n; i++) q[i] += x[i];
  }
  const after = inelastic(m, mode, q, v);
  for (let i = 0; i < v.length; i++) v[i] = after[i];
}

/** One classical Runge-Kutta step of order 4 and the projection; the mode does not change within it. */
export function step(m: Mechanism, mode: Mode, q: number[], v: number[], h: number) {
  const n = q.length;
  const at = (s: number, dq: number[], dv: number[]) => {
    const q1 = new Array(n);
    const v1 = new Array(n);
    for (let i = 0; i < n; i++) {
      q1[i] = q[i] + s * dq[i];
      v1[i] = v[i] + s * dv[i];
    }
    return { q: q1, v: v1 };
  };
  const a1 = forces(m, mode, q, v).acceleration;
  const s2 = at(h / 2, v, a1);
  const a2 = forces(m, mode, s2.q, s2.v).acceleration;
  const s3 = at(h / 2, s2.v, a2);
  const a3 = forces(m, mode, s3.q, s3.v).acceleration;
  const s4 = at(h, s3.v, a3);
  const a4 = forces(m, mode, s4.q, s4.v).acceleration;
  const q1 = new Array(n);
  const v1 = new Array(n);
  for (let i = 0; i < n; i++) {
    q1[i] = q[i] + (h / 6) * (v[i] + 2 * s2.v[i] + 2 * s3.v[i] + s4.v[i]);
    v1[i] = v[i] + (h / 6) * (a1[i] + 2 * a2[i] + 2 * a3[i] + a4[i]);
  }
  project(m, mode, q1, v1, q);
  return { q: q1, v: v1 };
}

/** Velocity of the projectile along the trough, which rolls with the frame. */
export const slidingSpeed = (m: Mechanism, v: number[]) => v[m.projectile.x] - (m.frame < 0 ? 0 : v[m.frame]);

/** Sling's vector from the tip to the projectile, its length, and how fast that grows. */
export function slingState(m: Mechanism, q: number[], v: number[]) {
  const x = positionX(m.projectile, q) - positionX(m.tip, q);
  const y = positionY(m.projectile, q) - positionY(m.tip, q);
  const vx = velocityX(m.projectile, q, v) - velocityX(m.tip, q, v);
  const vy = velocityY(m.projectile, q, v) - velocityY(m.tip, q, v);
  const length = Math.hypot(x, y);
  return { x, y, length, growth: (x * vx + y * vy) / length };
}
