/**
 * What barriers stop, by azimuth. A throw counts as stopped only where its whole path, stretched by the policy's
 * margin, and its bounce behind the first impact stay lower than the barrier, on every line from the firing point
 * within a degree and a half of its azimuth: so neither the ends of a barrier nor a drift of the wind are counted on.
 * A machine that stands a little elsewhere sees every part of it so much nearer or farther, and turned by the angle
 * under which the barrier sees that: a steep throw that fell before it may then pass high over it.
 */
import type { Barrier } from "../contracts/barrier";
import type { Path } from "../flight/space-scout";

const DEGREES = 360;
const RADIAN = 180 / Math.PI;
/** How far to either side of an azimuth a barrier must stand to count there, in half degrees. */
const AROUND = 3;
/** Below its top by this much nothing is counted as stopped, m: the size of a projectile, and the sag of a net. */
const BELOW_TOP = 0.5;
/** Right beside a corner, degrees. */
const BESIDE = 1e-6;

/** One barrier as seen from the firing point. */
interface Seen {
  /** Height of its top, less what a projectile needs, m. */
  top: number;
  /** Distance of its nearest part on every half degree, m; infinite where it does not stand. */
  at: Float64Array;
  /** The same right beside its corners: between them and the half degrees the distance only rises or falls. */
  corners: { azimuth: number; distance: number }[];
  /** m that the machine may stand elsewhere, and half degrees by which that turns the barrier at most. */
  accuracy: number;
  turn: number;
}

export class Barriers {
  private readonly seen: Seen[];

  constructor(barriers: readonly Barrier[]) {
    this.seen = barriers.map(({ height, line, accuracy }): Seen => {
      const nearest = (azimuth: number) =>
        line.slice(1).reduce((least, to, i) => Math.min(least, crossing(azimuth, line[i], to)), Infinity);
      return {
        top: height - BELOW_TOP,
        accuracy,
        turn: Math.ceil(2 * RADIAN * Math.asin(Math.min(1, accuracy / nearestOf(line)))),
        at: Float64Array.from({ length: 2 * DEGREES }, (_, half) => nearest(half / 2)),
        corners: line.flatMap(({ downrange, aside }) =>
          [-BESIDE, BESIDE].map((off) => {
            const azimuth = Math.atan2(aside, downrange) * RADIAN + off;
            return { azimuth, distance: nearest(azimuth) };
          }),
        ),
      };
    });
  }

  /**
   * How far from the firing point a throw is stopped, m; infinite where nothing stops it.
   * @param azimuth whole degrees clockwise from the bearing, along which the path is taken to lie
   * @param stretch what path and first impact are multiplied by, its height like its length
   * @param hop m above the ground that it rises after its first impact
   */
  stops(azimuth: number, path: Path, stretch: number, hop: number): number {
    let stopped = Number.POSITIVE_INFINITY;
    for (const { top, at, corners, accuracy, turn } of this.seen) {
      const around = AROUND + turn;
      let nearest = Number.POSITIVE_INFINITY;
      let farthest = 0;
      for (let off = -around; off <= around; off++) {
        const distance = at[(2 * azimuth + off + 4 * DEGREES) % (2 * DEGREES)];
        nearest = Math.min(nearest, distance);
        farthest = Math.max(farthest, distance);
      }
      for (const corner of corners) {
        const off = ((((corner.azimuth - azimuth) % DEGREES) + 1.5 * DEGREES) % DEGREES) - DEGREES / 2;
        // A corner at the very end of the window may lie a hair beyond the barrier.
        if (Math.abs(off) > around / 2 || corner.distance === Number.POSITIVE_INFINITY) continue;
        nearest = Math.min(nearest, corner.distance);
        farthest = Math.max(farthest, corner.distance);
      }
      if (!(farthest < stopped) || nearest <= accuracy) continue;
      if (highestBetween(path, nearest - accuracy, farthest + accuracy, stretch, hop) <= top)
        stopped = farthest;
    }
    return stopped;
  }
}

/** Where one throw is stopped, m from the firing point, by the whole degree to which aim and lean turn it. */
export class Stops {
  private readonly known = new Float64Array(DEGREES).fill(Number.NaN);
  private readonly path: Path;

