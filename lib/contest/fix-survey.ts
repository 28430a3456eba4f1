/** From what a judge entered to a point and its budget, with all that looks odd about it. Nothing is read or written. */
import type { FixAnswer } from "../api/contracts";
import { inverse, turnOf } from "../earth";
import { type Fix, type Located, measure } from "../survey";
import type { EntryReading } from "./entry-reading";
import { inside } from "./inside";
import { firingPointOf, markBy } from "./judging";

export interface SurveyedFix {
  /** Null when nothing landed or no point comes out. */
  located: Located | null;
  odd: FixAnswer["flags"];
}

export function surveyed(fix: Fix, reading: EntryReading): SurveyedFix {
  const { shot, pegs, declination } = reading;
  const { located, warnings } = measure(fix, {
    firingPoint: firingPointOf(shot.firingPoint),
    pegs,
    declination,
    centreline: shot.bearing,
  });
  return { located, odd: [...warnings, ...(located ? oddities(located, reading) : [])] };
}

/** What looks odd is kept and flagged, never refused: an official decides. */
function oddities(
  located: Located,
  { shot, worst, markBefore, marking, boundary }: EntryReading,
): FixAnswer["flags"] {
  const flags: FixAnswer["flags"] = [];
  const metres = (distance: number) => `${distance.toFixed(1)} m`;

  const forward = Math.abs(turnOf(shot.bearing, located.bearing)) <= 90;
  const limit = forward ? worst?.forward : worst?.backward;
  if (limit !== undefined && located.mark > limit)
    flags.push({
      code: "beyond-worst",
      text: `${metres(located.mark)} is beyond the worst ${forward ? "forward" : "backward"} throw computed for this machine, ${metres(limit)}. Check the entry. If it is right, the machine is not what was declared or the model is wrong: tell the safety officer before anyone fires again.`,
    });

  const { distance } = markBy(located, shot.firingPoint, marking);
  if (markBefore !== null && markBefore > 0 && distance > 2 * markBefore)
    flags.push({
      code: "twice-last-mark",
      text: `${metres(distance)} is more than twice this entrant's last mark, ${metres(markBefore)}. Check the number and its unit.`,
    });

  if (boundary.length > 0 && !boundary.some((ring) => inside(located.point, ring)))
    flags.push({
      code: "outside-boundary",
      text: `The landing point lies outside the boundary, ${metres(inverse(shot.firingPoint, located.point).distance)} from the firing point. Check the entry; if it is right, tell the safety officer.`,
    });
  return flags;
}
