import { describe, expect, it } from "vitest";
import { closeCalls, roundMark, type ScoringInput, standings } from "@/lib/scoring";

/** One shot a round and entrant, in metres; ids are the entrant's and the round's. */
function rows(marks: Record<string, number[]>, unit: ScoringInput["unit"] = "1cm") {
  return standings({
    divisions: [{ id: "all", name: "All" }],
    entrants: Object.keys(marks).map((id, index) => ({ id, number: index + 1, name: id, divisionId: "all" })),
    rounds: [],
    shots: Object.entries(marks).flatMap(([id, each]) =>
      each.map((mark, index) => ({
        id: `${id}${index + 1}`,
        entrantId: id,
        round: index + 1,
        fix: { outcome: "landed" as const, mark },
      })),
    ),
    rulings: [],
    unit,
  }).overall;
}
const known = (entries: Record<string, number>) => new Map(Object.entries(entries));

describe("too close to call", () => {
  it("are two places closer than both measurements together may be off", () => {
    const [call, ...more] = closeCalls(
      rows({ a: [84.21, 80], b: [84.18], c: [70] }),
      known({ a1: 0.04, b1: 0.03, c1: 0.04 }),
    );
    expect(more).toEqual([]);
    expect(call).toMatchObject({ entrantIds: ["a", "b"], shotIds: ["a1", "b1"], ranks: [1, 2] });
    expect(call?.difference).toBeCloseTo(0.03, 9);
    expect(call?.uncertainty).toBeCloseTo(0.05, 9);
    expect(call?.text).toContain("measure both landing points again");
  });

  it("are not those farther apart, by as little as it is", () => {
    expect(closeCalls(rows({ a: [84.24], b: [84.18] }), known({ a1: 0.04, b1: 0.03 }))).toEqual([]);
  });

  it("are not only neighbours: a rough mark is close to many", () => {
    const calls = closeCalls(rows({ a: [90], b: [89.5], c: [89] }), known({ a1: 0.04, b1: 0.04, c1: 3 }));
    expect(calls.map(({ ranks }) => ranks)).toEqual([
      [1, 3],
      [2, 3],
    ]);
  });

  it("is a tie that only the second best split, but not a shared place", () => {
    const calls = closeCalls(
      rows({ a: [50, 40], b: [50, 45], c: [50, 45] }),
      known({ a1: 0.1, b1: 0.1, c1: 0.1 }),
    );
    expect(calls.map(({ entrantIds }) => entrantIds)).toEqual([
      ["b", "a"],
      ["c", "a"],
    ]);
  });

  it("judges only marks whose uncertainty is known", () => {
    expect(closeCalls(rows({ a: [50], b: [50.01], c: [] }), known({ a1: 5 }))).toEqual([]);
  });
});

describe("marks in the contest's unit", () => {
  it("rank as they are rounded", () => {
    const feet = rows({ a: [30.5], b: [30.7], c: [30.1] }, "1ft");
    expect(feet.map(({ rank, entrantId }) => [rank, entrantId])).toEqual([
      [1, "a"],
      [1, "b"],
      [3, "c"],
    ]);
    expect(feet[0]?.best).toBeCloseTo(100 * 0.3048, 12);
  });

  it("stay exact, however often they are rounded", () => {
    for (const [unit, step] of [
      ["1in", 0.0254],
      ["1ft", 0.3048],
      ["0.1m", 0.1],
    ] as const) {
      for (let count = 0; count < 3000; count++) {
        const mark = roundMark(count * step, unit);
        expect(Math.round(mark / step)).toBe(count);
        expect(roundMark(mark, unit)).toBe(mark);
      }
    }
  });
});
