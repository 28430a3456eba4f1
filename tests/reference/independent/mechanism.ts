/**
 * A machine as a heap of free bodies in the plane and the constraints that hold them together. Every body has
 * its own x, y and, if it turns, its own angle; nothing is eliminated. This is deliberately another formulation
 * than that of lib/throw, from which nothing but the names of the parameters is taken.
 */

import type { Machine } from "@/lib/throw";

type Lean = "leanAlong" | "leanAcross";
type Of<Kind extends Machine["kind"]> = Omit<Extract<Machine, { kind: Kind }>, Lean> & {
  [Name in Lean]?: number;
};
export type SwingMachine = Of<"hinged-counterweight"> | Of<"fixed-counterweight"> | Of<"floating-arm">;

/** An arm driven by a twisted skein or spring; no sling length is a cup at the tip. SI, degrees, N·m, N·m/rad. */
export interface TorsionMachine {
  kind: "torsion";
  armLength: number;
  armMass: number;
  /** From the pivot; the middle when absent. */
  armCentre?: number | undefined;
  armInertia?: number | undefined;
  pivotHeight: number;
  cockedAngle: number;
  stopAngle: number;
  preloadTorque: number;
  stiffness: number;
  slingLength?: number | undefined;
  releaseAngle?: number | undefined;
  troughHeight?: number | undefined;
  troughFriction?: number | undefined;
  base?: "fixed" | { frameMass: number; footprint: number };
  leanAlong?: number;
  leanAcross?: number;
}

export type ArmMachine = SwingMachine | TorsionMachine;
export const GRAVITY = 9.80665;
const RADIAN = Math.PI / 180;

/** A point of a body: its reference point, or `offset` along the body's axis from it. Indices into q. */
export interface BodyPoint {
  x: number;
  y: number;
  angle: number;
  offset: number;
}

/** One scalar holonomic constraint: writes its Jacobian row; returns its value and the part of its second
 * derivative that does not hold accelerations (J̇·v). */
export type Constraint = (q: number[], v: number[], row: number[]) => { value: number; bias: number };

export interface Layout {
  /** A machine on wheels rolls; held, it stands. */
  rolling?: boolean;
  /** Degrees by which the whole machine is turned about the origin, positive downrange. */
  leanAlong?: number;
}

export interface Mechanism {
  machine: ArmMachine;
  longArm: number;
  /** 0 for a cup, which holds the projectile at the tip. */
  slingLength: number;
  troughHeight: number;
  troughFriction: number;
  releaseAngle: number;
  /** Coordinate of the frame that rolls along x; −1 when it stands. */
  frame: number;
  /** Coordinates that the frame carries along: every x but the projectile's. */
  levels: number[];
  /** Of gravity in the machine's own axes, m/s²: they lean with it. */
  gravity: { x: number; y: number };
  /** rad */
  lean: number;
  /** Torque on the arm (N·m, in the sense of its angle) and the energy left in the drive (J), by arm angle. */
  drive: {
    torque(angle: number, failed: boolean): number;
    energy(angle: number, failed: boolean): number;
  } | null;
  /** How far something is past its end stop; null without a stop. */
  beyondStop: ((q: number[]) => number) | null;
  /** Diagonal of the mass matrix, projectile's x and y last. */
  masses: number[];
  start: number[];
  constraints: Constraint[];
  tip: BodyPoint;
  projectile: BodyPoint;
  /** What the end stop stops. */
  carriage: BodyPoint | null;
  /** Coordinate whose cosine and sine give the outward direction of the arm. */
  armAngle: number;
  /** Coordinates on which weight acts. */
  heights: number[];
}

export const positionX = (p: BodyPoint, q: number[]) =>
  q[p.x] + (p.angle < 0 ? 0 : p.offset * Math.cos(q[p.angle]));
export const positionY = (p: BodyPoint, q: number[]) =>
  q[p.y] + (p.angle < 0 ? 0 : p.offset * Math.sin(q[p.angle]));
export const velocityX = (p: BodyPoint, q: number[], v: number[]) =>
  v[p.x] - (p.angle < 0 ? 0 : p.offset * Math.sin(q[p.angle]) * v[p.angle]);
