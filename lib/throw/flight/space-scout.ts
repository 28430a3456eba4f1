/**
 * As scout.ts, in space: for the zone's many flights turned out of the plane of the throw, with wind and lift from
 * any side. Good for about 1e-3 of the distance.
 */
import { type Air, dragCoefficientOf, type Impact, windGrowthAt } from "./flight";
import { hermite, landing, MOST_STEPS, STEPS, STEPS_PER_DECAY } from "./scout";

/** A way over the ground: m from the firing point and m above the landing ground, in the order flown. */
export interface Path {
  distance: Float64Array;
  height: Float64Array;
  count: number;
  /** How far the arc may rise above both ends of a step, m. */
  bulge: number;
}

export class SpaceScout {
  readonly impact: Impact = { x: 0, z: 0, time: 0, apex: 0, vx: 0, vy: 0, vz: 0 };
  flown = 0;
  /** The way of the last flight, where it is recorded. */
  readonly path: Path;
  private ax = 0;
  private ay = 0;
  private az = 0;
  private dragFactor = 0;
  private liftFactor = 0;
  private sideFactor = 0;

  /** Along the level axis that is square to the launch. */
  private axisX = 0;
  private axisZ = 1;

  /** @param recording whether `path` is kept */
  constructor(private readonly recording = false) {
    const room = recording ? MOST_STEPS + 2 : 0;
    this.path = { distance: new Float64Array(room), height: new Float64Array(room), count: 0, bulge: 0 };
  }

