/** The units in which marks are given: a distance is rounded down to a whole number of them. */

export const MARK_UNITS = ["1cm", "0.1m", "1in", "1ft"] as const;
export type MarkUnit = (typeof MARK_UNITS)[number];

/** m, as a fraction: a decimal of an inch or a foot would not come out exact. */
const STEP: Record<MarkUnit, readonly [number, number]> = {
  "1cm": [1, 100],
  "0.1m": [1, 10],
  "1in": [127, 5000],
  "1ft": [381, 1250],
};

/**
 * A tenth of a micrometre: far below what anyone can measure, far above what arithmetic loses, so that 8.41 m does
 * not become 8.40 because 8.41 is stored a little below, and 27 ft stay 27.
 */
const SLACK = 1e-7;

/** A distance in metres rounded down to whole units, in metres: the nearest number to that decimal. */
export function roundDown(metres: number, unit: MarkUnit): number {
  const [numerator, denominator] = STEP[unit];
  return (Math.floor(((metres + SLACK) * denominator) / numerator) * numerator) / denominator;
}
