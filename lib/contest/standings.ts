/** Standings, computed from the shots, fixes and rulings in the database; nothing of them is stored. */
import type { ShotResult, Standings } from "../api/contracts";
import type { Database } from "../db";
import { closeCalls, type ScoredRuling, type Standing, standings } from "../scoring";
import { type ContestRow, contestBySlug } from "./find";
import { markingOf, rulingInForce, scored } from "./judging";
import { roundResults } from "./round-results";
import { scorebookHead } from "./scorebook";
import { shotResults } from "./shot-results";

/** Open to all. */
export async function contestStandings(db: Database, slug: string): Promise<Standings> {
  return standingsFor(db, await contestBySlug(db, slug));
}

export async function standingsOf(db: Database, contestId: string): Promise<Standings> {
  return standingsFor(db, await db.contest.findUniqueOrThrow({ where: { id: contestId } }));
}

async function standingsFor(db: Database, contest: ContestRow): Promise<Standings> {
  const where = { contestId: contest.id };
  // Read first: standings that rest on later entries than their head says do no harm, the reverse would.
  const head = await scorebookHead(db, contest.id);
  const marking = markingOf(contest);
  const [divisions, entrants, { rows, results }, rulings, protests] = await Promise.all([
    db.division.findMany({ where }),
    db.entrant.findMany({ where }),
    shotResults(db, where, marking),
    db.ruling.findMany({ where }),
    db.protest.findMany({ where, include: { rulings: { select: { id: true } } } }),
  ]);
  const { unit, from, landing, sector } = marking.rule;
  const shots = rows.map((shot) => ({
    shot,
    result: results.get(shot.id) as ShotResult,
    ruling: rulingInForce(shot),
  }));
  const rounds = [...new Set(rows.map((shot) => shot.round))].sort((a, b) => a - b);
  const scoring = standings({
    divisions,
    entrants,
    rounds,
    shots: shots.map(({ shot: { id, entrantId, round }, result }) => ({
      id,
      entrantId,
      round,
      fix: scored(result),
      unpermitted: result.unpermitted,
    })),
    rulings: [
      ...rulings.filter(({ entrantId }) => entrantId !== null),
      ...shots.flatMap(({ ruling }) => ruling ?? []),
    ].map(({ entrantId, shotId, decision, sequence }) => ({
      entrantId,
      shotId,
      decision: decision as ScoredRuling["decision"],
      sequence,
    })),
    unit,
  });
  const uncertainties = new Map(
    [...results].flatMap(([id, { uncertainty }]) =>
      uncertainty === null ? [] : [[id, uncertainty] as const],
    ),
  );
  const withDoubt = (row: Standing) => ({
    ...row,
    marks: row.marks.map((mark) => {
      const result = mark.shotId === null ? undefined : results.get(mark.shotId);
      return {
        ...mark,
        uncertainty: mark.mark === null ? null : (result?.uncertainty ?? null),
        sector: result?.sector?.verdict ?? null,
      };
    }),
  });
  return {
    ...head,
    rounds,
    unit,
    rule: { from, landing, sector: sector !== null },
    divisions: scoring.divisions.map((division) => ({
      ...division,
      rows: division.rows.map(withDoubt),
      closeCalls: closeCalls(division.rows, uncertainties),
    })),
    overall: scoring.overall.map(withDoubt),
    disputes: shots.flatMap(({ shot: { id, entrantId, round }, result: { how, text } }) =>
      how === "disagree" && text !== null ? [{ shotId: id, entrantId, round, text }] : [],
    ),
    results: roundResults({ shots: rows, rulings, protests }, contest),
  };
}
