/**
 * The highest plane below given points, for a ground that throws may land on: a linear program in three unknowns,
 * height, slope ahead and slope aside, solved by cutting planes. Plane coordinates in metres: x ahead, z to the right.
 */

export interface Support {
  x: number;
  z: number;
  /** m: the plane may not be higher here. */
  height: number;
}

/** height(x, z) = level + ahead·x + aside·z */
export interface Plane {
  level: number;
  ahead: number;
  aside: number;
}

export interface PlaneLimits {
  /** The plane is no higher at the origin, m. */
  level: number;
  ahead: readonly [least: number, most: number];
  /** Either way. */
  aside: number;
}

export interface Aim {
  /** Where the plane is to be high: the mean of x over the area. */
  x: number;
  /** What a slope aside costs, whichever way it falls: the mean of |z| over the area. */
  z: number;
}

/** n · (level, ahead, aside) ≤ most */
interface Cut {
  n: readonly [number, number, number];
  most: number;
}

/** Nearer than this is on the plane, m. */
const CLOSE = 1e-7;
/** A plane through three points has no need of more cuts than this; then the level plane serves. */
const MOST_CUTS = 80;

export const heightOn = ({ level, ahead, aside }: Plane, x: number, z: number) =>
  level + ahead * x + aside * z;

/**
 * Of all planes within the limits that are nowhere above a support, the one whose mean height over the area is the
 * greatest, where ground that falls to one side counts as if it fell to both. There must be a support.
 */
export function highestPlane(supports: readonly Support[], aim: Aim, limits: PlaneLimits): Plane {
  const worth = ({ level, ahead, aside }: Plane) => level + ahead * aim.x - Math.abs(aside) * aim.z;
  const right = onOneSide(supports, aim, limits, 1);
  const left = onOneSide(supports, aim, limits, -1);
  const best = worth(right) >= worth(left) ? right : left;
  return lowered(best, supports, limits);
}

/** A plane with these slopes, as high as the supports let it be. */
export function lowered(
  plane: Plane,
  supports: readonly Support[],
  limits: Pick<PlaneLimits, "level">,
): Plane {
  let level = limits.level;
  for (const { x, z, height } of supports) {
    level = Math.min(level, height - plane.ahead * x - plane.aside * z);
  }
  return { ...plane, level };
}

/** The best plane that rises to the side `sign` (to the right for 1) or not at all. */
function onOneSide(supports: readonly Support[], aim: Aim, limits: PlaneLimits, sign: 1 | -1): Plane {
  const value = ({ level, ahead, aside }: Plane) => level + ahead * aim.x - sign * aside * aim.z;
  const cuts: Cut[] = [
    { n: [1, 0, 0], most: limits.level },
    { n: [0, -1, 0], most: -limits.ahead[0] },
    { n: [0, 1, 0], most: limits.ahead[1] },
    { n: [0, 0, -sign], most: 0 },
    { n: [0, 0, sign], most: limits.aside },
  ];
  let plane: Plane = { level: limits.level, ahead: limits.ahead[aim.x < 0 ? 0 : 1], aside: 0 };
  while (cuts.length < MOST_CUTS) {
    let worst: Support | null = null;
    let excess = CLOSE;
    for (const support of supports) {
      const over = heightOn(plane, support.x, support.z) - support.height;
      if (over > excess) [worst, excess] = [support, over];
    }
    if (!worst) return plane;
    cuts.push({ n: [1, worst.x, worst.z], most: worst.height });
    const next = bestOnLast(cuts, value);
    if (!next) break;
    plane = next;
  }
  return { level: 0, ahead: 0, aside: 0 };
}

/** The best corner of what the cuts leave that lies on the last of them: there the optimum is, once it cut one off. */
function bestOnLast(cuts: readonly Cut[], value: (plane: Plane) => number): Plane | null {
  const last = cuts.at(-1) as Cut;
  let best: Plane | null = null;
  for (let i = 0; i + 1 < cuts.length; i++) {
    for (let j = i + 1; j + 1 < cuts.length; j++) {
      const corner = meeting(cuts[i] as Cut, cuts[j] as Cut, last);
      if (!corner || (best && value(corner) <= value(best))) continue;
      if (cuts.every((cut) => within(cut, corner))) best = corner;
    }
  }
  return best;
}

const within = ({ n, most }: Cut, { level, ahead, aside }: Plane) =>
  n[0] * level + n[1] * ahead + n[2] * aside <= most + CLOSE / 10;

/** Where three cuts meet, by Cramer's rule; null where they meet in no one point. */
function meeting(first: Cut, second: Cut, third: Cut): Plane | null {
  const [a, b, c] = [first.n, second.n, third.n];
  const bc = cross(b, c);
  const determinant = a[0] * bc[0] + a[1] * bc[1] + a[2] * bc[2];
  const size = Math.hypot(...a) * Math.hypot(...bc);
  if (!(Math.abs(determinant) > 1e-12 * size)) return null;
  const ca = cross(c, a);
  const ab = cross(a, b);
  const at = (k: 0 | 1 | 2) => (first.most * bc[k] + second.most * ca[k] + third.most * ab[k]) / determinant;
  return { level: at(0), ahead: at(1), aside: at(2) };
}

function cross(a: Cut["n"], b: Cut["n"]): [number, number, number] {
  return [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
}
