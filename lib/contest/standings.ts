/** Standings, computed from the shots, fixes and rulings in the database; nothing of them is stored. */
import type { Standings } from "../api/contracts";
import type { Database } from "../db";
import { standings } from "../scoring";
import { contestBySlug } from "./find";
import { scorebookHead } from "./scorebook";

/** Open to all. */
export async function contestStandings(db: Database, slug: string): Promise<Standings> {
  const contest = await contestBySlug(db, slug);
  return standingsOf(db, contest.id);
}

export async function standingsOf(db: Database, contestId: string): Promise<Standings> {
  const where = { contestId };
  // Read first: standings that rest on later entries than their head says do no harm, the reverse would.
  const head = await scorebookHead(db, contestId);
  const [divisions, entrants, shots, rulings] = await Promise.all([
    db.division.findMany({ where }),
    db.entrant.findMany({ where }),
    db.shot.findMany({
      where,
      select: {
        id: true,
        entrantId: true,
        round: true,
        fixes: { where: { replaced: null }, select: { outcome: true, mark: true } },
      },
    }),
    db.ruling.findMany({ where }),
  ]);
  const rounds = [...new Set(shots.map((shot) => shot.round))].sort((a, b) => a - b);
  const result = standings({
    divisions,
    entrants,
    rounds,
    shots: shots.map(({ id, entrantId, round, fixes: [fix] }) => ({
      id,
      entrantId,
      round,
      fix: fix ? { outcome: fix.outcome as Outcome, mark: fix.mark } : null,
    })),
    rulings: rulings.map((ruling) => ({ ...ruling, decision: ruling.decision as Decision })),
  });
  return { ...head, rounds, divisions: result.divisions, overall: result.overall };
}

type Outcome = "landed" | "foul" | "misfire" | "burst";
type Decision = "dns" | "dnf" | "competing" | "foul" | "stands";
