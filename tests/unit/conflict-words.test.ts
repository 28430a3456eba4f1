/** How a zone stands to a feature, in words: no amount that reads as nothing. */
import { expect, test } from "vitest";
import { conflictWords } from "@/app/_ui/zones/conflict-words";

const touched = {
  kind: "building",
  touches: true,
  overlapArea: 0,
  overlapLength: 0,
  distance: 0,
  standOff: 5,
} as const;

test.each([
  [{ overlapArea: 0 }, "touches it"],
  // As thin as a wall that was drawn as an area.
  [{ overlapArea: 0.0004 }, "touches it"],
  [{ overlapArea: 0.06 }, "covers 0.1 m² of it"],
  [{ overlapArea: 340 }, "covers 340 m² of it"],
  [{ kind: "road", overlapLength: 0.01 }, "touches it"],
  [{ kind: "road", overlapLength: 12.4 }, "covers 12 m of its length"],
  [{ kind: "boundary", overlapArea: 0.001 }, "touches it"],
  [{ kind: "boundary", overlapArea: 25 }, "leaves it: 25 m² of the zone lie outside"],
  [{ touches: false, distance: 3.2 }, "comes to 3.2 m of it; the stand-off is 5.0 m"],
] as const)("%j: %s", (conflict, words) => {
  expect(conflictWords({ ...touched, ...conflict }, "metric")).toBe(words);
  if (words === "touches it") expect(conflictWords({ ...touched, ...conflict }, "us")).toBe(words);
});
