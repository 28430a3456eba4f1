/** Three tapes or more: least squares, with a check of every tape by the others. */
import { z } from "zod";
import type { PlanePoint } from "../../earth";
import { adjust, judged, mustAdjust, type Observation } from "../adjust";
import { mustStandApart, RADIANS } from "../site";
import { degrees, metres, type Warning } from "../warnings";
import { bestCrossing, between, crossArcs, directionTo, FLAT, worstDirection } from "./crossing";
import type { SurveyMethod } from "./method";
import { LANDING_FIELD, landed } from "./parts";
import { TAPE_FIELDS, tapedObservations, tapeSchema, theyMiss } from "./taped";

export const tapesFixSchema = z.strictObject({
  ...landed,
  method: z.literal("tapes"),
  tapes: z
    .array(tapeSchema)
    .min(3, "Three tapes or more; two have a method of their own.")
    .max(12, "At most twelve tapes."),
});

/** The other side of the pegs' line fits nearly as well when the sum of squares grows by less: three times σ. */
const AS_GOOD = 9;
/** A tape that misses all the others by more than this many of their standard uncertainties is said to. */
const MISSES_BY = 3;

const arc = ({ station, value }: Observation) => ({ centre: station.at, radius: value });

const squares = (observations: readonly Observation[], at: PlanePoint) =>
  observations.reduce(
    (sum, { station, value, sigma }) => sum + ((value - between(station.at, at)) / sigma) ** 2,
    0,
  );

/** All crossings of two tapes, those that fit all tapes best first; and the pairs that do not meet. */
function crossings(observations: readonly Observation[]): { starts: PlanePoint[]; warnings: Warning[] } {
  const starts: PlanePoint[] = [];
  const warnings: Warning[] = [];
  observations.forEach((first, index) => {
    for (const second of observations.slice(index + 1)) {
      if (between(first.station.at, second.station.at) < 1e-6) continue;
      const { gap, apart, left, right } = crossArcs(arc(first), arc(second));
      starts.push(left, right);
      if (gap > MISSES_BY * Math.hypot(first.sigma, second.sigma))
        warnings.push(theyMiss(first, second, { gap, apart }));
    }
  });
  const fit = new Map(starts.map((start) => [start, squares(observations, start)] as const));
  return { starts: starts.sort((a, b) => (fit.get(a) as number) - (fit.get(b) as number)), warnings };
}

/** A point mirrored in the line that the pegs lie along most nearly. */
function mirrored(observations: readonly Observation[], { east, north }: PlanePoint): PlanePoint {
  const count = observations.length;
  const e0 = observations.reduce((sum, { station }) => sum + station.at.east, 0) / count;
  const n0 = observations.reduce((sum, { station }) => sum + station.at.north, 0) / count;
  let [cosines, sines] = [0, 0];
  for (const { station } of observations) {
    const [e, n] = [station.at.east - e0, station.at.north - n0];
    cosines += n * n - e * e;
    sines += 2 * e * n;
  }
  // Twice the bearing of the longest axis turns a vector over it.
  const length = Math.hypot(cosines, sines) || 1;
  const [cos, sin] = [cosines / length, sines / length];
  const [e, n] = [east - e0, north - n0];
  return { east: e0 - cos * e + sin * n, north: n0 + sin * e + cos * n };
}

/** Fewer tapes, from their own best crossing. */
function readjusted(observations: readonly Observation[]) {
  const [start] = crossings(observations).starts;
  return start ? adjust(observations, start) : null;
}

export const tapes: SurveyMethod<typeof tapesFixSchema> = {
  method: "tapes",
  title: "Three tapes or more",
  summary: "Distances from three pegs or more: the best by tape, because each checks the others.",
  schema: tapesFixSchema,
  fields: [
    {
      type: "list",
      name: "tapes",
      label: "Tapes",
      help: "From pegs that do not stand in a line; with four a wrong one can be named.",
      required: true,
      fewest: 3,
      most: 12,
      fields: TAPE_FIELDS,
    },
    LANDING_FIELD,
  ],
  place(fix, ground) {
    const { observations, warnings } = tapedObservations(fix.tapes, ground);
    mustStandApart(
      observations.map(({ station }) => station),
      "tape",
    );
    const { starts, warnings: misses } = crossings(observations);
    const best = mustAdjust(observations, starts[0] as PlanePoint, "tape");
    const other = adjust(observations, mirrored(observations, best.at));
    const worst = worstDirection(best.budget);
    const aside = other ? between(best.at, other.at) : 0;
    const doubtful =
      other && aside > Math.max(1e-3, worst) && Math.abs(other.chiSquare - best.chiSquare) < AS_GOOD;
    const chosen = other && aside > 1e-3 && prefers(other, best) ? other : best;
    const angle = bestCrossing(observations.map(({ station }) => directionTo(station.at, chosen.at)));
    return {
      point: ground.plane.toPoint(chosen.at),
      budget: chosen.budget,
      adjustment: chosen,
      warnings: [
        ...warnings,
        ...misses,
        ...(angle < FLAT
          ? [
              {
                code: "flat-triangle" as const,
                text: `The tapes cross at ${degrees(angle)} at best, so across them the point is known to no better than ${metres(2 * worst)} (k = 2). Tape from a peg that lies well aside.`,
              },
            ]
          : []),
        ...(doubtful
          ? [
              {
                code: "which-side" as const,
                text: `The pegs stand nearly in a line, and a point ${metres(aside)} away on its other side fits as well. Tape from a peg off that line; until then the one nearer to the shot's bearing is taken.`,
              },
            ]
          : []),
        ...judged(chosen, observations, "tape", readjusted),
      ],
    };

    /** Whether the other side is to be taken: where both fit, by the shot's bearing, else by the fit. */
    function prefers(there: { at: PlanePoint; chiSquare: number }, here: typeof there): boolean {
      const { centreline } = ground.site;
      if (!doubtful || centreline === undefined) return there.chiSquare < here.chiSquare;
      const ahead = ({ at }: typeof there) => Math.cos(Math.atan2(at.east, at.north) - centreline * RADIANS);
      return ahead(there) > ahead(here);
    }
  },
};