  constructor(
    private readonly barriers: Barriers,
    { distance, height, count, bulge }: Path,
    private readonly stretch: number,
    private readonly hop: number,
  ) {
    this.path = { distance: distance.slice(0, count), height: height.slice(0, count), count, bulge };
  }

  at(degree: number): number {
    const { known } = this;
    if (Number.isNaN(known[degree])) {
      known[degree] = this.barriers.stops(degree, this.path, this.stretch, this.hop);
    }
    return known[degree];
  }
}

/** A zone behind barriers: every throw turned to all azimuths that aim and lean allow, and cut where it is stopped. */
export class BarredZone {
  readonly reach = new Float64Array(DEGREES);
  private readonly barriers: Barriers;

  /** @param turn degrees by which aim and lean turn a throw either way */
  constructor(
    barriers: readonly Barrier[],
    private readonly turn: number,
  ) {
    this.barriers = new Barriers(barriers);
  }

  stopsOf(path: Path, stretch: number, hop: number): Stops {
    return new Stops(this.barriers, path, stretch, hop);
  }

  /**
   * @param degree to which something comes before aim and lean turn it, and as far on the other side of the bearing
   * @param stops of the throws between whose landings it lies; none for what no barrier stops
   */
  raise(degree: number, reach: number, ...stops: readonly Stops[]): void {
    for (const side of [degree, DEGREES - degree]) {
      for (let off = -this.turn; off <= this.turn; off++) {
        const at = (side + off + 2 * DEGREES) % DEGREES;
        if (reach <= this.reach[at]) continue;
        const stopped = stops.length > 0 ? Math.max(...stops.map((each) => each.at(at))) : reach;
        this.reach[at] = Math.max(this.reach[at], Math.min(reach, stopped));
      }
    }
  }
}

type Foot = Barrier["line"][number];

/** Distance of the nearest place of a barrier, m. */
function nearestOf(line: readonly Foot[]): number {
  return line.slice(1).reduce((least, to, i) => {
    const from = line[i];
    const [dx, dz] = [to.downrange - from.downrange, to.aside - from.aside];
    const squared = dx * dx + dz * dz;
    const share = squared === 0 ? 0 : -(from.downrange * dx + from.aside * dz) / squared;
    const t = Math.min(1, Math.max(0, share));
    return Math.min(least, Math.hypot(from.downrange + t * dx, from.aside + t * dz));
  }, Number.POSITIVE_INFINITY);
}

/** Where the line at an azimuth meets a stretch of a barrier, m from the firing point; infinite where it does not. */
function crossing(azimuth: number, from: Foot, to: Foot): number {
  const [ux, uz] = [Math.cos(azimuth / RADIAN), Math.sin(azimuth / RADIAN)];
  const [dx, dz] = [to.downrange - from.downrange, to.aside - from.aside];
  const across = ux * dz - uz * dx;
  if (Math.abs(across) < 1e-12) return Number.POSITIVE_INFINITY;
  const along = (from.downrange * dz - from.aside * dx) / across;
  const share = (from.downrange * uz - from.aside * ux) / across;
  return along > 0 && share >= 0 && share <= 1 ? along : Number.POSITIVE_INFINITY;
}

/**
 * The highest that a stretched path is between two distances, m; beyond its end the hop counts. Infinite where it does
 * not pass all of that: what starts behind a part of a barrier is not stopped by it.
 */
function highestBetween(
  { distance, height, count, bulge }: Path,
  nearest: number,
  farthest: number,
  stretch: number,
  hop: number,
): number {
  const [near, far] = [nearest / stretch, farthest / stretch];
  const end = distance[count - 1];
  let start = end;
  let highest = far >= end ? stretch * hop : Number.NEGATIVE_INFINITY;
  for (let i = 1; i < count; i++) {
    const [from, to] = [distance[i - 1], distance[i]];
    const [low, high] = [Math.min(from, to), Math.max(from, to)];
    start = Math.min(start, low);
    if (high < near || low > far) continue;
    for (const at of [Math.max(low, near), Math.min(high, far)]) {
      const share = to === from ? 0.5 : (at - from) / (to - from);
      const chord = height[i - 1] + share * (height[i] - height[i - 1]);
      highest = Math.max(highest, stretch * (chord + bulge));
    }
  }
  return near < start || highest === Number.NEGATIVE_INFINITY ? Number.POSITIVE_INFINITY : highest;
}
