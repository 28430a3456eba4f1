/**
 * The engine against the independent simulator in ./independent, which shares nothing with it but the names of the
 * parameters: free bodies held by Lagrange multipliers, small fixed steps, brute force over release instants.
 * A few odd machines here; many in swing-independent.deep.test.ts.
 */
import { describe, expect, it } from "vitest";
import { hazardSheet } from "@/lib/throw";
import { convergedAnswer, disagreements } from "./independent/compare";
import { extremeCase, type RandomCase, randomCase } from "./independent/random-machines";
import { exactRequest } from "./independent/request";

// What each was drawn for: a slack caught again, a stop that holds, one that fails, a raised trough, friction.
const CASES: [string, RandomCase][] = [
  ...[3, 6, 14, 26, 28, 43, 47].map((n): [string, RandomCase] => [`odd machine ${n}`, randomCase(n)]),
  ...[7, 12, 36].map((n): [string, RandomCase] => [`extreme machine ${n}`, extremeCase(n)]),
];

describe("the engine against free bodies and brute force", () => {
  const met = new Set<string>();

  it.each(CASES)("%s", (_name, one) => {
    const sheet = hazardSheet(exactRequest(one.machine, one.projectile));
    const own = convergedAnswer(one, 200, 1600);
    if (!own) throw new Error("The simulator does not settle.");
    expect(disagreements(sheet, own)).toEqual([]);
    for (const event of own.swing.events) met.add(event.kind);
  });

  it("met every change of contact on the way", () => {
    expect([...met]).toEqual(
      expect.arrayContaining(["lift", "slip", "past", "slack", "taut", "stop", "rest", "ground"]),
    );
  });
});
