/** A tape along the centreline of the shot and another at a right angle to it. */
import { z } from "zod";
import { groundDirect, normalBearing } from "../../earth";
import { own } from "../budget";
import { RADIANS } from "../site";
import { DEFAULT_UNCERTAINTY, tapeUncertainty } from "../uncertainty";
import { metres, unplaceable, type Warning } from "../warnings";
import type { SurveyMethod } from "./method";
import {
  ask,
  bearing,
  degreeUncertainty,
  distance,
  LANDING_FIELD,
  landed,
  metreUncertainty,
  number,
  optional,
} from "./parts";

export const centrelineOffsetFixSchema = z.strictObject({
  ...landed,
  method: z.literal("centreline-offset"),
  /** True bearing of the centreline from the firing point, degrees; the shot's if left out. */
  centreline: bearing.optional(),
  /** Along the centreline to the foot of the offset, m, behind the firing point negative. */
  along: number("Enter the distance along the centreline.")
    .min(-10_000, "The distance is more than 10 km: check the number and its unit.")
    .max(10_000, "The distance is more than 10 km: check the number and its unit."),
  /** From the centreline at a right angle, m. */
  offset: distance("Enter the offset from the centreline, 0 if it lies on it."),
  /** Seen from the firing point along the centreline. */
  side: z.enum(["left", "right"]),
  /** Standard uncertainties: of both taped distances (m), the right angle and the staked centreline (degrees). */
  alongUncertainty: metreUncertainty,
  offsetUncertainty: metreUncertainty,
  rightAngleUncertainty: degreeUncertainty,
  centrelineUncertainty: degreeUncertainty,
});

/** An offset that shifts its foot by more than this makes the right angle matter more than the tape, m. */
const FOOT_SHIFT = 0.25;

export const centrelineOffset: SurveyMethod<typeof centrelineOffsetFixSchema> = {
  method: "centreline-offset",
  title: "Tape along the centreline and offset",
  summary: "A tape from the firing point along the shot's centreline, and the offset left or right of it.",
  schema: centrelineOffsetFixSchema,
  fields: [
    ask.number("along", "Along the centreline", "distance", "To the foot of the offset, behind negative."),
    ask.number("offset", "Offset", "distance", "At a right angle from the centreline."),
    ask.choice("side", "Side", "Seen from the firing point.", { left: "Left", right: "Right" }, true),
    ask.number("centreline", "Centreline", "angle", "True bearing; the shot's if left empty.", optional),
    ask.number(
      "alongUncertainty",
      "Uncertainty along",
      "distance",
      "Standard; a tape's if left empty.",
      optional,
    ),
    ask.number(
      "offsetUncertainty",
      "Uncertainty of the offset",
      "distance",
      "Standard; a tape's if left empty.",
      optional,
    ),
    ask.number(
      "rightAngleUncertainty",
      "Uncertainty of the right angle",
      "angle",
      "Standard; 2°, by eye, if left empty.",
      optional,
    ),
    ask.number(
      "centrelineUncertainty",
      "Uncertainty of the centreline",
      "angle",
      "Standard; 0.25° if left empty.",
      optional,
    ),
    LANDING_FIELD,
  ],
  place(fix, ground) {
    const station = ground.station();
    const centreline =
      fix.centreline ??
      ground.site.centreline ??
      unplaceable("no-centreline", "The shot has no bearing: give that of the centreline.");
    const right = fix.side === "right" ? fix.offset : -fix.offset;
    const far = Math.hypot(fix.along, right);
    const bearingThere = normalBearing(centreline + Math.atan2(right, fix.along) / RADIANS);
    const [sin, cos] = [Math.sin(centreline * RADIANS), Math.cos(centreline * RADIANS)];
    const tape = fix.alongUncertainty ?? tapeUncertainty(Math.abs(fix.along));
    const aside = fix.offsetUncertainty ?? tapeUncertainty(fix.offset);
    const angle = fix.rightAngleUncertainty ?? DEFAULT_UNCERTAINTY.rightAngle;
    // The end of the offset turned about its foot, and the whole turned about the firing point.
    const foot = right * angle * RADIANS;
    const turn = (fix.centrelineUncertainty ?? DEFAULT_UNCERTAINTY.centreline) * RADIANS;
    const warnings: Warning[] = [];
    if (Math.abs(foot) > Math.max(FOOT_SHIFT, tape))
      warnings.push({
        code: "offset-long",
        text: `Over an offset of ${metres(fix.offset)} a right angle good to ${angle}° shifts the foot by ${metres(Math.abs(foot))}: set the angle out by optical square or by 3-4-5, or tape from two pegs.`,
      });
    return {
      point: groundDirect(ground.site.firingPoint, bearingThere, far, ground.plane.height),
      budget: [
        own("along", tape * sin, tape * cos),
        own("offset", aside * cos, -aside * sin),
        own("right angle", foot * sin, foot * cos),
        own("centreline", turn * (fix.along * cos - right * sin), turn * (-fix.along * sin - right * cos)),
        ...station.budget,
      ],
      warnings,
      fromFiringPoint: { distance: far, bearing: bearingThere },
    };
  },
};
