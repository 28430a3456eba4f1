import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { compareMarks, roundMark, type ScoringInput, standings } from "@/lib/scoring";

// The same cases every time; new ones in the long run (npm run test:deep).
if (!process.env.FAIRTHROW_TEST_DEEP) fc.configureGlobal({ seed: 20261125 });

// Few values, so that ties are common.
const mark = fc.constantFrom(10, 10.004, 10.01, 20, 20.5, 31.999);
const fix = fc.oneof(
  mark.map((value) => ({ outcome: "landed" as const, mark: value as number | null })),
  fc
    .constantFrom("foul" as const, "misfire" as const, "burst" as const)
    .map((outcome) => ({ outcome, mark: null })),
  fc.constant(null),
);

const contest: fc.Arbitrary<ScoringInput> = fc
  .array(fc.tuple(fc.array(fix, { maxLength: 4 }), fc.integer({ min: 0, max: 1 })), {
    minLength: 1,
    maxLength: 8,
  })
  .chain((entries) => {
    const ids = entries.map((_, index) => `e${index}`);
    const shots = entries.flatMap(([fixes], index) =>
      fixes.map((each, round) => ({
        id: `e${index}r${round}`,
        entrantId: `e${index}`,
        round: round + 1,
        fix: each,
      })),
    );
    const onEntrant = fc.record({
      entrantId: fc.constantFrom(...ids),
      shotId: fc.constant(null),
      decision: fc.constantFrom("dns" as const, "dnf" as const, "competing" as const),
    });
    const onShot = fc.record({
      entrantId: fc.constant(null),
      shotId: fc.constantFrom(...(shots.length > 0 ? shots.map(({ id }) => id) : ["none"])),
      decision: fc.constantFrom("foul" as const, "stands" as const),
    });
    return fc.array(fc.oneof(onEntrant, onShot), { maxLength: 5 }).map((rulings) => ({
      divisions: [
        { id: "d0", name: "North" },
        { id: "d1", name: "South" },
      ],
      entrants: entries.map(([, division], index) => ({
        id: `e${index}`,
        number: index + 1,
        name: `Team ${index}`,
        divisionId: `d${division}`,
      })),
      rounds: [1, 2],
      shots,
      rulings: rulings.map((ruling, sequence) => ({ ...ruling, sequence })),
    }));
  });

const shuffled = <T>(list: readonly T[]) => fc.shuffledSubarray([...list], { minLength: list.length });

describe("standings", () => {
  it("do not depend on the order of entry", () => {
    const both = contest.chain((input) =>
      fc
        .tuple(
          shuffled(input.divisions),
          shuffled(input.entrants),
          shuffled(input.rounds),
          shuffled(input.shots),
          shuffled(input.rulings),
        )
        .map(([divisions, entrants, rounds, shots, rulings]) => ({
          input,
          mixed: { divisions, entrants, rounds, shots, rulings },
        })),
    );
    fc.assert(
      fc.property(both, ({ input, mixed }) => {
        expect(standings(mixed)).toEqual(standings(input));
      }),
    );
  });

  it("rank everybody once: a place is one more than the number of those who did better", () => {
    fc.assert(
      fc.property(contest, (input) => {
        const { overall, divisions } = standings(input);
        expect(overall.map(({ entrantId }) => entrantId).sort()).toEqual(
          input.entrants.map(({ id }) => id).sort(),
        );
        expect(divisions.flatMap(({ rows }) => rows)).toHaveLength(input.entrants.length);
        for (const rows of [overall, ...divisions.map((division) => division.rows)]) {
          for (const row of rows) {
            const better = rows.filter((other) => compareMarks(other.counted, row.counted) < 0).length;
            expect(row.rank).toBe(row.best === null ? null : better + 1);
          }
        }
      }),
    );
  });

  it("never get worse for an entrant by one more mark", () => {
    fc.assert(
      fc.property(contest, mark, (input, value) => {
        const [entrant] = input.entrants;
        if (!entrant) return;
        const rankOf = (of: ScoringInput) =>
          standings(of).overall.find(({ entrantId }) => entrantId === entrant.id)?.rank ??
          Number.POSITIVE_INFINITY;
        const more = {
          ...input,
          shots: [
            ...input.shots,
            { id: "more", entrantId: entrant.id, round: 9, fix: { outcome: "landed" as const, mark: value } },
          ],
        };
        expect(rankOf(more)).toBeLessThanOrEqual(rankOf(input));
      }),
    );
  });
});

describe("a mark", () => {
  it("is at most what was measured, less than a centimetre below, and stays when rounded again", () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 2000, noNaN: true }), (measured) => {
        const rounded = roundMark(measured);
        expect(rounded).toBeLessThanOrEqual(measured + 1.01e-7);
        expect(measured - rounded).toBeLessThan(0.01);
        expect(roundMark(rounded)).toBe(rounded);
      }),
    );
  });

  it("in whole centimetres is itself", () => {
    for (let centimetres = 0; centimetres < 100_000; centimetres++) {
      const mark = centimetres / 100;
      if (roundMark(mark) !== mark) throw new Error(`${mark} became ${roundMark(mark)}`);
    }
  });
});
