/** All that one entry of a landing point is judged by, read inside its transaction and past the client (db/statements.ts). */
import type { SiteGeometry } from "../api/contracts";
import { type DatabaseTransaction, rowsOf } from "../db";
import type { Peg } from "../survey";
import { notFound } from "./errors";
import { type JudgedFix, type JudgedRuling, type Marking, markingOf, type Place, pegOf } from "./judging";
import { markBefore } from "./shot-results";
import { type WorstThrow, worstThrow } from "./worst-throws";

/** An entry of the shot, with who made it. */
export interface EntryRow extends JudgedFix {
  method: string | null;
  latitude: number | null;
  longitude: number | null;
  observedAt: Date;
  createdAt: Date;
  witness: string | null;
  reason: string | null;
  badge: { label: string };
}

export interface EntryReading {
  contestId: string;
  /** Until its first entry a shot goes where its machine is placed: this is where the mark counts from now. */
  shot: { id: string; machineId: string; bearing: number; firingPoint: Place };
  /** In the order they came. */
  fixes: EntryRow[];
  rulings: JudgedRuling[];
  pegs: Record<string, Peg>;
  declination: number;
  marking: Marking;
  worst: WorstThrow | null;
  /** The entrant's mark before, m. */
  markBefore: number | null;
  boundary: SiteGeometry[];
}

/** Throws 404 for a shot that is not there. */
export async function readForEntry(
  tx: DatabaseTransaction,
  contestId: string,
  shotId: string,
): Promise<EntryReading> {
  const [contest] = await rowsOf<{ declination: number; markRule: string | null }>(
    tx,
    `SELECT "declination", "markRule" FROM "Contest" WHERE "id" = ?`,
    contestId,
  );
  if (!contest) throw notFound("contest");
  const [found] = await rowsOf<ShotRow>(
    tx,
    `SELECT s."id", s."contestId", s."entrantId", s."machineId", s."revisionId", s."bearing", s."round",
      p."latitude", p."longitude", p."height", p."accuracy"
    FROM "Shot" s JOIN "FiringPoint" p ON p."id" = s."firingPointId" WHERE s."id" = ? AND s."contestId" = ?`,
    shotId,
    contestId,
  );
  if (!found) throw notFound("shot");
  const entries = await rowsOf<Omit<EntryRow, "badge"> & { label: string }>(
    tx,
    `SELECT f.*, b."label" FROM "Fix" f JOIN "Badge" b ON b."id" = f."badgeId" WHERE f."shotId" = ?
    ORDER BY f."sequence"`,
    shotId,
  );
  const rulings = await rowsOf<JudgedRuling>(
    tx,
    `SELECT "decision", "fixId", "sequence" FROM "Ruling" WHERE "shotId" = ?`,
    shotId,
  );
  const pegs = await rowsOf<Place & { id: string; name: string }>(
    tx,
    `SELECT "id", "name", "latitude", "longitude", "height", "accuracy" FROM "ControlPoint" WHERE "contestId" = ?`,
    contestId,
  );
  const features = await rowsOf<{ geometry: string }>(
    tx,
    `SELECT "geometry" FROM "SiteFeature" WHERE "contestId" = ? AND "kind" = 'boundary' AND NOT "retired"`,
    contestId,
  );
  const marking = markingOf(contest);
  const { latitude, longitude, height, accuracy } = found;
  return {
    contestId,
    shot: {
      id: found.id,
      machineId: found.machineId,
      bearing: found.bearing,
      firingPoint: { latitude, longitude, height, accuracy },
    },
    fixes: entries.map(({ label, ...entry }) => ({ ...entry, badge: { label } })),
    rulings,
    pegs: Object.fromEntries(pegs.map((peg) => [peg.id, pegOf(peg)])),
    declination: contest.declination,
    marking,
    worst: await worstThrow(tx, found.revisionId),
    markBefore: await markBefore(tx, found, marking),
    boundary: features.map(({ geometry }) => JSON.parse(geometry) as SiteGeometry),
  };
}

interface ShotRow extends Place {
  id: string;
  contestId: string;
  entrantId: string;
  machineId: string;
  revisionId: string;
  bearing: number;
  round: number;
}
