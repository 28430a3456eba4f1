/** What one line of a tackle bears, and the rope that this takes. Closed forms. */

/** Share of the pull that is left behind one sheave. Handbook value for rope on plain sheaves, from memory. */
export const SHEAVE = 0.9;
/** ASME B30.9, synthetic slings: five times the load (from memory). */
export const ROPE_FACTOR = 5;
/** Half for a knot (common practice, no source), 15 % less when wet. */
const KNOT = 0.5;
const WET = 0.85;

/**
 * The pull on the hauling line, N: of `parts` ropes that carry the load, each further one has SHEAVE times the pull of
 * the one before, T = P·(1 + e + … + eⁿ⁻¹).
 */
export function haulingPull(load: number, parts: number, sheave = SHEAVE): number {
  return sheave === 1 ? load / parts : (load * (1 - sheave)) / (1 - sheave ** parts);
}

/** The breaking strength that a dry rope without knots must be quoted with, N. */
export const ratingFor = (pull: number, factor: number, rope: { knotted: boolean; wet: boolean }): number =>
  (pull * factor) / leftOf(rope);

/** Breaking strength left over pull. */
export const reserveOfRope = (
  pull: number,
  rating: number,
  rope: { knotted: boolean; wet: boolean },
): number => (rating * leftOf(rope)) / pull;

const leftOf = ({ knotted, wet }: { knotted: boolean; wet: boolean }) =>
  (knotted ? KNOT : 1) * (wet ? WET : 1);
