/** From standard to expanded uncertainty: what holds in 95.45 % of cases, where k = 2 would need many throws. */
import { studentQuantile } from "../spread/student";

const BELOW = 0.97725;

/** Student's t for 95.45 % (JCGM 100:2008, G.6.6): 13.97 for one degree of freedom, 2 for many. */
export const coverageFactor = (degrees: number): number =>
  degrees > 200 ? 2 : studentQuantile(BELOW, Math.max(1, Math.floor(degrees)));

export const expanded = (standard: number, degrees: number): number => coverageFactor(degrees) * standard;

/** With the factor that was taken. */
export function expandedOf(standard: number, degrees: number) {
  const factor = coverageFactor(degrees);
  return { uncertainty: factor * standard, factor };
}
