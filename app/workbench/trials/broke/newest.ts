import type { Throw } from "../log/log";

/** The throw that is asked about first: the newest of which something broke or went wrong, else the newest. */
export const newest = (throws: readonly Throw[]): Throw | undefined =>
  throws.findLast(({ result, pieces }) => result === "broke" || pieces.length > 0) ??
  throws.findLast(({ result }) => result !== "landed") ??
  throws.at(-1);
