/**
 * A point mass through the air to its first impact on the ground, a plane: gravity, drag ½ρC_dA|v−w|(v−w), lift
 * ½ρC_lA|v−w|² across the relative velocity, wind that grows with height. Frame: x downrange, y up, z to the
 * right of the bearing.
 */
import { WIND_EXPONENT } from "../../earth";
import { DENSE_LENGTH, Dop853, evaluateDense, evaluateDenseAt, MAX_SIZE } from "../numeric/dop853";
import { fallThroughZero } from "../numeric/root";
import { sphereDrag } from "./projectile";
import { windPower } from "./wind-growth";

/** Of a flight's integration: landings agree with far tighter ones to 0.1 mm. */
const ACCURACY = 1e-8;
/** s; the step control takes it from there. */
const FIRST_STEP = 0.4;

export interface Air {
  gravity: number;
  /** kg/m³ */
  density: number;
  /** Pa·s, for the Reynolds number. */
  viscosity: number;
  mass: number;
  diameter: number;
  area: number;
  /** Null takes the curve of a smooth sphere. */
  drag: number | null;
  /**
   * Signed lift coefficient in the plane of the launch: positive lifts a body that starts level, whichever way
   * it goes.
   */
  lift: number;
  /** Lift coefficient across the relative velocity, to the right of the bearing. */
  sideLift: number;
  /** Wind at the anemometer, m/s, where it blows to. */
  windX: number;
  windZ: number;
  anemometerHeight: number;
  /** The landing ground: the plane y = −below − fall·x − cross·z, m and tangents. */
  below: number;
  fall: number;
  cross: number;
}

/** Where and how a projectile strikes. Overwritten by every flight. */
export interface Impact {
  x: number;
  z: number;
  time: number;
  /** Highest point, m above the firing point. */
  apex: number;
  vx: number;
  vy: number;
  vz: number;
}

/** Wind at a height as a multiple of that at the anemometer; 0 without wind. */
export function windGrowthAt(air: Air, height: number): number {
  if (air.windX === 0 && air.windZ === 0) return 0;
  return windPower(height) * anemometerPower(air.anemometerHeight);
}

let anemometer = Number.NaN;
let inverse = 1;

/** What `windPower` is divided by; of the height asked for last it is remembered. */
function anemometerPower(height: number): number {
  if (height !== anemometer) {
    anemometer = height;
    inverse = Math.exp(-WIND_EXPONENT * Math.log(height));
  }
  return inverse;
}

export function dragCoefficientOf(air: Air, speed: number): number {
  return air.drag ?? sphereDrag((air.density * speed * air.diameter) / air.viscosity);
}

export class Flight {
  readonly impact: Impact = { x: 0, z: 0, time: 0, apex: 0, vx: 0, vy: 0, vz: 0 };
  /** When set, receives time, x, y, z, ẋ, ẏ, ż at the points of a path: places and velocities in time. */
  knots: number[] | null = null;
  flown = 0;
  private readonly solver: Dop853;
  private readonly dense = new Float64Array(DENSE_LENGTH);
  private readonly probe = new Float64Array(MAX_SIZE);
  private air!: Air;
  private dragFactor = 0;
  private liftFactor = 0;
  private sideFactor = 0;
  private axisX = 0;
  private axisZ = 1;
  private below = 0;
  private fall = 0;
  private cross = 0;

  constructor(accuracy = ACCURACY) {
    this.solver = new Dop853(accuracy, accuracy);
  }

  /** State in the plane of the throw: 0 x, 1 height above the landing ground, 2 ẋ, 3 ẏ. */
  private readonly planar = (y: Float64Array, dy: Float64Array): void => {
    const { air } = this;
    const vx = y[2] - windGrowthAt(air, y[1]) * air.windX;
    const vy = y[3];
    const speed = Math.sqrt(vx * vx + vy * vy);
    const drag = -this.dragFactor * dragCoefficientOf(air, speed) * speed;
    // Across the relative velocity, upwards for a launch either way.
    const lift = this.liftFactor * this.axisZ * speed;
    dy[0] = y[2];
    dy[1] = y[3] + this.fall * y[2];
    dy[2] = drag * vx - lift * vy;
    dy[3] = drag * vy + lift * vx - air.gravity;
  };

