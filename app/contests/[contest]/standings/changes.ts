/** What differs between two standings, in words, and which of several equal bests stands higher and why. */
import type { StandingRow, Standings } from "@/lib/api/contracts";

export interface Change {
  entrantId: string;
  round: number;
  row: StandingRow;
}

/** Every shot whose result is not what it was. */
export function changesBetween(before: Standings, after: Standings): Change[] {
  const old = new Map(before.overall.map((row) => [row.entrantId, row]));
  return after.overall.flatMap((row) =>
    row.marks
      .filter((mark) => {
        const was = old.get(row.entrantId)?.marks.find(({ round }) => round === mark.round);
        return mark.outcome !== null && (was?.mark !== mark.mark || was?.outcome !== mark.outcome);
      })
      .map(({ round }) => ({ entrantId: row.entrantId, round, row })),
  );
}

const ORDINAL = ["best", "second best", "third best", "fourth best", "fifth best"];

/** For rows with equal bests: by what they were split, or that nothing splits them. By entrant id. */
export function tieNotes(rows: readonly StandingRow[]): Map<string, string> {
  const notes = new Map<string, string>();
  for (const row of rows) {
    const equal = rows.some((other) => other !== row && row.best !== null && other.best === row.best);
    if (!equal) continue;
    const shares = rows.some((other) => other !== row && other.rank === row.rank);
    const deepest = Math.max(0, ...row.splits.map(({ place }) => place));
    if (shares) notes.set(row.entrantId, "shares the place: all marks equal");
    else if (deepest > 1) {
      const by = ORDINAL[deepest - 1] ?? `best number ${deepest}`;
      notes.set(row.entrantId, `equal best, split by the ${by}`);
    }
  }
  return notes;
}
