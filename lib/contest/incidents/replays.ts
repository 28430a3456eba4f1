/** What the model says of each place: which throw or failure of the machine, as its sheet was computed, leads there. */
import type { IncidentReplays } from "../../api/contracts";
import type { Database } from "../../db";
import type { HazardRequest, HazardSheet, ReplayRequest } from "../../throw";
import { isRefusal } from "../errors";
import { contestBySlug } from "../find";
import { hazardQueue } from "../hazard-queue";
import { type Asker, mustBeAllowed } from "../roles";
import { comparedIn, currentPieces, incidentIn, reportOf, sceneOf } from "./read";

/** The contract of replay takes no more, m. */
const MOST = 500;

/** Computed by the worker threads each time that it is asked: nothing of it is stored. */
export async function replayIncident(
  db: Database,
  actor: Asker,
  slug: string,
  id: string,
): Promise<IncidentReplays> {
  const contest = await contestBySlug(db, slug);
  mustBeAllowed(actor, "see incidents", contest.id);
  const row = await incidentIn(db, contest.id, id);
  const { sheet, ...report } = reportOf(row);
  const scene = await sceneOf(db, contest, { ...report, sheet });
  const replays = await Promise.all(
    currentPieces(row.pieces).map(async (piece) => {
      const nothing = (reason: string) => ({ pieceId: piece.id, replay: null, reason });
      const compared = comparedIn(piece, scene);
      if (!sheet || !compared.zone || compared.uncertainty === null)
        return nothing("No place or no hazard sheet: there is nothing to hold against each other.");
      const { azimuth: direction, distance } = compared.zone;
      const asked: ReplayRequest = {
        request: JSON.parse(sheet.inputs) as HazardRequest,
        landing: { distance, direction, uncertainty: Math.min(MOST, compared.uncertainty) },
        found: piece.found as ReplayRequest["found"],
        place: piece.place as ReplayRequest["place"],
      };
      const { worst } = JSON.parse(sheet.result) as HazardSheet;
      try {
        return { pieceId: piece.id, replay: await hazardQueue().replay(asked, worst, "trial"), reason: null };
      } catch (error) {
        if (isRefusal(error)) return nothing(error.detail);
        if ((error as Error).name === "EngineRefusal") return nothing((error as Error).message);
        throw error;
      }
    }),
  );
  return { replays };
}
