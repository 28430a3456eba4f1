/**
 * What carries the projectile: an arm and all that moves with it, reduced to the constants of its equations of
 * motion. Each file in machines/ makes one from its parameters; swing.ts moves it.
 *
 * One angle φ describes it: the direction of the arm from the pivot (or fulcrum) to its tip, anticlockwise from
 * downrange; φ falls while the machine throws. A hanging counterweight adds β, the direction from its hinge. Both
 * are measured in the axes of the machine's frame, which leans and rolls (places.ts).
 *   tip             (tipX cos φ, originY + tipY sin φ)
 *   inertia         M(φ) = inertia + inertiaCos2 · cos²φ
 *   first moments   Σ m x = levelMoment · cos φ and Σ m (y − originY) = −moment · sin φ
 */
import type { Spring } from "./spring";

export interface Carrier {
  /** φ at the trigger, rad. */
  startAngle: number;
  tipX: number;
  tipY: number;
  /** Height of the pivot or fulcrum, m. */
  originY: number;
  /** Distance from the pivot to the short end, m. */
  shortArm: number;
  /** Of all that moves on the frame but the projectile: arm, counterweight, carriage, kg. */
  mass: number;
  /** kg·m²; the hanging counterweight counts as a point at its hinge. */
  inertia: number;
  inertiaCos2: number;
  /** First moment about the pivot, kg·m, positive when the long arm rises by itself. */
  moment: number;
  /** First moment of what moves along x, kg·m; −moment for an arm on a fixed pivot. */
  levelMoment: number;
  hanger: Hanger | null;
  /** What turns the arm besides weight. */
  spring: Spring | null;
  /** A floating arm's fulcrum is at x = shortArm·cos φ and its short end on x = 0; a pivot stays at x = 0. */
  floats: boolean;
  endStop: EndStop | null;
  /** Half the size of the counterweight, for its gap to the ground, m. */
  counterweightSize: number;
}

/** Where the arm is stopped: at an angle φ (rad), or where the carriage of a floating arm is (m downrange). */
export type EndStop = { of: "arm" | "carriage"; at: number };

/** How far the arm is from its end stop, positive before it; +∞ without one. rad or m. */
export function stopGap({ endStop, shortArm }: Carrier, phi: number): number {
  if (endStop === null) return Number.POSITIVE_INFINITY;
  return endStop.of === "arm" ? phi - endStop.at : endStop.at - shortArm * Math.cos(phi);
}

export interface Hanger {
  length: number;
  /** counterweightMass · shortArm · hangerLength, kg·m². */
  coupling: number;
  /** About the hinge, kg·m². */
  inertia: number;
  /** counterweightMass · hangerLength, kg·m. */
  moment: number;
}

/** The machine and its projectile as the swing needs them, all at declared or varied values. */
export interface SwingSetup {
  carrier: Carrier;
  /** Of the projectile, kg. */
  mass: number;
  /** m; 0 when the projectile rides in a cup at the tip. */
  slingLength: number;
  troughHeight: number;
  troughFriction: number;
  /** rad; the cup has none. */
  releaseAngle: number;
  /** In the plane of the throw, m/s²: less than the site's where that plane leans to a side. */
  gravity: number;
  /** How far the whole machine is turned downrange about the origin on the ground, rad. */
  lean: number;
  /** How far the plane of the throw is turned to the right, rad. Gravity holds it already. */
  leanAcross: number;
  /** The frame that rolls freely on level ground, kg without what moves on it; null while it is held. */
  frame: { mass: number } | null;
  /** s from the trigger. */
  horizon: number;
}

/** Whether the projectile lies in a cup at the tip. */
export const inCup = (setup: SwingSetup): boolean => setup.slingLength === 0;

/** Where the projectile's centre lies along the trough at the trigger, in the frame's axes, m. */
export function startX({ carrier, slingLength, troughHeight }: SwingSetup): number {
  const drop = troughHeight - carrier.originY - carrier.tipY * Math.sin(carrier.startAngle);
  return carrier.tipX * Math.cos(carrier.startAngle) + Math.sqrt(slingLength ** 2 - drop ** 2);
}

/** Where the fulcrum, the short end and the counterweight's centre are at angles φ and β, in the frame's axes. */
export function carrierPoints(carrier: Carrier, phi: number, beta: number) {
  const { shortArm, originY, hanger, floats } = carrier;
  const across = shortArm * Math.cos(phi);
  const shortEnd: [number, number] = [floats ? 0 : -across, originY - shortArm * Math.sin(phi)];
  const counterweight: [number, number] = hanger
    ? [shortEnd[0] + hanger.length * Math.cos(beta), shortEnd[1] + hanger.length * Math.sin(beta)]
    : shortEnd;
  return {
    fulcrum: [floats ? across : 0, originY] as [number, number],
    tip: [carrier.tipX * Math.cos(phi), originY + carrier.tipY * Math.sin(phi)] as [number, number],
    shortEnd,
    counterweight,
  };
}