  /** State in space: the planar one, then 4 z, 5 ż. */
  private readonly spatial = (y: Float64Array, dy: Float64Array): void => {
    const { air } = this;
    const growth = windGrowthAt(air, y[1]);
    const vx = y[2] - air.windX * growth;
    const vy = y[3];
    const vz = y[5] - air.windZ * growth;
    const speed = Math.sqrt(vx * vx + vy * vy + vz * vz);
    const drag = -this.dragFactor * dragCoefficientOf(air, speed) * speed;
    // Across the relative velocity, about the level axis that was square to the launch.
    const lift = this.liftFactor * speed;
    dy[0] = y[2];
    dy[1] = y[3] + this.fall * y[2] + this.cross * y[5];
    dy[2] = drag * vx - lift * this.axisZ * vy;
    dy[3] = drag * vy + lift * (this.axisZ * vx - this.axisX * vz) - air.gravity;
    dy[4] = y[5];
    dy[5] = drag * vz + lift * this.axisX * vy;
    const upright = Math.sqrt(vx * vx + vy * vy);
    if (this.sideFactor !== 0 && upright > 1e-9) {
      const side = this.sideFactor * speed;
      dy[2] -= (side * vz * vx) / upright;
      dy[3] -= (side * vz * vy) / upright;
      dy[5] += side * upright;
    }
  };

  /**
   * Flies from (x, y) with the given velocity and fills `impact`. Let go at or below the ground and not rising,
   * the projectile has landed where it is.
   * @param path receives x, y of points along the flight when given
   */
  fly(air: Air, x: number, y: number, vx: number, vy: number, vz = 0, path?: number[]): Impact {
    const { impact } = this;
    this.flown++;
    impact.x = x;
    impact.z = 0;
    impact.time = 0;
    impact.apex = Math.max(0, y);
    impact.vx = vx;
    impact.vy = vy;
    impact.vz = vz;
    if (y <= 0 && vy <= 0) {
      this.knots?.push(0, x, y, 0, vx, vy, vz);
      return impact;
    }
    this.air = air;
    this.dragFactor = (0.5 * air.density * air.area) / air.mass;
    this.liftFactor = this.dragFactor * air.lift;
    this.sideFactor = this.dragFactor * air.sideLift;
    const level = Math.hypot(vx, vz);
    this.axisX = level > 0 ? -vz / level : 0;
    this.axisZ = level > 0 ? vx / level : 1;
    // A hill that rises above the release is not struck from inside: the machine's level ground counts instead.
    const buried = y + air.below + air.fall * x <= 0;
    this.below = buried ? 0 : air.below;
    this.fall = buried ? 0 : air.fall;
    this.cross = buried ? 0 : air.cross;
    const still = this.dragFactor === 0 || (air.drag === 0 && air.lift === 0 && air.sideLift === 0);
    if (still) this.parabola(x, y, vx, vy, vz, path);
    else this.integrate(x, y, vx, vy, vz, path);
    return impact;
  }

  private parabola(x: number, y: number, vx: number, vy: number, vz: number, path?: number[]): void {
    const { impact, fall, cross } = this;
    const { gravity } = this.air;
    const clearance = y + this.below + fall * x;
    const climb = vy + fall * vx + cross * vz;
    const fall2 = climb * climb + 2 * gravity * clearance;
    // Below the ground and too slow to come up: it stays where it is.
    if (fall2 < 0) {
      this.knots?.push(0, x, y, 0, vx, vy, vz);
      return;
    }
    const time = (climb + Math.sqrt(fall2)) / gravity;
    impact.x = x + vx * time;
    impact.z = vz * time;
    impact.time = time;
    impact.vy = vy - gravity * time;
    if (vy > 0) impact.apex = Math.max(impact.apex, y + (vy * vy) / (2 * gravity));
    const { knots } = this;
    for (let i = 0; (path || knots) && i <= 48; i++) {
      const t = (time * i) / 48;
      const height = y + vy * t - 0.5 * gravity * t * t;
      path?.push(x + vx * t, height);
      knots?.push(t, x + vx * t, height, vz * t, vx, vy - gravity * t, vz);
    }
  }

