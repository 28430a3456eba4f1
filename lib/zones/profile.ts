/** The reach by azimuth in quarter degrees, widened by how far the machine may stand from its firing point. */

const DEGREES = 360;
export const STEPS_A_DEGREE = 4;
/** Steps of the circle. */
export const STEPS = DEGREES * STEPS_A_DEGREE;
const STEP = Math.PI / 180 / STEPS_A_DEGREE; // radians
/** A ring needs room to turn: no reach is drawn shorter, m. */
const LEAST_REACH = 0.1;
const LARGEST_REACH = 50_000;
const LARGEST_ACCURACY = 1000; // m

function check(reach: readonly number[], accuracy: number): void {
  if (reach.length !== DEGREES) throw new RangeError(`The reach needs ${DEGREES} numbers, one a degree.`);
  for (const [degree, radius] of reach.entries()) {
    if (!(radius >= 0 && radius <= LARGEST_REACH)) {
      throw new RangeError(`The reach at ${degree}° must be 0 to ${LARGEST_REACH} m; it is ${radius}.`);
    }
  }
  if (!(accuracy >= 0 && accuracy <= LARGEST_ACCURACY))
    throw new RangeError(
      `The firing point's accuracy must be 0 to ${LARGEST_ACCURACY} m; it is ${accuracy}.`,
    );
}

/**
 * How far the zone reaches, m: `profile[i]` holds from i/4 to (i + 1)/4 degrees clockwise from the bearing. Between two
 * whole degrees of `reach` anything up to the larger of the two may come. Every point within the reach, moved by up to
 * `accuracy` any way, lies within the profile. Throws RangeError on a reach that is not 360 numbers of 0 to 50 km.
 */
export function profileOf(reach: readonly number[], accuracy = 0): Float64Array {
  check(reach, accuracy);
  const between = reach.map((radius, degree) =>
    Math.max(radius, reach[(degree + 1) % DEGREES] as number, LEAST_REACH),
  );
  const profile = new Float64Array(STEPS);
  for (let step = 0; step < STEPS; step++)
    profile[step] = (between[Math.floor(step / STEPS_A_DEGREE)] as number) + accuracy;
  if (accuracy === 0) return profile;
  const least = Math.min(...between) + accuracy;
  for (const [degree, radius] of between.entries()) {
    const first = degree * STEPS_A_DEGREE;
    for (let away = 0; away < STEPS / 2; away++) {
      const moved = reachAside(radius, accuracy, away * STEP);
      // It only falls from here on, and every step reaches this far already.
      if (moved <= least) break;
      for (const step of [first - 1 - away, first + STEPS_A_DEGREE + away]) {
        const at = (step + STEPS) % STEPS;
        profile[at] = Math.max(profile[at] as number, moved);
      }
    }
  }
  return profile;
}

/**
 * How far a line from the origin leaves a disk of radius `accuracy` that is moved along another line of length `reach`,
 * at this angle between the two (radians, 0 to π).
 */
function reachAside(reach: number, accuracy: number, angle: number): number {
  const aside = Math.sin(angle);
  const ahead = Math.cos(angle);
  if (ahead <= 0) return accuracy;
  if (accuracy * ahead < reach * aside) return accuracy / aside;
  return reach * ahead + Math.sqrt(Math.max(0, accuracy * accuracy - reach * reach * aside * aside));
}
