/**
 * A quick flight in the plane of the throw, to choose between release instants: classical Runge-Kutta of order 4
 * with steps a tenth of the flight or finer where drag acts fast, cubic landing. Good for about 1e-4 of the
 * distance, against 1e-7 of flight.ts, at a tenth of its cost; what is chosen is then flown with that.
 */
import { type Air, dragCoefficientOf, type Impact, windGrowthAt } from "./flight";

export const STEPS = 12;
/** Steps a drag's time constant. */
export const STEPS_PER_DECAY = 5;
export const MOST_STEPS = 4000;

export class Scout {
  readonly impact: Impact = { x: 0, z: 0, time: 0, apex: 0, vx: 0, vy: 0, vz: 0 };
  flown = 0;
  private ax = 0;
  private ay = 0;

  /** As `Flight.fly` in the plane: air without wind or lift across it. */
  fly(air: Air, x: number, y: number, vx: number, vy: number): Impact {
    const { impact } = this;
    this.flown++;
    impact.x = x;
    impact.time = 0;
    impact.apex = Math.max(0, y);
    impact.vx = vx;
    impact.vy = vy;
    if (y <= 0 && vy <= 0) return impact;
    const buried = y + air.below + air.fall * x <= 0;
    const below = buried ? 0 : air.below;
    const fall = buried ? 0 : air.fall;
    // From here on y is the height above the landing ground, and vy + fall·vx how fast it grows.
    y += below + fall * x;
    const factor = (0.5 * air.density * air.area) / air.mass;
    const lift = factor * air.lift * (vx < 0 ? -1 : 1);
    const climb = vy + fall * vx;
    const airless = (climb + Math.sqrt(Math.max(0, climb * climb + 2 * air.gravity * y))) / air.gravity;
    const coefficient = Math.max(dragCoefficientOf(air, Math.hypot(vx, vy)), Math.abs(air.lift));
    const decay = STEPS_PER_DECAY * factor * coefficient;
    const wind = Math.abs(air.windX);
    const longest = Math.max(airless, 0.05) / STEPS;
    const stiff = decay * (Math.hypot(vx, vy) + wind) * longest > 1;
    let h = longest;
    let time = 0;
    for (let step = 1; step <= MOST_STEPS; step++) {
      // A feather is slowed at once and then sinks: its steps may grow again.
      if (stiff) h = Math.min(longest, 1 / (decay * (Math.sqrt(vx * vx + vy * vy) + wind)));
      this.accelerate(air, factor, lift, y, vx, vy);
      const [a1x, a1y] = [this.ax, this.ay];
      const v2x = vx + 0.5 * h * a1x;
      const v2y = vy + 0.5 * h * a1y;
      this.accelerate(air, factor, lift, y + 0.5 * h * (vy + fall * vx), v2x, v2y);
      const [a2x, a2y] = [this.ax, this.ay];
      const v3x = vx + 0.5 * h * a2x;
      const v3y = vy + 0.5 * h * a2y;
      this.accelerate(air, factor, lift, y + 0.5 * h * (v2y + fall * v2x), v3x, v3y);
      const [a3x, a3y] = [this.ax, this.ay];
      const v4x = vx + h * a3x;
      const v4y = vy + h * a3y;
      this.accelerate(air, factor, lift, y + h * (v3y + fall * v3x), v4x, v4y);
      const nextX = x + (h / 6) * (vx + 2 * v2x + 2 * v3x + v4x);
      const risen = (h / 6) * (vy + 2 * v2y + 2 * v3y + v4y);
      const nextY = y + risen + fall * (nextX - x);
      const nextVx = vx + (h / 6) * (a1x + 2 * a2x + 2 * a3x + this.ax);
      const nextVy = vy + (h / 6) * (a1y + 2 * a2y + 2 * a3y + this.ay);
      if (vy > 0 && nextVy <= 0) {
        const top = vy / (vy - nextVy);
        const started = y - below - fall * x;
        impact.apex = Math.max(impact.apex, hermite(top, h, started, vy, started + risen, nextVy));
      }
      const climbs = vy + fall * vx;
      const climbsNext = nextVy + fall * nextVx;
      if (climbs > 0 && climbsNext <= 0) {
        const top = climbs / (climbs - climbsNext);
        if (hermite(top, h, y, climbs, nextY, climbsNext) < 0) return impact;
      }
      if (nextY <= 0 && climbsNext <= 0) {
        const share = landing(h, y, climbs, nextY, climbsNext);
        impact.x = hermite(share, h, x, vx, nextX, nextVx);
        impact.time = time + share * h;
        impact.vx = vx + share * (nextVx - vx);
        impact.vy = vy + share * (nextVy - vy);
        return impact;
      }
      time += h;
      x = nextX;
      y = nextY;
      vx = nextVx;
      vy = nextVy;
    }
    throw new RangeError("the projectile does not come down");
  }

  private accelerate(air: Air, factor: number, lift: number, y: number, vx: number, vy: number): void {
    const wx = air.windX === 0 ? vx : vx - air.windX * windGrowthAt(air, y);
    const speed = Math.sqrt(wx * wx + vy * vy);
    const drag = -factor * dragCoefficientOf(air, speed) * speed;
    this.ax = drag * wx - lift * speed * vy;
    this.ay = drag * vy + lift * speed * wx - air.gravity;
  }
}

/** Cubic through two points and their slopes at the share `s` of a step `h`. */
export function hermite(
  s: number,
  h: number,
  from: number,
  slope: number,
  to: number,
  slopeTo: number,
): number {
  const rest = 1 - s;
  return rest * rest * ((1 + 2 * s) * from + s * h * slope) + s * s * ((3 - 2 * s) * to - rest * h * slopeTo);
}

/** Share of the step at which the height falls to zero for the last time: Newton's steps inside a bracket. */
export function landing(h: number, y: number, vy: number, nextY: number, nextVy: number): number {
  let above = y > 0 ? 0 : vy / (vy - nextVy);
  let below = 1;
  let share = y > 0 && y > nextY ? y / (y - nextY) : 0.5 * (above + below);
  for (let i = 0; i < 40; i++) {
    const height = hermite(share, h, y, vy, nextY, nextVy);
    if (height > 0) above = share;
    else below = share;
    const slope =
      h * vy +
      share *
        (2 * (3 * (nextY - y) - h * (2 * vy + nextVy)) + 3 * share * (h * (vy + nextVy) - 2 * (nextY - y)));
    let next = share - height / slope;
    if (!(next > above && next < below)) next = 0.5 * (above + below);
    if (Math.abs(next - share) < 1e-10) return next;
    share = next;
  }
  return below;
}
