/**
 * The reach by azimuth from its causes, flown in space from every release instant: written from the text alone but
 * for the numbers of the ground, which are the product's own common practice (firm turf).
 */
import type { HazardRequest } from "@/lib/throw";
import { airsOf, type Load, type Machine, runsOf } from "./exact";
import { type QuickAir, windAt } from "./flight";
import { STRIDE } from "./swing";

export interface SpaceWind {
  /** Of the air along the bearing and to its right, as shares of the gust. */
  along: number;
  across: number;
  /** Lift: in the plane of the velocity and the vertical, and square to it, as shares of the coefficient. */
  up: number;
  aside: number;
}

export interface Landing {
  /** Degrees clockwise from the bearing. */
  azimuth: number;
  distance: number;
  reach: number;
}

const RADIAN = Math.PI / 180;
const STEPS = 40;

type Vector = [number, number, number, number, number, number];

/** x, y, z and their rates where it first meets the level ground. */
export function flySpace(air: QuickAir, wind: SpaceWind, from: Vector): Vector {
  const { gravity, drag, lift } = air;
  if (from[1] <= 0 && from[4] <= 0) return from;
  const rate = (s: Vector): Vector => {
    const gust = windAt(air, s[1]);
    const u = s[3] - gust * wind.along;
    const w = s[5] - gust * wind.across;
    const v = s[4];
    const speed = Math.hypot(u, v, w) || 1e-12;
    const level = Math.hypot(u, w) || 1e-12;
    // Unit vectors square to the velocity: one level, the other in its upright plane.
    const [ax, az] = [-w / level, u / level];
    const [bx, by, bz] = [(-u * v) / (level * speed), level / speed, (-w * v) / (level * speed)];
    const k = lift * speed * speed;
    return [
      s[3],
      s[4],
      s[5],
      -drag * speed * u + k * (wind.up * bx + wind.aside * ax),
      -gravity - drag * speed * v + k * wind.up * by,
      -drag * speed * w + k * (wind.up * bz + wind.aside * az),
    ];
  };
  const fall = (from[4] + Math.sqrt(from[4] ** 2 + 2 * gravity * Math.max(0, from[1]))) / gravity;
  const h = fall / STEPS;
  const plus = (s: Vector, d: Vector, by: number) => s.map((value, i) => value + by * d[i]) as Vector;
  const stepOf = (s: Vector, dt: number): Vector => {
    const a = rate(s);
    const b = rate(plus(s, a, dt / 2));
    const c = rate(plus(s, b, dt / 2));
    const d = rate(plus(s, c, dt));
    return s.map((value, i) => value + (dt / 6) * (a[i] + 2 * (b[i] + c[i]) + d[i])) as Vector;
  };
  let s = from;
  for (let n = 0; n < 100 * STEPS; n++) {
    const next = stepOf(s, h);
    if (next[1] <= 0 && next[4] <= 0) {
      let low = 0;
      let high = h;
      for (let i = 0; i < 30; i++) {
        const middle = (low + high) / 2;
        if (stepOf(s, middle)[1] <= 0) high = middle;
        else low = middle;
      }
      return stepOf(s, high);
    }
    s = next;
  }
  throw new Error("The flight does not come down.");
}

/**
 * Firm turf: a quarter of the fall and 0.6 of the way is kept at every bounce over 5 cm, then 0.3 g of rolling. The
 * last hop counts by the share of a bounce that it is, summed in whole bounces and the rest.
 */
function runOut(level: number, down: number, gravity: number): number {
  let along = 0.6 * level;
  let up = 0.25 * Math.abs(down);
  let distance = 0;
  for (; up >= 4; up *= 0.25, along *= 0.6) distance += (2 * up * along) / gravity;
  if (up > 1) {
    const part = Math.log(up) / Math.log(4);
    const kept = 0.6 ** part;
    distance += ((2 * along) / gravity) * ((up - kept) / (1 - 0.25 * 0.6));
    along *= kept;
  }
  return distance + along ** 2 / (0.6 * gravity);
}

/** Every landing of a machine: each instant turned out of plane by a torn sling, in each of the winds. */
export function landingsOf(
  machine: Machine,
  load: Load,
  request: HazardRequest,
  winds: readonly SpaceWind[],
  margin: number,
  torn: readonly number[],
  every: number,
): Landing[] {
  const [air] = airsOf(request, load).forward;
  const out: Landing[] = [];
  for (const { samples, count } of runsOf(machine, load.mass, request)) {
    for (let i = 0; i < count; i += every) {
      const [, x, y, vx, vy] = samples.subarray(i * STRIDE, i * STRIDE + 5);
      const speed = Math.hypot(vx, vy);
      for (const degrees of torn) {
        const cos = Math.cos(degrees * RADIAN);
        const sin = Math.sin(degrees * RADIAN);
        for (const wind of winds) {
          const end = flySpace(air, wind, [x, y, 0, vx * cos, vy * cos, speed * sin]);
          const distance = Math.hypot(end[0], end[2]);
          const azimuth = (Math.atan2(end[2], end[0]) / RADIAN + 360) % 360;
          const reach = margin * distance + runOut(Math.hypot(end[3], end[5]), end[4], air.gravity);
          out.push({ azimuth, distance, reach });
        }
      }
    }
  }
  return out;
}
