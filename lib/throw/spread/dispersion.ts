/**
 * Where ordinary throws of one machine land: seeded draws within the tolerances and the wind, each let go as meant.
 * Nothing here is a worst case, and nothing here may shrink a zone.
 */
import { moved, nominalAir } from "../case";
import { refusals } from "../check";
import type { HazardRequest } from "../contracts/request";
import { Flight } from "../flight/flight";
import { isSwung, setupOf } from "../setup";
import { Motion } from "../swing/motion";
import { CannotThrow } from "../swing/swing";
import { meantFrame } from "../worst/box";
import { Draws } from "./philox";
import { QuickRelease, type Release } from "./quick-release";
import { Variation } from "./variation";

/** Landing points agree with those of careful throws to 1e-4 of the distance, most to a centimetre. */
const FLIGHT_ACCURACY = 1e-5;

/** What became of a draw. */
export const LANDED = 0;
/** The loop never slips: the projectile hangs up or strikes the ground first. */
export const HELD = 1;
/** Within the tolerances, but no machine: a sling that no longer reaches its trough, an arm that cannot fall. */
export const IMPOSSIBLE = 2;

export interface Spread {
  /** Integer from 0 to 2⁵³. */
  seed: number;
  /** ± of the aim, degrees; 0 without one. */
  aim?: number | undefined;
  /** ± of the wind's direction, degrees; 0 without one. */
  windTurn?: number | undefined;
}

export interface Landings {
  /** x downrange and z to the right of the bearing of each draw, m: x0, z0, x1, z1, …; 0 where nothing landed. */
  points: Float64Array;
  /** LANDED, HELD or IMPOSSIBLE. */
  outcomes: Uint8Array;
}

/**
 * Draws `from` (inclusive) to `to` (exclusive). Each follows from the request, the seed and its own number, so any
 * division into chunks gives the same points.
 */
export function dispersionChunk(
  request: HazardRequest,
  { seed, aim = 0, windTurn = 0 }: Spread,
  from: number,
  to: number,
): Landings {
  const points = new Float64Array(2 * (to - from));
  const outcomes = new Uint8Array(to - from);
  const variation = new Variation(request);
  const random = new Draws(seed);
  const draw = new Float64Array(variation.size);
  const releases = new NominalReleases(request);
  const flight = new Flight(FLIGHT_ACCURACY);
  const air = nominalAir(request);
  const wind = { speed: 0, gust: undefined, direction: 0, ...request.air?.wind };
  const gust = wind.gust ?? wind.speed;
  const radians = Math.PI / 180;
  for (let i = from; i < to; i++) {
    random.fill(i, draw);
    const drawn = variation.requestAt(draw);
    const release = releases.of(drawn);
    if (release === null || release === undefined) {
      outcomes[i - from] = release === null ? HELD : IMPOSSIBLE;
      continue;
    }
    const speed = wind.speed + (0.5 + 0.5 * draw[0]) * (gust - wind.speed);
    const towards = (wind.direction + windTurn * draw[1]) * radians;
    air.windX = speed * Math.cos(towards);
    air.windZ = speed * Math.sin(towards);
    air.mass = drawn.projectile.mass;
    air.diameter = drawn.projectile.diameter;
    air.area = (Math.PI / 4) * air.diameter ** 2;
    const turn = aim * draw[2] * radians;
    const ahead = Math.cos(turn);
    const aside = Math.sin(turn);
    const { x, y, vx, vy, z = 0, vz = 0 } = release;
    const across = vx * aside + vz * ahead;
    const impact = flight.fly(air, x * ahead - z * aside, y, vx * ahead - vz * aside, vy, across);
    points[2 * (i - from)] = impact.x;
    points[2 * (i - from) + 1] = impact.z + x * aside + z * ahead;
  }
  return { points, outcomes };
}

/** The release as meant of machine after machine. */
class NominalReleases {
  private readonly quick: QuickRelease;

  constructor(declared: HazardRequest) {
    this.quick = new QuickRelease(declared);
  }

  /** Null when the loop never slips; undefined for a machine that cannot be. */
  of(request: HazardRequest): Release | null | undefined {
    const motion = isSwung(request.machine) ? new Motion(setupOf(request, meantFrame(request))) : undefined;
    if (refusals(request, motion).length > 0) return undefined;
    try {
      if (motion) return this.quick.of(request, motion);
      return moved(request).releases.nominal;
    } catch (error) {
      if (error instanceof CannotThrow || error instanceof RangeError) return undefined;
      throw error;
    }
  }
}
