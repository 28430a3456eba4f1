/** Flight of a point mass with a constant drag coefficient in still air, by small fixed Runge-Kutta steps. */
import { GRAVITY } from "./mechanism";

export interface Launch {
  x: number;
  y: number;
  vx: number;
  vy: number;
}

export interface Landing {
  x: number;
  time: number;
  apex: number;
  speed: number;
}

/** Air of the standard atmosphere's gas constant, kg/m³. */
export const airDensity = (temperature: number, pressure: number) => pressure / (287.05287 * temperature);

/** ½·ρ·C_d·A/m, 1/m. */
export const dragPerMass = (density: number, drag: number, diameter: number, mass: number) =>
  (density * drag * Math.PI * diameter ** 2) / 8 / mass;

/**
 * First impact on y = 0. Let go at or below the ground and not rising, it has landed where it is; let go below
 * the ground and rising, it lands where it next comes down to 0, or where it stops rising if that is lower.
 */
export function land(from: Launch, k: number): Landing {
  if (from.y <= 0 && from.vy <= 0) {
    return { x: from.x, time: 0, apex: from.y, speed: Math.hypot(from.vx, from.vy) };
  }
  const speed0 = Math.hypot(from.vx, from.vy);
  const h = Math.min(0.02, 0.1 / (k * Math.max(speed0, Math.sqrt(GRAVITY / Math.max(k, 1e-9))) + 1e-9));
  let state: readonly [number, number, number, number] = [from.x, from.y, from.vx, from.vy];
  const push = (s: typeof state, dt: number): typeof state => {
    const rate = ([, , vx, vy]: typeof state) => {
      const drag = k * Math.hypot(vx, vy);
      return [vx, vy, -drag * vx, -GRAVITY - drag * vy] as const;
    };
    const add = (f: number, r: readonly [number, number, number, number]): typeof state => [
      s[0] + f * r[0],
      s[1] + f * r[1],
      s[2] + f * r[2],
      s[3] + f * r[3],
    ];
    const r1 = rate(s);
    const r2 = rate(add(dt / 2, r1));
    const r3 = rate(add(dt / 2, r2));
    const r4 = rate(add(dt, r3));
    const mean = [0, 1, 2, 3].map((i) => (r1[i] + 2 * r2[i] + 2 * r3[i] + r4[i]) / 6);
    return add(dt, mean as unknown as readonly [number, number, number, number]);
  };
  let apex = from.y;
  for (let time = 0; ; time += h) {
    const next = push(state, h);
    apex = Math.max(apex, next[1]);
    if (next[3] <= 0 && next[1] <= 0) {
      // Down through the ground, or past an apex that lies below it.
      const done = (s: typeof state) => s[3] <= 0 && s[1] <= 0;
      let low = 0;
      let high = h;
      for (let i = 0; i < 60; i++) {
        const middle = (low + high) / 2;
        if (done(push(state, middle))) high = middle;
        else low = middle;
      }
      const end = push(state, high);
      return { x: end[0], time: time + high, apex, speed: Math.hypot(end[2], end[3]) };
    }
    state = next;
  }
}
