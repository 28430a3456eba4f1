/** The ways in which projectile, sling and trough can stand to each other. */

/**
 * On the trough with a taut sling; swinging; flying with a slack sling; sliding or resting with a slack one; in the
 * cup at the tip.
 */
export const TROUGH = 0;
export const SWING = 1;
export const LOOSE = 2;
export const LOOSE_ON_TROUGH = 3;
export const CUP = 4;
export type Phase = typeof TROUGH | typeof SWING | typeof LOOSE | typeof LOOSE_ON_TROUGH | typeof CUP;

/**
 * State, in the frame's axes: 0 φ, 1 φ̇, 2 β, 3 β̇, then by phase: TROUGH and LOOSE_ON_TROUGH 4 x, 5 ẋ; SWING 4 ψ,
 * 5 ψ̇ (ψ the direction of the sling from the tip); LOOSE 4 x, 5 ẋ, 6 y, 7 ẏ; CUP nothing more.
 */
export function stateSize(phase: Phase): number {
  if (phase === CUP) return 4;
  return phase === LOOSE ? 8 : 6;
}
