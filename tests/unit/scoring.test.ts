import { describe, expect, it } from "vitest";
import {
  roundMark,
  type ScoredRuling,
  type ScoredShot,
  type ScoringInput,
  standings,
  WHY,
} from "@/lib/scoring";

type Entry = number | "foul" | "misfire" | "burst" | "open";

/** Shots of entrants a, b, c, …, each a list by round. */
function contest(entries: Record<string, Entry[]>, rulings: Partial<ScoredRuling>[] = []): ScoringInput {
  const ids = Object.keys(entries);
  return {
    divisions: [
      { id: "heavy", name: "Heavy", position: 2 },
      { id: "light", name: "Light", position: 1 },
    ],
    entrants: ids.map((id, index) => ({
      id,
      number: index + 1,
      name: `Team ${id}`,
      divisionId: index % 2 === 0 ? "light" : "heavy",
    })),
    rounds: [1, 2, 3],
    shots: ids.flatMap((id) =>
      (entries[id] as Entry[]).map((entry, index): ScoredShot => {
        const shot = { id: `${id}${index + 1}`, entrantId: id, round: index + 1 };
        if (entry === "open") return { ...shot, fix: null };
        return typeof entry === "number"
          ? { ...shot, fix: { outcome: "landed", mark: entry } }
          : { ...shot, fix: { outcome: entry, mark: null } };
      }),
    ),
    rulings: rulings.map((ruling, index) => ({
      entrantId: null,
      shotId: null,
      decision: "stands",
      sequence: index + 1,
      ...ruling,
    })),
  };
}

const places = (input: ScoringInput) =>
  standings(input).overall.map(({ rank, entrantId, status, best }) => [rank, entrantId, status, best]);

describe("ranking", () => {
  it("shares a place that nothing splits and skips the next", () => {
    expect(places(contest({ a: [50, 40], b: [60], c: [40, 50], d: [30] }))).toEqual([
      [1, "b", "ranked", 60],
      [2, "a", "ranked", 50],
      [2, "c", "ranked", 50],
      [4, "d", "ranked", 30],
    ]);
  });

  it("splits by the third best, and puts a further mark before none", () => {
    const input = contest({ a: [50, 40], b: [50, 40, 10], c: [50, 40, 20] });
    expect(places(input).map(([rank, id]) => [rank, id])).toEqual([
      [1, "c"],
      [2, "b"],
      [3, "a"],
    ]);
    expect(standings(input).overall[2]?.splits).toEqual([{ entrantId: "b", place: 3, own: null, other: 10 }]);
  });

  it("compares what the rule compares: marks rounded down", () => {
    expect(places(contest({ a: [50.009], b: [50.001] })).map(([rank]) => rank)).toEqual([1, 1]);
  });

  it("ranks each division by itself, in the organiser's order", () => {
    const { divisions } = standings(contest({ a: [10], b: [50], c: [20], d: [40] }));
    expect(
      divisions.map(({ id, rows }) => [id, rows.map(({ rank, entrantId }) => [rank, entrantId])]),
    ).toEqual([
      [
        "light",
        [
          [1, "c"],
          [2, "a"],
        ],
      ],
      [
        "heavy",
        [
          [1, "b"],
          [2, "d"],
        ],
      ],
    ]);
  });
});

describe("no mark", () => {
  it("tells who threw without a mark from who has not thrown and who did not start", () => {
    const input = contest({ a: ["foul", "misfire"], b: [], c: ["open"], d: [12.34], e: ["burst"], f: [] }, [
      { entrantId: "f", decision: "dns" },
    ]);
    expect(places(input)).toEqual([
      [1, "d", "ranked", 12.34],
      [null, "a", "NM", null],
      [null, "e", "NM", null],
      [null, "b", "waiting", null],
      [null, "c", "waiting", null],
      [null, "f", "DNS", null],
    ]);
  });

  it("keeps the marks of who did not finish, and none of who did not start", () => {
    const input = contest({ a: [20], b: [30], c: ["foul"], d: [10] }, [
      { entrantId: "b", decision: "dnf" },
      { entrantId: "c", decision: "dnf" },
      { entrantId: "d", decision: "dns" },
    ]);
    expect(places(input)).toEqual([
      [1, "b", "DNF", 30],
      [2, "a", "ranked", 20],
      [null, "c", "DNF", null],
      [null, "d", "DNS", null],
    ]);
  });

  it("lets the newest ruling stand, whatever the order they come in", () => {
    const rulings = [
      { entrantId: "a", decision: "competing", sequence: 9 },
      { entrantId: "a", decision: "dns", sequence: 4 },
    ] as const;
    expect(places(contest({ a: [20] }, [...rulings]))).toEqual([[1, "a", "ranked", 20]]);
  });
});

describe("why a shot counts", () => {
  const whys = (input: ScoringInput, id: string) =>
    standings(input)
      .overall.find(({ entrantId }) => entrantId === id)
      ?.marks.map(({ counts, why, mark }) => [counts, why, mark]);

  it("for every round", () => {
    expect(whys(contest({ a: [20, 30.456] }), "a")).toEqual([
      [true, "tie-break", 20],
      [true, "best", 30.45],
      [false, "no-shot", null],
    ]);
    expect(whys(contest({ a: ["foul", "misfire", "burst"] }), "a")).toEqual([
      [false, "foul", null],
      [false, "misfire", null],
      [false, "burst", null],
    ]);
    expect(whys(contest({ a: ["open"] }), "a")?.[0]).toEqual([false, "no-entry", null]);
  });

  it("a ruled foul takes the mark away, and one that stands gives it back", () => {
    const foul = { shotId: "a1", decision: "foul", sequence: 1 } as const;
    expect(whys(contest({ a: [20, 10] }, [foul]), "a")?.slice(0, 2)).toEqual([
      [false, "ruled-foul", null],
      [true, "best", 10],
    ]);
    const stands = { shotId: "a1", decision: "stands", sequence: 2 } as const;
    expect(whys(contest({ a: [20, 10] }, [foul, stands]), "a")?.[0]).toEqual([true, "best", 20]);
  });

  it("names one best even when two marks are equal", () => {
    expect(whys(contest({ a: [20, 20] }), "a")?.map(([, why]) => why)).toEqual([
      "best",
      "tie-break",
      "no-shot",
    ]);
  });

  it("has a sentence for every reason", () => {
    for (const sentence of Object.values(WHY)) expect(sentence).toMatch(/^[A-Z].*\.$/);
  });
});

describe("what cannot be", () => {
  it("is refused", () => {
    expect(() => roundMark(Number.NaN)).toThrow(RangeError);
    expect(() => roundMark(-1)).toThrow(RangeError);
    const stray = contest({ a: [1] });
    expect(() => standings({ ...stray, divisions: [] })).toThrow(/Entrant 1/);
  });
});
