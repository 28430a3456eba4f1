/**
 * Places that the measurements cannot tell apart. A mark is known to its expanded uncertainty (k = 2); two marks differ
 * for certain only by more than both together: the root of the sum of squares (JCGM 100:2008, 5.1, for a difference).
 * Both are taken as independent. What they share (a peg, the declination) would cancel, so this errs on the side of
 * measuring again.
 */
import type { Standing } from "./standings";

export interface CloseCall {
  /** The better placed first. */
  entrantIds: [string, string];
  shotIds: [string, string];
  ranks: [number, number];
  /** Between the best marks, m. */
  difference: number;
  /** Expanded (k = 2) uncertainty of the difference, m. */
  uncertainty: number;
  text: string;
}

const ADVICE =
  "Too close to call: measure both landing points again from their pegs, by the most exact method at hand, before the result is published.";

const metres = (value: number) => `${value.toFixed(2)} m`;

/**
 * Pairs of places in one ranking whose best marks differ by less than their measurements together may be off.
 * `uncertainties`: expanded (k = 2), m, by shot; a mark without one is not judged. Marks are compared as rounded: as
 * they rank. A shared place is none to call.
 */
export function closeCalls(
  rows: readonly Standing[],
  uncertainties: ReadonlyMap<string, number>,
): CloseCall[] {
  const places = rows.flatMap((row) => {
    const shotId = row.marks.find(({ why }) => why === "best")?.shotId ?? null;
    const own = shotId === null ? undefined : uncertainties.get(shotId);
    if (row.rank === null || row.best === null || shotId === null || own === undefined) return [];
    return [{ row, rank: row.rank, best: row.best, shotId, own }];
  });
  return places.flatMap((first, index) =>
    places.slice(index + 1).flatMap((second): CloseCall[] => {
      if (first.rank === second.rank) return [];
      const difference = first.best - second.best;
      const uncertainty = Math.hypot(first.own, second.own);
      if (difference >= uncertainty) return [];
      return [
        {
          entrantIds: [first.row.entrantId, second.row.entrantId],
          shotIds: [first.shotId, second.shotId],
          ranks: [first.rank, second.rank],
          difference,
          uncertainty,
          text: `Places ${first.rank} and ${second.rank}, ${metres(first.best)} and ${metres(second.best)}, are ${metres(difference)} apart, and the two measurements together may be off by ${metres(uncertainty)} (k = 2). ${ADVICE}`,
        },
      ];
    }),
  );
}
