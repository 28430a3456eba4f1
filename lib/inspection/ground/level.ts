/**
 * How a machine leans on its ground, and what levels it, from what a levelling staff reads at its feet. Depths are
 * read downwards from the line of sight: the larger, the lower. Degrees. Closed forms.
 */

export const FEET = ["frontLeft", "frontRight", "rearLeft", "rearRight"] as const;
export type Foot = (typeof FEET)[number];

export interface Lean {
  /** Downrange, negative uprange. */
  along: number;
  /** To the right, negative to the left. */
  across: number;
}

export interface Levelled extends Lean {
  /** To lay under each foot so that all stand as high as the highest, m. */
  packing: Record<Foot, number>;
  /** The foot whose reading was left out and follows from the other three. */
  taken: Foot | null;
  /** How far off one plane the four feet stand, m: half the difference of the diagonals' sums. */
  twist: number;
}

const DEGREE = 180 / Math.PI;
const OPPOSITE: Record<Foot, readonly [Foot, Foot, Foot]> = {
  frontLeft: ["frontRight", "rearLeft", "rearRight"],
  frontRight: ["frontLeft", "rearRight", "rearLeft"],
  rearLeft: ["rearRight", "frontLeft", "frontRight"],
  rearRight: ["rearLeft", "frontRight", "frontLeft"],
};

/**
 * @param depths at the feet, m, at least three of them
 * @param base from rear to front feet and from left to right ones, m
 */
export function levelFeet(
  depths: Partial<Record<Foot, number>>,
  base: { length: number; width: number },
): Levelled | null {
  const missing = FEET.filter((foot) => depths[foot] === undefined);
  if (missing.length > 1) return null;
  const [taken = null] = missing;
  const at = { ...depths } as Record<Foot, number>;
  if (taken) {
    const [beside, before, across] = OPPOSITE[taken];
    at[taken] = at[beside] + at[before] - at[across];
  }
  const { frontLeft, frontRight, rearLeft, rearRight } = at;
  const highest = Math.min(frontLeft, frontRight, rearLeft, rearRight);
  const fall = (lower: number, higher: number, over: number) =>
    Math.atan((lower - higher) / 2 / over) * DEGREE;
  return {
    along: fall(frontLeft + frontRight, rearLeft + rearRight, base.length),
    across: fall(frontRight + rearRight, frontLeft + rearLeft, base.width),
    packing: {
      frontLeft: frontLeft - highest,
      frontRight: frontRight - highest,
      rearLeft: rearLeft - highest,
      rearRight: rearRight - highest,
    },
    taken,
    twist: Math.abs(frontLeft + rearRight - frontRight - rearLeft) / 2,
  };
}

/** The same from slopes alone: nothing is known of twist. */
export function levelSlopes({ along, across }: Lean, base: { length: number; width: number }): Levelled {
  const front = base.length * Math.tan(along / DEGREE);
  const right = base.width * Math.tan(across / DEGREE);
  const found = levelFeet(
    { rearLeft: 0, rearRight: right, frontLeft: front, frontRight: front + right },
    base,
  );
  return found as Levelled;
}

/** A slope in percent as an angle. */
export const angleOfShare = (share: number): number => Math.atan(share) * DEGREE;

/**
 * How far to the right a throw lands when its plane leans to the right, m. Drag works along the flight, so without
 * wind and lift the way over the ground is straight: the share of sideways in forward speed at release stays.
 * @param throw_ as meant, from the plane's own foot: m, m/s, degrees
 */
export function sideOfLean(
  throw_: { distance: number; releaseX: number; releaseHeight: number; launchAngle: number },
  across: number,
): number {
  const lean = Math.sin(across / DEGREE);
  const { distance, releaseX, releaseHeight, launchAngle } = throw_;
  return lean * (releaseHeight + Math.tan(launchAngle / DEGREE) * (distance - releaseX));
}
