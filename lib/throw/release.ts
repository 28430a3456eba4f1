/** The instants at which a projectile may come free, whatever the machine. */

/** What became of a stop that the machine met: none met yet, it held, it failed. */
export type Stop = "none" | "holds" | "fails";

/** One instant: where the projectile is, how it moves, and how the sling stands. */
export interface Instant {
  /** s from the trigger. */
  time: number;
  step: number;
  /** 0 to 1 within the step. */
  fraction: number;
  segment: number;
  x: number;
  y: number;
  vx: number;
  vy: number;
  /** Angle between the sling and the outward line of the arm, rad, followed continuously; 0 in line. */
  slingAngle: number;
  /** The projectile should have left before: the sling's angle has fallen to −90°, or it hangs in its cup or pouch. */
  hangUp: boolean;
  /** Whether the sling had been slack before. */
  afterSlack: boolean;
  stop: Stop;
  /**
   * Place and speed to the right of the bearing, m and m/s; 0 without them. Only the throw as meant of an arm in a
   * level plane has them.
   */
  z?: number;
  vz?: number;
}

/** All the ways in which a projectile may come free of one exact machine. */
export interface Releases {
  /** In the order of the segments and of time; neighbours of one step lie close to each other. */
  readonly list: readonly Instant[];
  /** The throw as meant; null when there is none. */
  readonly nominal: Instant | null;
  /** Why there is no throw as meant, where the machine itself knows. */
  readonly nominalReason?: string | null;
  /** The instant at another fraction of the step of a known one. */
  near(instant: Instant, fraction: number): Instant;
  /** What each segment is called, for the plot. */
  readonly branches: readonly string[];
  /**
   * Set when every throw may go towards any azimuth with the projectile leaving this far aside of the firing point,
   * m: an arm that spins in a level plane. The list then holds the throws along the bearing and those against it.
   */
  readonly allRound: { aside: number } | null;
}

/** Angle between the velocities of two instants, rad. */
export function turnBetween(a: Instant, b: Instant): number {
  return Math.abs(Math.atan2(a.vx * b.vy - a.vy * b.vx, a.vx * b.vx + a.vy * b.vy));
}