export const velocityY = (p: BodyPoint, q: number[], v: number[]) =>
  v[p.y] + (p.angle < 0 ? 0 : p.offset * Math.cos(q[p.angle]) * v[p.angle]);
/** Centripetal part of the acceleration. */
const biasX = (p: BodyPoint, q: number[], v: number[]) =>
  p.angle < 0 ? 0 : -p.offset * Math.cos(q[p.angle]) * v[p.angle] ** 2;
const biasY = (p: BodyPoint, q: number[], v: number[]) =>
  p.angle < 0 ? 0 : -p.offset * Math.sin(q[p.angle]) * v[p.angle] ** 2;

function addRowX(p: BodyPoint, q: number[], row: number[], factor: number) {
  row[p.x] += factor;
  if (p.angle >= 0) row[p.angle] -= factor * p.offset * Math.sin(q[p.angle]);
}
function addRowY(p: BodyPoint, q: number[], row: number[], factor: number) {
  row[p.y] += factor;
  if (p.angle >= 0) row[p.angle] += factor * p.offset * Math.cos(q[p.angle]);
}

/** Held at an x of the ground, or of the frame that rolls. */
export const holdX =
  (p: BodyPoint, at: number, frame = -1): Constraint =>
  (q, v, row) => {
    addRowX(p, q, row, 1);
    if (frame >= 0) row[frame] -= 1;
    return { value: positionX(p, q) - at - (frame < 0 ? 0 : q[frame]), bias: biasX(p, q, v) };
  };
export const holdY =
  (p: BodyPoint, at: number): Constraint =>
  (q, v, row) => {
    addRowY(p, q, row, 1);
    return { value: positionY(p, q) - at, bias: biasY(p, q, v) };
  };
const joinX =
  (a: BodyPoint, b: BodyPoint): Constraint =>
  (q, v, row) => {
    addRowX(a, q, row, 1);
    addRowX(b, q, row, -1);
    return { value: positionX(a, q) - positionX(b, q), bias: biasX(a, q, v) - biasX(b, q, v) };
  };
const joinY =
  (a: BodyPoint, b: BodyPoint): Constraint =>
  (q, v, row) => {
    addRowY(a, q, row, 1);
    addRowY(b, q, row, -1);
    return { value: positionY(a, q) - positionY(b, q), bias: biasY(a, q, v) - biasY(b, q, v) };
  };
const sameAngle =
  (a: number, b: number, difference: number): Constraint =>
  (q, _v, row) => {
    row[a] += 1;
    row[b] -= 1;
    return { value: q[a] - q[b] - difference, bias: 0 };
  };
/** Half the squared distance between two points is that of a taut line of this length. */
export const tautLine =
  (from: BodyPoint, to: BodyPoint, length: number): Constraint =>
  (q, v, row) => {
    const dx = positionX(to, q) - positionX(from, q);
    const dy = positionY(to, q) - positionY(from, q);
    const dvx = velocityX(to, q, v) - velocityX(from, q, v);
    const dvy = velocityY(to, q, v) - velocityY(from, q, v);
    addRowX(to, q, row, dx);
    addRowX(from, q, row, -dx);
    addRowY(to, q, row, dy);
    addRowY(from, q, row, -dy);
    const centripetal =
      dx * (biasX(to, q, v) - biasX(from, q, v)) + dy * (biasY(to, q, v) - biasY(from, q, v));
    return { value: (dx * dx + dy * dy - length * length) / 2, bias: dvx * dvx + dvy * dvy + centripetal };
  };
export const frozen =
  (index: number, at: number, frame = -1): Constraint =>
  (q, _v, row) => {
    row[index] += 1;
    if (frame >= 0) row[frame] -= 1;
    return { value: q[index] - at - (frame < 0 ? 0 : q[frame]), bias: 0 };
  };

const pointOf = (x: number, y: number, angle = -1, offset = 0): BodyPoint => ({ x, y, angle, offset });

