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
  ...[3, 6, 9, 14, 26, 28, 43, 47].map((n): [string, RandomCase] => [`odd machine ${n}`, randomCase(n)]),
  ...[7, 12].map((n): [string, RandomCase] => [`extreme machine ${n}`, extremeCase(n)]),
];

describe("the engine against free bodies and brute force", () => {
  it.each(CASES)("%s", (_name, one) => {
    const sheet = hazardSheet(exactRequest(one.machine, one.projectile));
    const own = convergedAnswer(one, 250, 2000);
    expect(own.settled).toBe(true);
    expect(disagreements(sheet, own)).toEqual([]);
  });

  it("met a slack, a catch and an end stop on the way", () => {
    const kinds = new Set<string>();
    for (const n of [3, 26, 47]) {
      const { swing } = convergedAnswer(randomCase(n), 250, 1000);
      for (const event of swing.events) kinds.add(event.kind);
    }
    for (const kind of ["lift", "slip", "past", "slack", "taut", "stop"]) expect(kinds).toContain(kind);
  });
});
