/** Which machines of a plan have no zone, and why, as a sentence. */
import { expect, test } from "vitest";
import { namesOf, zoneless } from "@/app/_ui/zones/zoneless";

const drawn = { forward: 50, backward: 20, side: 20 };

test("machines without a zone are named with a reason, those with one are not", () => {
  const missing = zoneless([
    { name: "Heron", state: "current", reason: null, exclusion: drawn },
    { name: "Tern", state: "computing", reason: null, exclusion: null },
    { name: "Rook", state: "none", reason: "No dimensions have been declared yet.", exclusion: null },
    { name: "Wren", state: "failed", reason: "The arm cannot fall.", exclusion: null },
  ]);
  expect(namesOf(missing)).toBe("Tern, Rook, Wren");
  expect(missing.map(({ reason }) => reason)).toEqual([
    "Its hazard sheet is still being computed.",
    "No dimensions have been declared yet.",
    "The arm cannot fall.",
  ]);
});
