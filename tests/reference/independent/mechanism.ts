/**
 * A machine as a heap of free bodies in the plane and the constraints that hold them together. Every body has
 * its own x, y and, if it turns, its own angle; nothing is eliminated. This is deliberately another formulation
 * than that of lib/throw, from which nothing but the names of the parameters is taken.
 */

import type { Machine } from "@/lib/throw";

type Of<Kind extends Machine["kind"]> = Extract<Machine, { kind: Kind }>;
export type SwingMachine = Of<"hinged-counterweight"> | Of<"fixed-counterweight"> | Of<"floating-arm">;
export const GRAVITY = 9.80665;

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

export interface Mechanism {
  machine: SwingMachine;
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

export const holdX =
  (p: BodyPoint, at: number): Constraint =>
  (q, v, row) => {
    addRowX(p, q, row, 1);
    return { value: positionX(p, q) - at, bias: biasX(p, q, v) };
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
  (index: number, at: number): Constraint =>
  (q, _v, row) => {
    row[index] += 1;
    return { value: q[index] - at, bias: 0 };
  };

const pointOf = (x: number, y: number, angle = -1, offset = 0): BodyPoint => ({ x, y, angle, offset });

/** Lays the machine out as triggered: sling taut along the trough, hanger hanging straight down, all at rest. */
export function buildMechanism(machine: SwingMachine, projectileMass: number): Mechanism {
  const armLength = machine.longArm + machine.shortArm;
  const centre = machine.armCentre ?? armLength / 2;
  const inertia = machine.armInertia ?? (machine.armMass * armLength ** 2) / 12;
  const cocked = (machine.cockedAngle * Math.PI) / 180;
  const outward = [-Math.cos(cocked), -Math.sin(cocked)];
  const arm = (offset: number) => pointOf(0, 1, 2, offset);
  const shortEnd = arm(-centre);
  const fulcrum = arm(machine.shortArm - centre);
  const tip = arm(armLength - centre);

  const floating = machine.kind === "floating-arm";
  const fulcrumX = floating ? machine.shortArm * outward[0] : 0;
  const fulcrumY = floating ? machine.trackHeight : machine.pivotHeight;
  const armX = fulcrumX + (centre - machine.shortArm) * outward[0];
  const armY = fulcrumY + (centre - machine.shortArm) * outward[1];
  const endX = fulcrumX - machine.shortArm * outward[0];
  const endY = fulcrumY - machine.shortArm * outward[1];
  const tipX = fulcrumX + machine.longArm * outward[0];
  const tipY = fulcrumY + machine.longArm * outward[1];

  const masses = [machine.armMass, machine.armMass, inertia];
  const start = [armX, armY, cocked - Math.PI];
  const heights = [1];
  const constraints: Constraint[] = [];
  let carriage: BodyPoint | null = null;

  if (machine.kind === "floating-arm") {
    const weight = pointOf(3, 4);
    carriage = pointOf(5, 6);
    masses.push(machine.counterweightMass, machine.counterweightMass);
    masses.push(machine.carriageMass, machine.carriageMass);
    start.push(endX, endY, fulcrumX, fulcrumY);
    heights.push(4, 6);
    constraints.push(joinX(shortEnd, weight), joinY(shortEnd, weight));
    constraints.push(joinX(fulcrum, carriage), joinY(fulcrum, carriage));
    constraints.push(holdX(weight, 0), holdY(carriage, machine.trackHeight));
  } else {
    masses.push(machine.counterweightMass, machine.counterweightMass, machine.counterweightInertia);
    heights.push(4);
    constraints.push(holdX(fulcrum, 0), holdY(fulcrum, machine.pivotHeight));
    if (machine.kind === "hinged-counterweight") {
      // The axis of the counterweight points up its hanger to the hinge.
      const hinge = pointOf(3, 4, 5, machine.hangerLength);
      start.push(endX, endY - machine.hangerLength, Math.PI / 2);
      constraints.push(joinX(shortEnd, hinge), joinY(shortEnd, hinge));
    } else {
      start.push(endX, endY, 0);
      const weight = pointOf(3, 4);
      constraints.push(joinX(shortEnd, weight), joinY(shortEnd, weight));
      constraints.push(sameAngle(5, 2, -start[2]));
    }
  }

  const drop = tipY - machine.troughHeight;
  const along = machine.slingLength ** 2 - drop ** 2;
  if (along < 0) throw new Error("The sling is too short to reach the trough.");
  const px = masses.length;
  masses.push(projectileMass, projectileMass);
  start.push(tipX + Math.sqrt(along), machine.troughHeight);
  heights.push(px + 1);
  return {
    machine,
    masses,
    start,
    constraints,
    tip,
    projectile: pointOf(px, px + 1),
    carriage,
    armAngle: 2,
    heights,
  };
}

/** Kinetic and potential energy, J; the projectile's included. */
export function energy(m: Mechanism, q: number[], v: number[]): number {
  let sum = 0;
  for (let i = 0; i < m.masses.length; i++) sum += (m.masses[i] * v[i] ** 2) / 2;
  for (const i of m.heights) sum += m.masses[i] * GRAVITY * q[i];
  return sum;
}
