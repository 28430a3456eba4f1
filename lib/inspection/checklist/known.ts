/** What a line of the checklist may know of a machine: what was declared, and what was computed from it. */
import type { Breakage, Declaration, Loads } from "../../throw";

export interface Known {
  declaration: Declaration;
  /** Null before it is computed. */
  loads: Loads | null;
  /** m/s²; null before it is computed. */
  gravity: number | null;
  /** What meets the end stop in a dry fire, and what a dry fire lets loose in all, J; null where nothing is known. */
  dryFire: { atStop: number | null; loose: number } | null;
}

export const knownOf = (declaration: Declaration, found: Breakage | null): Known => ({
  declaration,
  loads: found?.loads ?? null,
  gravity: found?.gravity ?? null,
  dryFire: found?.energies
    ? { atStop: found.arrivals["dry-fire"]?.energy ?? null, loose: found.energies.dryFire }
    : null,
});