  /** As `Flight.fly`; no apex. */
  fly(air: Air, x: number, y: number, vx: number, vy: number, vz: number): Impact {
    const { impact } = this;
    this.flown++;
    impact.x = x;
    impact.z = 0;
    impact.time = 0;
    impact.vx = vx;
    impact.vy = vy;
    impact.vz = vz;
    this.path.count = 0;
    if (y <= 0 && vy <= 0) return impact;
    const buried = y + air.below + air.fall * x <= 0;
    const below = buried ? 0 : air.below;
    const fall = buried ? 0 : air.fall;
    const cross = buried ? 0 : air.cross;
    // From here on y is the height above the landing ground, and the climb how fast it grows.
    y += below + fall * x;
    this.dragFactor = (0.5 * air.density * air.area) / air.mass;
    this.liftFactor = this.dragFactor * air.lift;
    this.sideFactor = this.dragFactor * air.sideLift;
    const level = Math.sqrt(vx * vx + vz * vz);
    this.axisX = level > 0 ? -vz / level : 0;
    this.axisZ = level > 0 ? vx / level : 1;
    const speed = Math.sqrt(level * level + vy * vy);
    let climb = vy + fall * vx + cross * vz;
    const airless = (climb + Math.sqrt(Math.max(0, climb * climb + 2 * air.gravity * y))) / air.gravity;
    const coefficient = Math.max(dragCoefficientOf(air, speed), Math.abs(air.lift), air.sideLift);
    const decay = STEPS_PER_DECAY * this.dragFactor * coefficient;
    const wind = Math.abs(air.windX) + Math.abs(air.windZ);
    const longest = Math.max(airless, 0.05) / STEPS;
    const stiff = decay * (speed + wind) * longest > 1;
    let h = longest;
    let time = 0;
    let z = 0;
    if (this.recording) {
      this.path.bulge = (air.gravity * longest * longest) / 4;
      this.record(x, z, y);
    }
    for (let step = 1; step <= MOST_STEPS; step++) {
      if (stiff) h = Math.min(longest, 1 / (decay * (Math.sqrt(vx * vx + vy * vy + vz * vz) + wind)));
      this.accelerate(air, y, vx, vy, vz);
      const [a1x, a1y, a1z] = [this.ax, this.ay, this.az];
      const v2x = vx + 0.5 * h * a1x;
      const v2y = vy + 0.5 * h * a1y;
      const v2z = vz + 0.5 * h * a1z;
      this.accelerate(air, y + 0.5 * h * climb, v2x, v2y, v2z);
      const [a2x, a2y, a2z] = [this.ax, this.ay, this.az];
      const v3x = vx + 0.5 * h * a2x;
      const v3y = vy + 0.5 * h * a2y;
      const v3z = vz + 0.5 * h * a2z;
      this.accelerate(air, y + 0.5 * h * (v2y + fall * v2x + cross * v2z), v3x, v3y, v3z);
      const [a3x, a3y, a3z] = [this.ax, this.ay, this.az];
      const v4x = vx + h * a3x;
      const v4y = vy + h * a3y;
      const v4z = vz + h * a3z;
      this.accelerate(air, y + h * (v3y + fall * v3x + cross * v3z), v4x, v4y, v4z);
      const nextX = x + (h / 6) * (vx + 2 * v2x + 2 * v3x + v4x);
      const nextZ = z + (h / 6) * (vz + 2 * v2z + 2 * v3z + v4z);
      const risen = (h / 6) * (vy + 2 * v2y + 2 * v3y + v4y);
      const nextY = y + risen + fall * (nextX - x) + cross * (nextZ - z);
      const nextVx = vx + (h / 6) * (a1x + 2 * a2x + 2 * a3x + this.ax);
      const nextVy = vy + (h / 6) * (a1y + 2 * a2y + 2 * a3y + this.ay);
      const nextVz = vz + (h / 6) * (a1z + 2 * a2z + 2 * a3z + this.az);
      const climbNext = nextVy + fall * nextVx + cross * nextVz;
      if (climb > 0 && climbNext <= 0) {
        const top = climb / (climb - climbNext);
        if (hermite(top, h, y, climb, nextY, climbNext) < 0) return impact;
      }
      if (nextY <= 0 && climbNext <= 0) {
        const share = landing(h, y, climb, nextY, climbNext);
        impact.x = hermite(share, h, x, vx, nextX, nextVx);
        impact.z = hermite(share, h, z, vz, nextZ, nextVz);
        impact.time = time + share * h;
        impact.vx = vx + share * (nextVx - vx);
        impact.vy = vy + share * (nextVy - vy);
        impact.vz = vz + share * (nextVz - vz);
        if (this.recording) this.record(impact.x, impact.z, 0);
        return impact;
      }
      time += h;
      x = nextX;
      y = nextY;
      z = nextZ;
      vx = nextVx;
      vy = nextVy;
      vz = nextVz;
      climb = climbNext;
      if (this.recording) this.record(x, z, y);
    }
    throw new RangeError("the projectile does not come down");
  }

  private record(x: number, z: number, y: number): void {
    const { path } = this;
    path.distance[path.count] = Math.sqrt(x * x + z * z);
    path.height[path.count++] = y;
  }

  /** The same forces as `Flight.spatial`. */
  private accelerate(air: Air, y: number, vx: number, vy: number, vz: number): void {
    const growth = windGrowthAt(air, y);
    const wx = vx - air.windX * growth;
    const wz = vz - air.windZ * growth;
    const speed = Math.sqrt(wx * wx + vy * vy + wz * wz);
    const drag = -this.dragFactor * dragCoefficientOf(air, speed) * speed;
    const lift = this.liftFactor * speed;
    this.ax = drag * wx - lift * this.axisZ * vy;
    this.ay = drag * vy + lift * (this.axisZ * wx - this.axisX * wz) - air.gravity;
    this.az = drag * wz + lift * this.axisX * vy;
    if (this.sideFactor === 0) return;
    const upright = Math.sqrt(wx * wx + vy * vy);
    if (upright < 1e-9) return;
    const side = this.sideFactor * speed;
    this.ax -= (side * wz * wx) / upright;
    this.ay -= (side * wz * vy) / upright;
    this.az += side * upright;
  }
}
