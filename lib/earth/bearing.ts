/** Bearings, apart from the geodesics: pages that only reckon with angles load none of those. */
const RADIANS = Math.PI / 180;

/** A bearing brought into 0 … 360, the latter excluded. */
export function normalBearing(bearing: number): number {
  const turned = bearing % 360;
  // What lies less than rounding below north is north.
  return turned < 0 ? (turned + 360) % 360 : turned + 0;
}

/** Degrees from one bearing to another the shorter way round, clockwise positive: −180 … 180, the latter excluded. */
export function turnOf(from: number, to: number): number {
  return normalBearing(to - from + 180) - 180;
}

/** Degrees from a plane's north of whatever lies so far off on it; 0 for no distance. */
export function planeBearing({ east, north }: { east: number; north: number }): number {
  return normalBearing(Math.atan2(east, north) / RADIANS);
}
