/** From what a judge entered to a point and its budget, with all that looks odd about it. Nothing is written here. */
import type { FixAnswer, SiteGeometry } from "../api/contracts";
import type { Database } from "../db";
import { inverse, turnOf } from "../earth";
import { type Fix, type Located, measure } from "../survey";
import { type ContestRow, type PlainShot, plainShotIn } from "./find";
import { inside } from "./inside";
import { firingPointOf, type Marking, markBy, markingOf, pegOf } from "./judging";
import { markBefore } from "./shot-results";
import { worstThrows } from "./worst-throws";

export interface SurveyedFix {
  shot: PlainShot;
  fix: Fix;
  /** Null when nothing landed or no point comes out. */
  located: Located | null;
  odd: FixAnswer["flags"];
  marking: Marking;
}

/** Throws 404 for a shot that is not there. */
export async function surveyed(
  db: Database,
  contest: ContestRow,
  shotId: string,
  fix: Fix,
): Promise<SurveyedFix> {
  const shot = await plainShotIn(db, contest.id, shotId);
  const pegs = await db.controlPoint.findMany({ where: { contestId: contest.id } });
  const { located, warnings } = measure(fix, {
    firingPoint: firingPointOf(shot.firingPoint),
    pegs: Object.fromEntries(pegs.map((peg) => [peg.id, pegOf(peg)])),
    declination: contest.declination,
    centreline: shot.bearing,
  });
  const marking = markingOf(contest);
  const odd = [...warnings, ...(located ? await oddities(db, shot, located, marking) : [])];
  return { shot, fix, located, odd, marking };
}

/** What looks odd is kept and flagged, never refused: an official decides. */
async function oddities(
  db: Database,
  shot: PlainShot,
  located: Located,
  marking: Marking,
): Promise<FixAnswer["flags"]> {
  const { contestId, revisionId, firingPoint } = shot;
  const [worstOf, last, boundaries] = await Promise.all([
    worstThrows(db, [revisionId]),
    markBefore(db, shot, marking),
    db.siteFeature.findMany({ where: { contestId, kind: "boundary", retired: false } }),
  ]);
  const flags: FixAnswer["flags"] = [];
  const metres = (distance: number) => `${distance.toFixed(1)} m`;

  const worst = worstOf.get(revisionId);
  const turned = Math.abs(turnOf(shot.bearing, located.bearing));
  const forward = turned <= 90;
  const limit = forward ? worst?.forward : worst?.backward;
  if (limit !== undefined && located.mark > limit)
    flags.push({
      code: "beyond-worst",
      text: `${metres(located.mark)} is beyond the worst ${forward ? "forward" : "backward"} throw computed for this machine, ${metres(limit)}. Check the entry. If it is right, the machine is not what was declared or the model is wrong: tell the safety officer before anyone fires again.`,
    });

  const { distance } = markBy(located, firingPoint, marking);
  if (last !== null && last > 0 && distance > 2 * last)
    flags.push({
      code: "twice-last-mark",
      text: `${metres(distance)} is more than twice this entrant's last mark, ${metres(last)}. Check the number and its unit.`,
    });

  const rings = boundaries.map((feature) => JSON.parse(feature.geometry) as SiteGeometry);
  if (rings.length > 0 && !rings.some((ring) => inside(located.point, ring)))
    flags.push({
      code: "outside-boundary",
      text: `The landing point lies outside the boundary, ${metres(inverse(firingPoint, located.point).distance)} from the firing point. Check the entry; if it is right, tell the safety officer.`,
    });
  return flags;
}
