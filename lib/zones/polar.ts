/**
 * What lies around a place, by azimuth: how near each feature with its stand-off comes on every quarter degree. A zone
 * reaches straight out from its firing point, so it meets a feature if and only if on some azimuth it reaches as far.
 */
import { STEPS } from "./profile";

const TURN = 2 * Math.PI;
const STEP = TURN / STEPS;
/** An azimuth that only touches a disk may miss it by rounding. */
const HAIR = 1e-9;

const SIN = Float64Array.from({ length: STEPS }, (_, step) => Math.sin(step * STEP));
const COS = Float64Array.from({ length: STEPS }, (_, step) => Math.cos(step * STEP));

/**
 * Lowers `profile` to how near the ground within `margin` m of an edge comes to the origin: `profile[i]` is the least
 * distance from i/4 to (i + 1)/4 degrees clockwise from north. That ground is convex, so along its near side the
 * distance falls to the nearest place and rises from there: on each quarter degree one of the ends or that place is
 * the least. Returns false when the origin itself lies within the margin.
 */
export function lowerBy(
  profile: Float64Array,
  ax: number,
  ay: number,
  bx: number,
  by: number,
  margin: number,
): boolean {
  const [dx, dy] = [bx - ax, by - ay];
  const length = Math.hypot(dx, dy);
  const along = length === 0 ? 0 : Math.min(1, Math.max(0, -(ax * dx + ay * dy) / (length * length)));
  const [nx, ny] = [ax + along * dx, ay + along * dy];
  const nearest = Math.hypot(nx, ny);
  if (nearest <= margin) return false;
  const [toA, toB] = [Math.hypot(ax, ay), Math.hypot(bx, by)];
  const azimuthA = Math.atan2(ax, ay);
  const azimuthB = Math.atan2(bx, by);
  const span = azimuthB - azimuthA - TURN * Math.round((azimuthB - azimuthA) / TURN);
  const [halfA, halfB] = [Math.asin(margin / toA), Math.asin(margin / toB)];
  // All azimuths count from that of the first end.
  const low = Math.min(-halfA, span - halfB);
  const high = Math.max(halfA, span + halfB);
  const nearestAt = Math.atan2(nx, ny) - azimuthA;
  const nearestOff = nearestAt - TURN * Math.round(nearestAt / TURN);

  const [powerA, powerB] = [toA * toA - margin * margin, toB * toB - margin * margin];
  const [hairA, hairB] = [-HAIR * toA * toA, -HAIR * toB * toB];
  // The side of that ground which faces the origin: a line square to this direction, so far away.
  const perpendicular = length === 0 ? 0 : (ax * dy - ay * dx) / length;
  const facing = Math.abs(perpendicular) > margin;
  const side = Math.abs(perpendicular) - margin;
  const [ux, uy] = length === 0 ? [0, 0] : [dx / length, dy / length];
  const [px, py] = perpendicular > 0 ? [uy, -ux] : [-uy, ux];

  const distance = (sin: number, cos: number): number => {
    let least = Number.POSITIVE_INFINITY;
    const towardsA = ax * sin + ay * cos;
    const rootA = towardsA * towardsA - powerA;
    if (towardsA > 0 && rootA > hairA) least = towardsA - Math.sqrt(Math.max(0, rootA));
    const towardsB = bx * sin + by * cos;
    const rootB = towardsB * towardsB - powerB;
    if (towardsB > 0 && rootB > hairB) least = Math.min(least, towardsB - Math.sqrt(Math.max(0, rootB)));
    const ahead = px * sin + py * cos;
    if (!facing || ahead <= 0) return least;
    const away = side / ahead;
    const place = (away * sin - ax) * ux + (away * cos - ay) * uy;
    return place >= 0 && place <= length ? Math.min(least, away) : least;
  };

  const first = Math.floor((azimuthA + low) / STEP);
  const last = Math.floor((azimuthA + high) / STEP);
  let before = distance(Math.sin(azimuthA + low), Math.cos(azimuthA + low));
  for (let step = first; step <= last; step++) {
    const at = ((step % STEPS) + STEPS) % STEPS;
    const next = at + 1 === STEPS ? 0 : at + 1;
    const end = step < last ? (step + 1) * STEP - azimuthA : high;
    const after =
      step < last
        ? distance(SIN[next], COS[next])
        : distance(Math.sin(azimuthA + high), Math.cos(azimuthA + high));
    let least = Math.min(before, after);
    if (nearestOff >= Math.max(step * STEP - azimuthA, low) - HAIR && nearestOff <= end + HAIR)
      least = Math.min(least, nearest - margin);
    if (least < profile[at]) profile[at] = least;
    before = after;
  }
  return true;
}
