/**
 * Beaufort numbers of a mean wind 10 m above open ground. Lower bounds in m/s and the words as the World Meteorological
 * Organization gives them: values from memory.
 */
const FORCES = [
  [0, "calm"],
  [0.3, "light air"],
  [1.6, "light breeze"],
  [3.4, "gentle breeze"],
  [5.5, "moderate breeze"],
  [8, "fresh breeze"],
  [10.8, "strong breeze"],
  [13.9, "near gale"],
  [17.2, "gale"],
  [20.8, "strong gale"],
  [24.5, "storm"],
  [28.5, "violent storm"],
  [32.7, "hurricane"],
] as const;

/** `speed`: m/s, mean, at 10 m. Throws RangeError on what is no speed. */
export function beaufort(speed: number): { force: number; word: string } {
  if (!(speed >= 0)) throw new RangeError("A wind's speed is zero or more.");
  const force = FORCES.findLastIndex(([least]) => speed >= least);
  return { force, word: (FORCES[force] as (typeof FORCES)[number])[1] };
}