  private integrate(x: number, y: number, vx: number, vy: number, vz: number, path?: number[]): void {
    const { impact, solver, dense, probe, below, fall, cross, knots } = this;
    const state = solver.y;
    const { yEnd } = solver;
    state[0] = x;
    state[1] = y + below + fall * x;
    state[2] = vx;
    state[3] = vy;
    state[4] = 0;
    state[5] = vz;
    const planar = vz === 0 && this.air.windZ === 0 && this.sideFactor === 0;
    // What lies across stays 0 in the plane.
    const size = planar ? 4 : 6;
    for (let i = 0; planar && i < MAX_SIZE; i++) dense[i * MAX_SIZE + 4] = dense[i * MAX_SIZE + 5] = 0;
    if (planar) yEnd[4] = yEnd[5] = 0;
    // Far longer than any throw: an airless ball at the ceiling of a large machine stays up for a minute.
    const longest = 2;
    solver.begin(planar ? this.planar : this.spatial, size, longest, FIRST_STEP);
    let time = 0;
    for (;;) {
      const rising = climbOf(state, fall, cross) > 0;
      solver.attempt(longest);
      const h = solver.stepTaken;
      const tops = state[3] > 0 && yEnd[3] <= 0;
      const climbs = climbOf(yEnd, fall, cross) > 0;
      const falls = rising && !climbs;
      let end = 1;
      if (path || knots || tops || falls || yEnd[1] <= 0) solver.dense(dense, 0);
      if (tops) {
        const top = fallThroughZero((f) => evaluateDenseAt(dense, 0, f, 3), 0, 1);
        impact.apex = Math.max(impact.apex, this.heightAt(top));
      }
      if (falls) {
        const highest = this.highestAt();
        if (evaluateDenseAt(dense, 0, highest, 1) < 0) return;
        if (yEnd[1] <= 0) end = this.landsAt(highest);
      } else if (state[1] > 0 && yEnd[1] <= 0) {
        end = this.landsAt(0);
      }
      for (let i = 0; path && i < 12; i++) {
        path.push(evaluateDenseAt(dense, 0, (end * i) / 12, 0), this.heightAt((end * i) / 12));
      }
      for (let i = 0; knots && i < 12; i++) this.knot(knots, time, (end * i) / 12);
      const struck = end < 1 || yEnd[1] <= 0;
      if (struck && !(rising && climbs)) {
        evaluateDense(dense, 0, end, size, probe);
        impact.x = probe[0];
        impact.z = planar ? 0 : probe[4];
        impact.time = time + end * h;
        impact.vx = probe[2];
        impact.vy = probe[3];
        impact.vz = planar ? 0 : probe[5];
        path?.push(probe[0], this.heightAt(end));
        if (knots) this.knot(knots, time, end);
        return;
      }
      time += h;
      solver.accept();
      if (time > 600) throw new RangeError("the projectile stays in the air for more than ten minutes");
    }
  }

  /** Writes down where the projectile is at a share of the step just flown, which began at `begin`. */
  private knot(knots: number[], begin: number, share: number): void {
    const { dense, solver } = this;
    const at = (i: number) => evaluateDenseAt(dense, 0, share, i);
    knots.push(begin + share * solver.stepTaken, at(0), this.heightAt(share), at(4), at(2), at(3), at(5));
  }

  /** Height above the firing point at a share of the step just flown, m. */
  private heightAt(share: number): number {
    const { dense, below, fall, cross } = this;
    return (
      evaluateDenseAt(dense, 0, share, 1) -
      below -
      fall * evaluateDenseAt(dense, 0, share, 0) -
      cross * evaluateDenseAt(dense, 0, share, 4)
    );
  }

  /** The share of the step just flown at which the projectile is highest above the landing ground. */
  private highestAt(): number {
    const { dense, fall, cross } = this;
    return fallThroughZero(
      (f) =>
        evaluateDenseAt(dense, 0, f, 3) +
        fall * evaluateDenseAt(dense, 0, f, 2) +
        cross * evaluateDenseAt(dense, 0, f, 5),
      0,
      1,
    );
  }

  /** The share of the step just flown, after `from`, at which the projectile lands. */
  private landsAt(from: number): number {
    const { dense } = this;
    return fallThroughZero((f) => evaluateDenseAt(dense, 0, f, 1), from, 1);
  }
}

/** How fast the height above the landing ground grows, m/s. */
const climbOf = (y: Float64Array, fall: number, cross: number) => y[3] + fall * y[2] + cross * y[5];
