/** What a yard asks of the engine, and the answer: a whole hazard sheet on the ground of the yard. Pure. */
import {
  deepestLevel,
  groundWords,
  type MeasuredGround,
  type StandPoint,
  sheetOnGround,
} from "@/lib/contest/ground";
import { siteRequest } from "@/lib/contest/site-request";
import {
  type Air,
  defaultPolicy,
  GROUND_FIRMNESS,
  type HazardRequest,
  type HazardSheet,
  hazardSheet,
  type Policy,
  type Terrain,
} from "@/lib/throw";
import { standOf, type Yard } from "./yard";

export interface ZoneQuestion {
  request: HazardRequest;
  /** Where heights describe the ground: then place and bearing count too. */
  ground: { measured: MeasuredGround; firingPoint: StandPoint; bearing: number } | null;
}

export interface ZoneAnswer {
  sheet: HazardSheet;
  /** What was taken for granted of the ground. */
  given: string[];
  /** How far it reaches whichever way it is turned; null where that was not to be known. */
  anyWay: number[] | null;
}

/**
 * The documented defaults, and what the bench has stricter. Only a safety officer may set less, and none has signed
 * anything on this page.
 */
export function yardPolicy(bench: Policy = defaultPolicy): Policy {
  const larger = <T extends Record<string, number>>(defaults: T, given: T): T =>
    Object.fromEntries(
      Object.entries(defaults).map(([name, value]) => [name, Math.max(value, given[name] as number)]),
    ) as T;
  const firmness = (ground: Policy["ground"]) => GROUND_FIRMNESS.indexOf(ground);
  return {
    margin: Math.max(defaultPolicy.margin, bench.margin),
    angles: larger(defaultPolicy.angles, bench.angles),
    minimum: larger(defaultPolicy.minimum, bench.minimum),
    ground: firmness(bench.ground) > firmness(defaultPolicy.ground) ? bench.ground : defaultPolicy.ground,
    projectiles: bench.projectiles,
    hangUp: true,
  };
}

/** Whether the bench asks for less than the yard's zone takes. */
export const isLooser = (bench: Policy = defaultPolicy): boolean => {
  const { projectiles: _, ...yard } = yardPolicy(bench);
  const { projectiles: __, hangUpReason: ___, ...own } = bench;
  return JSON.stringify(sorted(yard)) !== JSON.stringify(sorted(own));
};

const sorted = (value: object): unknown =>
  Object.entries(value)
    .map(([name, each]) => [name, typeof each === "object" && each !== null ? sorted(each) : each])
    .sort(([a], [b]) => String(a).localeCompare(String(b)));

/** Null while there is no firing point with a bearing. */
export function questionOf(bench: HazardRequest, yard: Yard): ZoneQuestion | null {
  const stand = standOf(yard);
  if (!stand) return null;
  const { machine, projectile, tolerances, strengths, air = {}, terrain } = bench;
  const declaration = {
    machine,
    projectile,
    ...(tolerances && { tolerances }),
    ...(strengths && { strengths }),
  };
  const measured = measuredGround(yard);
  const request = siteRequest(
    { latitude: yard.latitude, height: yard.height ?? 0, policy: yardPolicy(bench.policy) },
    declaration,
    { air: air as Air, terrain: measured ? undefined : terrain },
  );
  return { request, ground: measured && { measured, firingPoint: stand, bearing: stand.bearing } };
}

/** Every height that somebody gave; null without a spot height: then the ground is what the bench says, or level. */
function measuredGround({ firingPoints, controlPoints, spotHeights }: Yard): MeasuredGround | null {
  if (spotHeights.length === 0) return null;
  const given = [...spotHeights, ...firingPoints, ...controlPoints].flatMap(
    ({ latitude, longitude, height }) => (height === null ? [] : { latitude, longitude, height }),
  );
  return {
    points: given.sort((a, b) => a.latitude - b.latitude || a.longitude - b.longitude || a.height - b.height),
  };
}

/** Whether the bench's ground slopes along or across the bearing, wherever that points. */
export const isTilted = (terrain: Terrain | undefined): terrain is Terrain =>
  terrain !== undefined && (terrain.slope !== 0 || terrain.crossSlope !== 0);

/** What holds of a bench's slope, which knows nothing of where the machine stands here and which way it is turned. */
export const DECLARED_SLOPE =
  "The ground slopes as the bench declares it, along whatever bearing is set here, and counts as level wherever throws go farther so: turned another way it may lie otherwise. Lay out spot heights, and the ground of this place counts.";

/** The sheet with nothing nearer than the other one keeps people off. */
function notWithin(sheet: HazardSheet, other: HazardSheet): HazardSheet {
  const [own, most] = [sheet.exclusion, other.exclusion];
  return {
    ...sheet,
    exclusion: {
      ...own,
      forward: Math.max(own.forward, most.forward),
      backward: Math.max(own.backward, most.backward),
      side: Math.max(own.side, most.side),
      reach: own.reach.map((metres, degree) => Math.max(metres, most.reach[degree] as number)),
    },
  };
}

/** Throws with a sentence where nothing can be computed. `onProgress`: 0 to 1, anew for each sheet that it takes. */
export async function answerTo(
  { request, ground }: ZoneQuestion,
  onProgress: (done: number) => void = () => {},
): Promise<ZoneAnswer> {
  const on = (terrain?: Terrain) => hazardSheet(terrain ? { ...request, terrain } : request, onProgress);
  if (!ground) {
    const sheet = on();
    const { terrain } = request;
    if (!isTilted(terrain)) return { sheet, given: [], anyWay: sheet.exclusion.reach };
    // A contest would take such a place as level: a rise that was declared shortens nothing here.
    const level = on({ below: terrain.below, slope: 0, crossSlope: 0 });
    return { sheet: notWithin(sheet, level), given: [DECLARED_SLOPE], anyWay: null };
  }
  const { measured, firingPoint } = ground;
  const { sheet, taken } = await sheetOnGround(measured, ground, on, (problem) => new Error(problem));
  const level = deepestLevel(measured, [firingPoint]);
  return {
    sheet,
    given: taken ? groundWords(taken, firingPoint) : [],
    anyWay: level && level.problem === null ? on(level.terrain).exclusion.reach : null,
  };
}
