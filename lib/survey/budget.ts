/**
 * Where the uncertainty of a point comes from. Every independent source of error moves the point by a vector, its
 * standard uncertainty times the sensitivity (JCGM 100:2008, 5.1.3: cᵢ·u(xᵢ)); the covariance is the sum of their
 * products. Sources keep their names, because two points may share one: what two points owe to the same peg moves both
 * alike and cancels between them (JCGM 100:2008, 5.2, and F.1.2.3 on common effects).
 */

/** [east-east, east-north, north-north], m². */
export type Covariance = [number, number, number];

export interface Contribution {
  /** A shared source has one name in all fixes of a site; another's is its own fix's alone. */
  source: string;
  shared: boolean;
  /** By which one standard uncertainty of the source moves the point, m. */
  east: number;
  north: number;
}

export type Budget = readonly Contribution[];

export const own = (source: string, east: number, north: number): Contribution => ({
  source,
  shared: false,
  east,
  north,
});

/** Contributions of the same source added up, in the order of their first; what has cancelled is left out. */
export function merged(...budgets: Budget[]): Contribution[] {
  const bySource = new Map<string, Contribution>();
  for (const each of budgets.flat()) {
    const known = bySource.get(each.source);
    bySource.set(
      each.source,
      known ? { ...known, east: known.east + each.east, north: known.north + each.north } : each,
    );
  }
  return [...bySource.values()].filter(({ east, north }) => east !== 0 || north !== 0);
}

/** The budget of a point as seen from another. */
export function relativeTo(point: Budget, origin: Budget): Contribution[] {
  return merged(
    point,
    origin.map((each) => ({ ...each, east: -each.east, north: -each.north })),
  );
}

export function covarianceOf(budget: Budget): Covariance {
  const sum: Covariance = [0, 0, 0];
  for (const { east, north } of merged(budget)) {
    sum[0] += east * east;
    sum[1] += east * north;
    sum[2] += north * north;
  }
  return sum;
}

/** Standard uncertainty along a direction, m; east and north of a unit vector. */
export function along(budget: Budget, east: number, north: number): number {
  return Math.hypot(...merged(budget).map((each) => each.east * east + each.north * north));
}

/** A budget moved by a linear map, given by its rows. */
export function mapped(budget: Budget, [toEast, toNorth]: readonly [Pair, Pair]): Contribution[] {
  return budget.map((each) => ({
    ...each,
    east: toEast[0] * each.east + toEast[1] * each.north,
    north: toNorth[0] * each.east + toNorth[1] * each.north,
  }));
}

export type Pair = readonly [number, number];
