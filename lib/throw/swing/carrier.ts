/**
 * What carries the sling: an arm and all that moves with it, reduced to the constants of its equations of
 * motion. Each file in machines/ makes one from its parameters; swing.ts moves it.
 *
 * One angle φ describes it: the direction of the arm from the pivot (or fulcrum) to its tip, anticlockwise from
 * downrange; φ falls while the machine throws. A hanging counterweight adds β, the direction from its hinge.
 *   tip       (tipX cos φ, originY + tipY sin φ)
 *   inertia   M(φ) = inertia + inertiaCos2 · cos²φ
 *   gravity   Q(φ) = gravity · moment · cos φ
 */
export interface Carrier {
  /** φ at the trigger, rad. */
  startAngle: number;
  tipX: number;
  tipY: number;
  /** Height of the pivot or fulcrum, m. */
  originY: number;
  /** Distance from the pivot to the short end, m. */
  shortArm: number;
  /** kg·m²; the hanging counterweight counts as a point at its hinge. */
  inertia: number;
  inertiaCos2: number;
  /** First moment about the pivot, kg·m, positive when the long arm rises by itself. */
  moment: number;
  hanger: Hanger | null;
  /** A floating arm's fulcrum is at x = shortArm·cos φ and its short end on x = 0; a pivot stays at x = 0. */
  floats: boolean;
  /** Where the carriage of a floating arm is stopped, m downrange; null without a stop. */
  endStop: number | null;
  /** Half the size of the counterweight, for its gap to the ground, m. */
  counterweightSize: number;
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
  slingLength: number;
  troughHeight: number;
  troughFriction: number;
  gravity: number;
  /** s from the trigger. */
  horizon: number;
}

/** Largest energy that the carrier can give, J: stored at the trigger less the least that it can reach. */
export function storedEnergy(carrier: Carrier, gravity: number): number {
  // The hanger starts hanging straight down, so only what turns with the arm has height to lose.
  return gravity * (Math.abs(carrier.moment) - carrier.moment * Math.sin(carrier.startAngle));
}

/** Where the fulcrum, the short end and the counterweight's centre are at angles φ and β. */
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
