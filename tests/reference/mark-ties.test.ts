/**
 * Source: World Athletics Technical Rules, field events (from memory): a distance is rounded down to the whole
 * centimetre; equal bests are split by the second best, and so on. Long jump of the men, Tokyo 2020 (from
 * memory): 8.41 and 8.41, split by 8.15 over 8.09.
 */
import { describe, expect, it } from "vitest";
import { roundMark, standings } from "@/lib/scoring";

describe("long jump, Tokyo 2020", () => {
  const jump = (entrantId: string, round: number, mark: number | null) => ({
    id: `${entrantId}-${round}`,
    entrantId,
    round,
    fix: mark === null ? { outcome: "foul" as const, mark } : { outcome: "landed" as const, mark },
  });
  const { overall } = standings({
    divisions: [{ id: "men", name: "Men" }],
    entrants: [
      { id: "second", number: 1, name: "Silver", divisionId: "men" },
      { id: "first", number: 2, name: "Gold", divisionId: "men" },
      { id: "third", number: 3, name: "Bronze", divisionId: "men" },
    ],
    rounds: [1, 2, 3],
    shots: [
      jump("second", 1, 8.09),
      jump("second", 2, 8.41),
      jump("second", 3, null),
      jump("first", 1, null),
      jump("first", 2, 8.15),
      jump("first", 3, 8.41),
      jump("third", 1, 8.21),
    ],
    rulings: [],
  });

  it("ranks 8.41 with 8.15 before 8.41 with 8.09", () => {
    expect(overall.map(({ rank, entrantId, best }) => [rank, entrantId, best])).toEqual([
      [1, "first", 8.41],
      [2, "second", 8.41],
      [3, "third", 8.21],
    ]);
  });

  it("says what split them", () => {
    expect(overall[0]?.splits).toEqual([{ entrantId: "second", place: 2, own: 8.15, other: 8.09 }]);
    expect(overall[1]?.splits).toEqual([{ entrantId: "first", place: 2, own: 8.09, other: 8.15 }]);
    expect(overall[2]?.splits).toEqual([]);
  });
});

describe("rounding down", () => {
  it.each([
    [8.41, 8.41],
    [8.419, 8.41],
    [8.41999, 8.41],
    [8.41 - 1e-9, 8.41],
    [1.005, 1],
    [0.29, 0.29],
    [0.57, 0.57],
    [1.15, 1.15],
    [4.35, 4.35],
    [0, 0],
    [0.009, 0],
  ])("%d m is %d m", (measured, mark) => expect(roundMark(measured)).toBe(mark));
});
