/** Two tapes from two pegs, and on which side of the line between the pegs the landing point lies. */
import { z } from "zod";
import type { PlanePoint } from "../../earth";
import { mustAdjust, type Observation } from "../adjust";
import { mustStandApart, type Station } from "../site";
import { degrees, metres, Unplaceable, type Warning } from "../warnings";
import { bestCrossing, crossArcs, directionTo, FLAT, rightOf, worstDirection } from "./crossing";
import type { SurveyMethod } from "./method";
import { ask, LANDING_FIELD, landed } from "./parts";
import { TAPE_FIELDS, tapedObservations, tapeSchema, theyMiss } from "./taped";

export const twoTapesFixSchema = z.strictObject({
  ...landed,
  method: z.literal("two-tapes"),
  tapes: z.array(tapeSchema).length(2, "Two tapes, each from its own peg."),
  /** Seen from the first peg towards the second. */
  side: z.enum(["left", "right"], { error: "Choose the side: left or right of the line between the pegs." }),
});

/** Nearer to the line between the pegs than this many standard uncertainties, the side itself is in doubt. */
const SIDE_IN_DOUBT = 3;

export const twoTapes: SurveyMethod<typeof twoTapesFixSchema> = {
  method: "two-tapes",
  title: "Two tapes",
  summary: "The two distances from two pegs. Nothing checks them: a third tape would.",
  schema: twoTapesFixSchema,
  fields: [
    {
      type: "list",
      name: "tapes",
      label: "Tapes",
      help: "One from each of two pegs.",
      required: true,
      fewest: 2,
      most: 2,
      fields: TAPE_FIELDS,
    },
    ask.choice(
      "side",
      "Side",
      "Of the line between the pegs, seen from the first towards the second.",
      { left: "Left", right: "Right" },
      true,
    ),
    LANDING_FIELD,
  ],
  place({ tapes, side }, ground) {
    const { observations, warnings } = tapedObservations(tapes, ground);
    const [first, second] = observations as [Observation, Observation];
    const [a, b] = [first.station, second.station];
    mustStandApart([a, b], "tape");
    const crossing = crossArcs({ centre: a.at, radius: first.value }, { centre: b.at, radius: second.value });
    if (crossing.gap > 0) throw new Unplaceable(theyMiss(first, second, crossing));
    const { at, budget } = mustAdjust(observations, crossing[side], "tape");
    return {
      point: ground.plane.toPoint(at),
      budget,
      warnings: [...warnings, ...flatness(a, b, at, worstDirection(budget))],
    };
  },
};

/** `worst`: standard uncertainty of the point in its worst direction, m. */
function flatness(a: Station, b: Station, at: PlanePoint, worst: number): Warning[] {
  const angle = bestCrossing([directionTo(a.at, at), directionTo(b.at, at)]);
  const aside = Math.abs(rightOf(a.at, b.at, at));
  const found: Warning[] = [];
  if (angle < FLAT)
    found.push({
      code: "flat-triangle",
      text: `The tapes cross at only ${degrees(angle)}, so across them the point is known to no better than ${metres(2 * worst)} (k = 2). Tape from a peg that lies well aside.`,
    });
  if (aside < SIDE_IN_DOUBT * worst)
    found.push({
      code: "which-side",
      text: `The point lies ${metres(aside)} from the line between ${a.name} and ${b.name}, less than the tapes can tell: it may be on the other side. Tape from a third peg.`,
    });
  return found;
}
