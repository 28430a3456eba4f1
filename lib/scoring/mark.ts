/** Marks: rounding and comparing. */
import { type MarkUnit, roundDown } from "../units";

/**
 * A distance in metres rounded down to the contest's unit, by default the whole centimetre (World Athletics Technical
 * Rules, field events, from memory). Throws RangeError on what is not a distance.
 */
export function roundMark(mark: number, unit: MarkUnit = "1cm"): number {
  if (!(Number.isFinite(mark) && mark >= 0))
    throw new RangeError("A mark is a distance of zero or more metres.");
  return roundDown(mark, unit);
}

/**
 * Compares two lists of rounded marks, the best first in each: negative when the first list ranks higher, 0
 * when nothing splits them. A mark that is there beats one that is not.
 */
export function compareMarks(first: readonly number[], second: readonly number[]): number {
  const length = Math.max(first.length, second.length);
  for (let index = 0; index < length; index++) {
    const difference = (second[index] ?? -1) - (first[index] ?? -1);
    if (difference !== 0) return difference;
  }
  return 0;
}
