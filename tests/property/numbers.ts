import fc from "fast-check";

const PARTS = 1_000_000;

/** A number between two others, all of them equally likely: `fc.double` prefers the tiny ones. */
export const between = (min: number, max: number): fc.Arbitrary<number> =>
  fc.integer({ min: 0, max: PARTS }).map((part) => min + ((max - min) * part) / PARTS);
