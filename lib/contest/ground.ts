/**
 * The measured ground of a site under one machine's throws: the plane that its sheet is computed for, and the
 * sentences that say what was taken for granted of it. Pure.
 */
import { type GroundBelow, type GroundPoint, isAmidHeights, levelBelow, planeBelow } from "../earth";
import type { HazardSheet, Terrain } from "../throw";

export interface MeasuredGround {
  points: readonly GroundPoint[];
}

/** Where a machine stands. */
export type StandPoint = GroundPoint & { accuracy: number; heightGiven: boolean };
/** Where a machine stands and aims. */
export interface Stand {
  firingPoint: StandPoint;
  bearing: number;
}

/**
 * A firing point as sheets take it. Where nobody gave its height, the heights on all sides of it tell; where there are
 * not such, it may stand as high as the highest of them, and throws fall from there.
 */
export function standsAt<P extends StandPoint>(point: P, ground: MeasuredGround): P {
  if (point.heightGiven || isAmidHeights(ground.points, point, point.accuracy)) return point;
  return { ...point, height: Math.max(point.height, ...ground.points.map(({ height }) => height)) };
}

/** A sheet may reach this much farther than the one before it, on level ground or on a plane less low. */
const ROOM = 1.3;
/** After so many planes that a throw outran, the level one below everything measured is taken. */
const TILTED = 2;
/** What a hazard request takes, m. */
const LOWEST = 500;

/** The ground that one sheet was or is to be computed for. */
export interface GroundTaken extends GroundBelow {
  terrain: Terrain | undefined;
  heights: number;
  /** Where the machine is taken to stand, m above the ellipsoid: the ground that lies lower is below this. */
  stands: number;
  /** How far the plane lies below the ground, m by azimuth; null: everywhere. */
  within: readonly number[] | null;
}

/** Whether a zone stays where its plane is known to lie below the ground. */
export const holds = ({ within }: GroundTaken, reach: readonly number[]): boolean =>
  within === null || reach.every((metres, degree) => metres <= (within[degree] as number));

/**
 * The ground to compute for next, after sheets that did not stay where theirs was known. A lower plane lets a throw fly
 * farther, and more ground counts: after `TILTED` of them comes one that holds everywhere.
 *
 * @param reaches of the sheets so far, the first on level ground
 */
export function nextGround(
  ground: MeasuredGround,
  { firingPoint: point, bearing }: Stand,
  reaches: readonly (readonly number[])[],
): GroundTaken {
  const firingPoint = standsAt(point, ground);
  const { accuracy } = firingPoint;
  const heights = ground.points.length;
  const stands = firingPoint.height;
  if (reaches.length > TILTED) {
    const found = levelBelow(ground.points, { origin: firingPoint, accuracy, bearing });
    return { ...found, heights, stands, within: null, terrain: terrainOf(found) };
  }
  const within = Array.from({ length: 360 }, (_, degree) =>
    Math.ceil(ROOM * Math.max(...reaches.map((reach) => reach[degree] as number))),
  );
  const found = planeBelow(ground.points, { origin: firingPoint, accuracy, bearing, reach: within });
  return { ...found, heights, stands, within, terrain: terrainOf(found) };
}

function terrainOf({ below, slope, crossSlope }: GroundBelow): Terrain | undefined {
  return below === 0 && slope === 0 && crossSlope === 0 ? undefined : { below, slope, crossSlope };
}

/** Why no sheet can be computed on such ground; null when one can. */
export function groundProblem({ below }: Pick<GroundTaken, "below">): string | null {
  if (below <= LOWEST) return null;
  return `The heights say that the ground lies ${Math.round(below)} m below the firing point, and no throw is computed beyond ${LOWEST} m. Check the spot heights, and that all heights are above the ellipsoid.`;
}

/** What was taken for granted of the ground, one sentence each. */
export function groundWords(
  { below, slope, crossSlope, beyond, heights, lowest, stands }: GroundTaken,
  { heightGiven }: StandPoint,
): string[] {
  const tilt = [
    slope !== 0 && `${slope > 0 ? "falling" : "rising"} ${Math.abs(slope).toFixed(2)}° along the bearing`,
    crossSlope !== 0 && `falling ${Math.abs(crossSlope).toFixed(2)}° to either side`,
  ].filter(Boolean);
  const plane = tilt.length > 0 ? tilt.join(" and ") : "level";
  const lies = `${plane}, ${below === 0 ? "through the firing point" : `${below.toFixed(2)} m below it`}`;
  const words = [
    `Ground from ${heights} measured ${heights === 1 ? "height" : "heights"}: throws land on a plane ${lies}, nowhere above what was measured within reach. Between heights the ground is taken as straight: a hollow that nobody measured is not known.`,
  ];
  if (beyond)
    words.push(
      `The zone goes beyond the measured heights. There the ground is taken as low as the lowest of them, ${Math.max(0, stands - lowest).toFixed(1)} m below the firing point; what lies lower still is not known.`,
    );
  if (!heightGiven)
    words.push(
      `Nobody gave the firing point a height: by the contest's own and the heights around it, it is taken to stand at ${stands.toFixed(1)} m or on the ground that these show there. If it stands higher, throws fall farther than this: measure it.`,
    );
  return words;
}

/**
 * A sheet on the plane that holds where it reaches, by sheets on one plane after the other; none without measured ground.
 *
 * @param refused makes the error of ground on which nothing can be computed
 */
export async function sheetOnGround(
  ground: MeasuredGround | null,
  stand: Stand,
  sheetOn: (terrain?: Terrain) => HazardSheet | Promise<HazardSheet>,
  refused: (problem: string) => Error,
): Promise<{ sheet: HazardSheet; taken: GroundTaken | null }> {
  let sheet = await sheetOn();
  if (!ground) return { sheet, taken: null };
  const reaches: number[][] = [];
  for (;;) {
    reaches.push(sheet.exclusion.reach);
    const taken = nextGround(ground, stand, reaches);
    const problem = groundProblem(taken);
    if (problem) throw refused(problem);
    sheet = await sheetOn(taken.terrain);
    if (holds(taken, sheet.exclusion.reach)) return { sheet, taken };
  }
}

/** The level plane below all measured ground at the deepest of these points: there a reach holds whichever way it is turned. */
export function deepestLevel(
  ground: MeasuredGround,
  points: readonly StandPoint[],
): { problem: string | null; terrain: Terrain | undefined } | null {
  const [deepest] = points
    .map((point) => standsAt(point, ground))
    .map((origin) => levelBelow(ground.points, { origin, accuracy: origin.accuracy, bearing: 0 }))
    .sort((first, second) => second.below - first.below);
  if (!deepest) return null;
  const { below } = deepest;
  return {
    problem: groundProblem(deepest),
    terrain: below > 0 ? { below, slope: 0, crossSlope: 0 } : undefined,
  };
}
