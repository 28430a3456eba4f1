/** Marks: rounding and comparing. */

const CENTIMETRES = 100;
/**
 * A tenth of a micrometre, in centimetres: far below what anyone can measure, far above what arithmetic loses,
 * so that 8.41 m does not become 8.40 because 8.41 is stored a little below.
 */
const SLACK = 1e-5;

/**
 * A distance in metres rounded down to the whole centimetre (World Athletics Technical Rules, field events,
 * from memory). Throws RangeError on what is not a distance.
 */
export function roundMark(mark: number): number {
  if (!(Number.isFinite(mark) && mark >= 0))
    throw new RangeError("A mark is a distance of zero or more metres.");
  return Math.floor(mark * CENTIMETRES + SLACK) / CENTIMETRES;
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
