/**
 * Drag and lift of what is thrown. Coefficients refer to the frontal area π/4·diameter².
 *
 * | shape         | nominal              | low  | high | lift |
 * | smooth-sphere | Morrison's curve     | 0.07 | 0.50 | 0.05 |
 * | rough-sphere  | 0.30                 | 0.18 | 0.50 | 0.08 |
 * | pumpkin       | 0.40                 | 0.20 | 0.60 | 0.10 |
 * | irregular     | 0.80                 | 0.35 | 1.30 | 0.20 |
 *
 * Morrison's curve has its least value, 0.083, past the drag crisis. All other values are common practice, no
 * source: the low ones lie below what such bodies show past their own crisis. The lift is that of a spin of
 * about 15 rad/s, which a sling gives, and of a body that is not round.
 */
import type { Projectile } from "../contracts/projectile";

export interface ProjectileAir {
  /** Nominal drag coefficient; null takes Morrison's curve at the Reynolds number of the instant. */
  nominalDrag: number | null;
  lowDrag: number;
  highDrag: number;
  lift: number;
  /** Frontal area, m². */
  area: number;
}

const DEFAULTS: Record<
  Projectile["shape"],
  { nominal: number | null; low: number; high: number; lift: number }
> = {
  "smooth-sphere": { nominal: null, low: 0.07, high: 0.5, lift: 0.05 },
  "rough-sphere": { nominal: 0.3, low: 0.18, high: 0.5, lift: 0.08 },
  pumpkin: { nominal: 0.4, low: 0.2, high: 0.6, lift: 0.1 },
  irregular: { nominal: 0.8, low: 0.35, high: 1.3, lift: 0.2 },
};

export function projectileAir(projectile: Projectile): ProjectileAir {
  const defaults = DEFAULTS[projectile.shape];
  const { drag } = projectile;
  return {
    nominalDrag: drag ? drag.nominal : defaults.nominal,
    lowDrag: drag ? drag.low : defaults.low,
    highDrag: drag ? drag.high : defaults.high,
    lift: projectile.lift ?? defaults.lift,
    area: (Math.PI / 4) * projectile.diameter ** 2,
  };
}

/** Of the Reynolds number of the drag crisis as a multiple of 5. */
const LOG_CRISIS = Math.log(2.63e5 / 5);

/**
 * Drag coefficient of a smooth sphere at a Reynolds number, through the drag crisis, for Re up to 10⁶.
 * Source: F. A. Morrison, An Introduction to Fluid Mechanics (2013), data correlation for a sphere.
 */
export function sphereDrag(reynolds: number): number {
  // Above the data the curve levels off; below 0.1 Stokes' law is left to the first term, kept finite.
  const re = Math.min(1e6, Math.max(1e-3, reynolds));
  const slow = re / 5;
  const crisis = re / 2.63e5;
  const fast = re / 1e6;
  const crisis2 = crisis * crisis;
  const crisis4 = crisis2 * crisis2;
  // Powers by way of one logarithm: several times faster than general ones, and right to 1e-14.
  const log = Math.log(slow);
  // Written with positive powers: (x^−7.94)/(1+x^−8) = x^0.06/(x^8+1), which stays finite at small x.
  return (
    24 / re +
    (2.6 * slow) / (1 + Math.exp(1.52 * log)) +
    (0.411 * Math.exp(0.06 * (log - LOG_CRISIS))) / (crisis4 * crisis4 + 1) +
    (0.25 * fast) / (1 + fast)
  );
}