/** What torsion shares with a counterweight arm: it is one without a short arm and a counterweight. */
function armOf(machine: ArmMachine) {
  if (machine.kind !== "torsion") {
    const whole = machine.longArm + machine.shortArm;
    return {
      longArm: machine.longArm,
      shortArm: machine.shortArm,
      centre: machine.armCentre ?? whole / 2,
      inertia: machine.armInertia ?? (machine.armMass * whole ** 2) / 12,
    };
  }
  const { armLength, armMass } = machine;
  return {
    longArm: armLength,
    shortArm: 0,
    centre: machine.armCentre ?? armLength / 2,
    inertia: machine.armInertia ?? (armMass * armLength ** 2) / 12,
  };
}

/** The arm turns clockwise from cockedAngle − 180°, through −180° (uprange, level), to the stop. */
function driveOf(machine: ArmMachine): Mechanism["drive"] {
  if (machine.kind !== "torsion") return null;
  const stop = -Math.PI - machine.stopAngle * RADIAN;
  const travel = (machine.cockedAngle + machine.stopAngle) * RADIAN;
  const { preloadTorque, stiffness } = machine;
  const fade = stiffness > 0 ? Math.min(preloadTorque / stiffness, travel) : travel;
  return {
    torque(angle, failed) {
      const toGo = angle - stop;
      if (!failed || toGo >= 0) return -(preloadTorque + stiffness * toGo);
      return fade > 0 ? -preloadTorque * Math.max(0, 1 + toGo / fade) : 0;
    },
    energy(angle, failed) {
      const toGo = angle - stop;
      if (!failed || toGo >= 0) return preloadTorque * toGo + (stiffness * toGo ** 2) / 2;
      const past = Math.min(fade, -toGo);
      return fade > 0 ? -preloadTorque * past * (1 - past / (2 * fade)) : 0;
    },
  };
}

