/** The engine against the independent simulator on several hundred odd and extreme machines. Minutes long. */
import { describe, expect, it } from "vitest";
import { type HazardRequest, hazardSheet } from "@/lib/throw";
import { convergedAnswer, type Disagreement, disagreements } from "./independent/compare";
import { extremeCase, type RandomCase, randomCase } from "./independent/random-machines";
import { exactRequest } from "./independent/request";

const BATCHES = Array.from({ length: 6 }, (_, i) => i);
const SIZE = 20;

/** Null when the contracts refuse the machine, as they do some of the extreme ones. */
function requestOf(one: RandomCase): HazardRequest | null {
  try {
    return exactRequest(one.machine, one.projectile);
  } catch {
    return null;
  }
}

describe.each([
  ["odd", randomCase, 0.9],
  ["extreme", extremeCase, 0.5],
] as const)("%s machines", (_name, draw, leastShare) => {
  it.each(BATCHES)(
    "agree with free bodies and brute force, batch %d",
    (batch) => {
      const found: { seed: number; at: Disagreement[] }[] = [];
      let compared = 0;
      for (let seed = 1000 + batch * SIZE; seed < 1000 + (batch + 1) * SIZE; seed++) {
        const one = draw(seed);
        const request = requestOf(one);
        if (!request) continue;
        const own = convergedAnswer(one);
        // A whirl so chaotic that halving the step of the simulator changes the answer proves nothing.
        if (!own) continue;
        compared++;
        const sheet = hazardSheet(request);
        let at = disagreements(sheet, own);
        if (at.length > 0) {
          // Two coarse runs can agree by chance on a late whirl: only much finer steps accuse the engine.
          const finer = convergedAnswer(one, 2000, 8000);
          at = finer ? disagreements(sheet, finer) : [];
        }
        if (at.length > 0) found.push({ seed, at });
      }
      expect(found).toEqual([]);
      expect(compared).toBeGreaterThan(leastShare * SIZE);
    },
    900_000,
  );
});
