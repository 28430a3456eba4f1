/** Flight in the plane of the throw by a few dozen Runge-Kutta steps: wind by height, lift of one sign, falling ground. */

export interface QuickAir {
  gravity: number;
  /** ½·ρ·A/m times the drag and the lift coefficient, 1/m. */
  drag: number;
  lift: number;
  /** Along the bearing, m/s at the anemometer. */
  wind: number;
  anemometer: number;
  /** The ground is y = −below − x·fall. */
  below: number;
  fall: number;
}

/** Wind below this height is that at it, m. */
const LEVEL_WIND = 2;
const STEPS = 32;

/** Seventh roots of heights up to 1 km, every quarter metre: straight lines between them err by 1e-4 at most. */
const PER_METRE = 4;
const ROOTS = Float64Array.from({ length: 1000 * PER_METRE + 2 }, (_, i) => (i / PER_METRE) ** (1 / 7));

export function windAt(air: QuickAir, height: number): number {
  if (air.wind === 0) return 0;
  const at = Math.min(1000, Math.max(LEVEL_WIND, height)) * PER_METRE;
  const i = Math.floor(at);
  const root = ROOTS[i] + (at - i) * (ROOTS[i + 1] - ROOTS[i]);
  return (air.wind * root) / air.anemometer ** (1 / 7);
}

/** Time until a throw without air meets the ground; 0 when it has landed already. */
export function airlessTime(air: QuickAir, x: number, y: number, vx: number, vy: number): number {
  const clearance = y + air.below + air.fall * x;
  const rise = vy + air.fall * vx;
  if (clearance <= 0 && rise <= 0) return 0;
  return (rise + Math.sqrt(Math.max(0, rise * rise + 2 * air.gravity * clearance))) / air.gravity;
}

/** x of the first impact. */
export function landsAt(air: QuickAir, x0: number, y0: number, vx0: number, vy0: number): number {
  const time = airlessTime(air, x0, y0, vx0, vy0);
  if (time === 0) return x0;
  const { gravity, drag, lift, below, fall } = air;
  if (drag === 0 && lift === 0) return x0 + vx0 * time;
  const h = time / STEPS;
  // The wind is given by height above the ground that lies below.
  const over = (x: number, y: number) => y + below + fall * x;
  let [x, y, u, v] = [x0, y0, vx0, vy0];
  for (let i = 0; i < 100 * STEPS; i++) {
    const w1 = u - windAt(air, over(x, y));
    const s1 = Math.hypot(w1, v);
    const a1 = -drag * s1 * w1 - lift * s1 * v;
    const b1 = -gravity - drag * s1 * v + lift * s1 * w1;
    const u2 = u + (h / 2) * a1;
    const v2 = v + (h / 2) * b1;
    const w2 = u2 - windAt(air, over(x + (h / 2) * u, y + (h / 2) * v));
    const s2 = Math.hypot(w2, v2);
    const a2 = -drag * s2 * w2 - lift * s2 * v2;
    const b2 = -gravity - drag * s2 * v2 + lift * s2 * w2;
    const u3 = u + (h / 2) * a2;
    const v3 = v + (h / 2) * b2;
    const w3 = u3 - windAt(air, over(x + (h / 2) * u2, y + (h / 2) * v2));
    const s3 = Math.hypot(w3, v3);
    const a3 = -drag * s3 * w3 - lift * s3 * v3;
    const b3 = -gravity - drag * s3 * v3 + lift * s3 * w3;
    const u4 = u + h * a3;
    const v4 = v + h * b3;
    const w4 = u4 - windAt(air, over(x + h * u3, y + h * v3));
    const s4 = Math.hypot(w4, v4);
    const a4 = -drag * s4 * w4 - lift * s4 * v4;
    const b4 = -gravity - drag * s4 * v4 + lift * s4 * w4;
    const x1 = x + (h / 6) * (u + 2 * (u2 + u3) + u4);
    const y1 = y + (h / 6) * (v + 2 * (v2 + v3) + v4);
    const un = u + (h / 6) * (a1 + 2 * (a2 + a3) + a4);
    const vn = v + (h / 6) * (b1 + 2 * (b2 + b3) + b4);
    const gap = y1 + below + fall * x1;
    if (gap <= 0 && vn + fall * un <= 0) {
      // Where in the step: cubics through both ends of it.
      let low = 0;
      let high = 1;
      for (let k = 0; k < 40; k++) {
        const m = (low + high) / 2;
        const under = cubic(m, h, y, v, y1, vn) + below + fall * cubic(m, h, x, u, x1, un) <= 0;
        if (under) high = m;
        else low = m;
      }
      return cubic(high, h, x, u, x1, un);
    }
    [x, y, u, v] = [x1, y1, un, vn];
  }
  throw new Error("The flight does not come down.");
}

/** Hermite's cubic at a fraction of a step. */
export function cubic(at: number, h: number, p0: number, d0: number, p1: number, d1: number): number {
  const b = 1 - at;
  return b * b * ((1 + 2 * at) * p0 + at * h * d0) + at * at * ((1 + 2 * b) * p1 - b * h * d1);
}