/** Lays the machine out as triggered: sling taut along the trough, hanger hanging straight down, all at rest. */
export function buildMechanism(
  machine: ArmMachine,
  projectileMass: number,
  { rolling = false, leanAlong = machine.leanAlong ?? 0 }: Layout = {},
): Mechanism {
  const { longArm, shortArm, centre, inertia } = armOf(machine);
  const cocked = machine.cockedAngle * RADIAN;
  const lean = leanAlong * RADIAN;
  const outward = [-Math.cos(cocked), -Math.sin(cocked)];
  const arm = (offset: number) => pointOf(0, 1, 2, offset);
  const shortEnd = arm(-centre);
  const fulcrum = arm(shortArm - centre);
  const tip = arm(longArm + shortArm - centre);

  const floating = machine.kind === "floating-arm";
  const fulcrumX = floating ? shortArm * outward[0] : 0;
  const fulcrumY = floating ? machine.trackHeight : machine.pivotHeight;
  const armX = fulcrumX + (centre - shortArm) * outward[0];
  const armY = fulcrumY + (centre - shortArm) * outward[1];
  const endX = fulcrumX - shortArm * outward[0];
  const endY = fulcrumY - shortArm * outward[1];
  const tipX = fulcrumX + longArm * outward[0];
  const tipY = fulcrumY + longArm * outward[1];

  const masses = [machine.armMass, machine.armMass, inertia];
  const start = [armX, armY, cocked - Math.PI];
  const levels = [0];
  const heights = [1];
  const constraints: Constraint[] = [];
  let frame = -1;
  if (rolling) {
    if (!machine.base || machine.base === "fixed") throw new Error("A fixed frame does not roll.");
    frame = masses.length;
    masses.push(machine.base.frameMass);
    start.push(0);
  }
  const body = (x: number, y: number, mass: number, angle = -1, offset = 0): BodyPoint => {
    const at = masses.length;
    masses.push(mass, mass);
    start.push(x, y);
    levels.push(at);
    heights.push(at + 1);
    return pointOf(at, at + 1, angle < 0 ? -1 : at + 2, offset);
  };
  let carriage: BodyPoint | null = null;
  let beyondStop: Mechanism["beyondStop"] = null;

  if (machine.kind === "floating-arm") {
    const weight = body(endX, endY, machine.counterweightMass);
    const rider = body(fulcrumX, fulcrumY, machine.carriageMass);
    carriage = rider;
    constraints.push(joinX(shortEnd, weight), joinY(shortEnd, weight));
    constraints.push(joinX(fulcrum, rider), joinY(fulcrum, rider));
    constraints.push(holdX(weight, 0, frame), holdY(rider, machine.trackHeight));
    const stopAt = machine.endStop;
    if (stopAt !== undefined) {
      beyondStop = (q) => positionX(rider, q) - (frame < 0 ? 0 : q[frame]) - stopAt;
    }
  } else {
    constraints.push(holdX(fulcrum, 0, frame), holdY(fulcrum, machine.pivotHeight));
  }
  if (machine.kind === "hinged-counterweight") {
    // The axis of the counterweight points up its hanger to the hinge.
    const { hangerLength } = machine;
    const [dx, dy] = [Math.sin(lean), -Math.cos(lean)];
    const hinge = body(
      endX + hangerLength * dx,
      endY + hangerLength * dy,
      machine.counterweightMass,
      1,
      hangerLength,
    );
    masses.push(machine.counterweightInertia);
    start.push(Math.atan2(-dy, -dx));
    constraints.push(joinX(shortEnd, hinge), joinY(shortEnd, hinge));
  } else if (machine.kind === "fixed-counterweight") {
    const weight = body(endX, endY, machine.counterweightMass);
    const turn = masses.length;
    masses.push(machine.counterweightInertia);
    start.push(0);
    constraints.push(joinX(shortEnd, weight), joinY(shortEnd, weight));
    constraints.push(sameAngle(turn, 2, -start[2]));
  } else if (machine.kind === "torsion") {
    const stop = -Math.PI - machine.stopAngle * RADIAN;
    beyondStop = (q) => stop - q[2];
  }

  const cup = machine.slingLength === undefined;
  const slingLength = machine.slingLength ?? 0;
  const troughHeight = cup ? tipY : (machine.troughHeight ?? 0);
  const along = slingLength ** 2 - (tipY - troughHeight) ** 2;
  if (along < 0) throw new Error("The sling is too short to reach the trough.");
  const px = masses.length;
  masses.push(projectileMass, projectileMass);
  start.push(tipX + Math.sqrt(along), troughHeight);
  heights.push(px + 1);
  const projectile = pointOf(px, px + 1);
  if (cup) constraints.push(joinX(projectile, tip), joinY(projectile, tip));
  return {
    machine,
    longArm,
    slingLength,
    troughHeight,
    troughFriction: machine.troughFriction ?? 0,
    releaseAngle: machine.releaseAngle ?? 0,
    frame,
    levels,
    gravity: { x: GRAVITY * Math.sin(lean), y: -GRAVITY * Math.cos(lean) },
    lean,
    drive: driveOf(machine),
    beyondStop,
    masses,
    start,
    constraints,
    tip,
    projectile,
    carriage,
    armAngle: 2,
    heights,
  };
}

/** Kinetic and potential energy, J; the projectile's and the drive's included. */
export function energy(m: Mechanism, q: number[], v: number[], failed = false): number {
  let sum = m.drive ? m.drive.energy(q[m.armAngle], failed) : 0;
  for (let i = 0; i < m.masses.length; i++) sum += (m.masses[i] * v[i] ** 2) / 2;
  for (const i of m.heights) sum -= m.masses[i] * m.gravity.y * q[i];
  for (const i of [...m.levels, m.projectile.x]) sum -= m.masses[i] * m.gravity.x * q[i];
  if (m.frame >= 0) sum -= m.masses[m.frame] * m.gravity.x * q[m.frame];
  return sum;
}

/** The projectile in the axes of the world: turned back by the lean. */
export function inTheWorld(m: Mechanism, q: number[], v: number[]) {
  const { x, y } = m.projectile;
  const cos = Math.cos(m.lean);
  const sin = Math.sin(m.lean);
  return {
    x: q[x] * cos + q[y] * sin,
    y: q[y] * cos - q[x] * sin,
    vx: v[x] * cos + v[y] * sin,
    vy: v[y] * cos - v[x] * sin,
  };
}
