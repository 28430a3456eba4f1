/**
 * Springs that turn the arm towards its stop: torque preload + stiffness · (φ − stop) down to the stop. Where the
 * stop has failed it fades linearly to 0 over `fade` radians and never pulls back.
 */
export interface Spring {
  /** N·m at the stop. */
  preload: number;
  /** N·m a radian. */
  stiffness: number;
  /** φ at the stop, rad. */
  stop: number;
  /** rad */
  fade: number;
}

/** Wound, fading past the stop, spent: the torque is smooth within each. */
export const WOUND = 0;
export const FADING = 1;
export const SPENT = 2;
export type Winding = typeof WOUND | typeof FADING | typeof SPENT;

export function windingAt({ stop, fade }: Spring, phi: number): Winding {
  if (phi >= stop) return WOUND;
  return phi > stop - fade ? FADING : SPENT;
}

/** Torque towards the stop, N·m, by the law of one winding. */
export function springTorque(spring: Spring, winding: Winding, phi: number): number {
  if (winding === SPENT) return 0;
  const ahead = phi - spring.stop;
  if (winding === WOUND) return spring.preload + spring.stiffness * ahead;
  return spring.preload * (1 + ahead / spring.fade);
}

/** How far φ is from the nearer end of its winding, rad, positive inside. */
export function windingGap({ stop, fade }: Spring, winding: Winding, phi: number): number {
  if (winding === WOUND) return phi - stop;
  if (winding === SPENT) return stop - fade - phi;
  return Math.min(stop - phi, phi - stop + fade);
}

/** The winding on the other side of the end that φ has come to, as it turns at `rate`. */
export function windingPast({ fade }: Spring, winding: Winding, rate: number): Winding {
  if (rate < 0) return winding === WOUND && fade > 0 ? FADING : SPENT;
  return winding === SPENT && fade > 0 ? FADING : WOUND;
}

/** Work that the springs can still do, past the stop included, J. */
export function springEnergy(spring: Spring, phi: number): number {
  const { preload, stiffness, stop, fade } = spring;
  const ahead = phi - stop;
  const past = 0.5 * preload * fade;
  if (ahead >= 0) return past + preload * ahead + 0.5 * stiffness * ahead * ahead;
  return ahead > -fade ? past * (1 + ahead / fade) ** 2 : 0;
}
