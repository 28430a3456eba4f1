/** What bearings from several pegs have in common: a row of the form, and the point where they cross. */
import { z } from "zod";
import type { PlanePoint } from "../../earth";
import { adjust, judged, mustAdjust, type Observation, turned } from "../adjust";
import { FIRING_POINT, type Ground, mustStandApart, RADIANS, trueBearing } from "../site";
import { degrees, listed, metres, unplaceable, type Warning } from "../warnings";
import { bestCrossing, between, crossSights, directionTo, FLAT, worstDirection } from "./crossing";
import type { Field, Placed } from "./method";
import { ask, BEARING_FIELDS, bearing, degreeUncertainty, north, optional, pegId } from "./parts";
import { TOO_NEAR } from "./polar";

export const sightSchema = z.strictObject({
  /** A control point, a spotter's post, or the firing point. */
  from: pegId,
  bearing,
  ...north,
  /** Standard uncertainty of the bearing, degrees; the method's own if left out. */
  uncertainty: degreeUncertainty,
});
export type Sight = z.output<typeof sightSchema>;

export const sightFields = (from: string, uncertainty: string): readonly Field[] => [
  ask.peg("from", "From", `${from}, or "${FIRING_POINT}".`),
  ...BEARING_FIELDS,
  ask.number("uncertainty", "Uncertainty", "angle", uncertainty, optional),
];

/** Two bearings that differ by less than this many standard uncertainties may as well be parallel. */
const PARALLEL = 3;

type Pair = { at: PlanePoint; angle: number; ahead: boolean };

/** Crossings of all pairs, the squarest ahead of both eyes first. */
function crossings(observations: readonly Observation[]): Pair[] {
  const found = observations.flatMap((first, index) =>
    observations.slice(index + 1).flatMap((second): Pair[] => {
      const crossing = crossSights(
        { at: first.station.at, direction: first.value },
        { at: second.station.at, direction: second.value },
      );
      if (!crossing) return [];
      const ahead = crossing.along.every((along) => along > 0);
      return [{ at: crossing.at, ahead, angle: bestCrossing([first.value, second.value]) }];
    }),
  );
  return found.sort((a, b) => Number(b.ahead) - Number(a.ahead) || b.angle - a.angle);
}

/** Fewer bearings, from their own best crossing. */
function readjusted(observations: readonly Observation[]) {
  const [best] = crossings(observations);
  return best ? adjust(observations, best.at) : null;
}

/** Throws Unplaceable when the bearings do not cross ahead of those who took them. */
export function placedBySights(
  sights: readonly Sight[],
  ground: Ground,
  usual: number,
  more: Warning[] = [],
): Placed {
  const observations = sights.map((sight, index): Observation => {
    const station = ground.station(sight.from);
    const { bearing: degreesTrue, declinationUncertainty } = trueBearing(sight, ground.site);
    return {
      label: `bearing ${index + 1}, from ${station.name}`,
      kind: "bearing",
      station,
      value: degreesTrue * RADIANS + station.convergence,
      sigma: (sight.uncertainty ?? usual) * RADIANS,
      declinationUncertainty: declinationUncertainty * RADIANS,
    };
  });
  mustStandApart(
    observations.map(({ station }) => station),
    "bearing",
  );
  const [best] = crossings(observations);
  const doubt = PARALLEL * Math.hypot(...observations.slice(0, 2).map(({ sigma }) => sigma / RADIANS));
  if (!best || bestCrossing(observations.map(({ value }) => value)) < doubt)
    unplaceable(
      "bearings-do-not-cross",
      `The bearings are parallel within their uncertainty of ${degrees(doubt)}: they do not tell where they cross. Take one from a peg well aside, or measure by tape.`,
    );
  if (!best.ahead) behind(observations, best.at);
  const adjustment = mustAdjust(observations, best.at, "bearing");
  const { at, budget } = adjustment;
  const backwards = observations.filter(
    ({ station, value }) => Math.abs(turned(directionTo(station.at, at) - value)) > Math.PI / 2,
  );
  if (backwards.length > 0) behind(backwards, at);
  return {
    point: ground.plane.toPoint(at),
    budget,
    adjustment,
    warnings: [
      ...more,
      ...geometry(observations, at, worstDirection(budget)),
      ...judged(adjustment, observations, "bearing", readjusted),
    ],
  };
}

function behind(observations: readonly Observation[], at: PlanePoint): never {
  const wrong = observations.filter(
    ({ station, value }) => Math.cos(directionTo(station.at, at) - value) < 0,
  );
  return unplaceable(
    "bearings-do-not-cross",
    `The bearings run apart and would cross only behind ${listed([...new Set(wrong.map(({ station }) => station.name))])}: check which bearing is from which peg, and that none was read from the wrong end of the needle.`,
  );
}

function geometry(observations: readonly Observation[], at: PlanePoint, worst: number): Warning[] {
  const angle = bestCrossing(observations.map(({ station }) => directionTo(station.at, at)));
  const found: Warning[] = [];
  if (angle < FLAT)
    found.push({
      code: "bearings-hardly-cross",
      text: `The bearings cross at ${degrees(angle)} at best, so along them the point is known to no better than ${metres(2 * worst)} (k = 2). Take a bearing from a peg well aside.`,
    });
  for (const { station } of observations) {
    const distance = between(station.at, at);
    if (distance < TOO_NEAR)
      found.push({
        code: "too-near",
        text: `The point is only ${metres(distance)} from ${station.name}: setting up over the peg by eye spoils that bearing. Take it from another peg, or measure by tape.`,
      });
  }
  return found;
}
