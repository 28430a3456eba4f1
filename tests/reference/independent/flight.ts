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
  const fastest = Math.max(Math.hypot(from.vx, from.vy), Math.sqrt(GRAVITY / Math.max(k, 1e-9)));
  const h = Math.min(0.04, 0.1 / (k * fastest + 1e-9));
  const state = { ...from };
  const push = (s: Launch, dt: number, out: Launch) => {
    const { x, y, vx, vy } = s;
    const d1 = k * Math.hypot(vx, vy);
    const [ax1, ay1] = [-d1 * vx, -GRAVITY - d1 * vy];
    const [vx2, vy2] = [vx + (dt / 2) * ax1, vy + (dt / 2) * ay1];
    const d2 = k * Math.hypot(vx2, vy2);
    const [ax2, ay2] = [-d2 * vx2, -GRAVITY - d2 * vy2];
    const [vx3, vy3] = [vx + (dt / 2) * ax2, vy + (dt / 2) * ay2];
    const d3 = k * Math.hypot(vx3, vy3);
    const [ax3, ay3] = [-d3 * vx3, -GRAVITY - d3 * vy3];
    const [vx4, vy4] = [vx + dt * ax3, vy + dt * ay3];
    const d4 = k * Math.hypot(vx4, vy4);
    const [ax4, ay4] = [-d4 * vx4, -GRAVITY - d4 * vy4];
    out.x = x + (dt / 6) * (vx + 2 * vx2 + 2 * vx3 + vx4);
    out.y = y + (dt / 6) * (vy + 2 * vy2 + 2 * vy3 + vy4);
    out.vx = vx + (dt / 6) * (ax1 + 2 * ax2 + 2 * ax3 + ax4);
    out.vy = vy + (dt / 6) * (ay1 + 2 * ay2 + 2 * ay3 + ay4);
  };
  // Down through the ground, or past an apex that lies below it.
  const done = (s: Launch) => s.vy <= 0 && s.y <= 0;
  let apex = from.y;
  const next = { ...from };
  for (let time = 0; ; time += h) {
    push(state, h, next);
    if (done(next)) {
      let low = 0;
      let high = h;
      for (let i = 0; i < 50; i++) {
        const middle = (low + high) / 2;
        push(state, middle, next);
        if (done(next)) high = middle;
        else low = middle;
      }
      push(state, high, next);
      return { x: next.x, time: time + high, apex, speed: Math.hypot(next.vx, next.vy) };
    }
    if (state.vy > 0 && next.vy <= 0) {
      // The apex lies inside this step: the parabola through its two ends is near enough for a comparison.
      apex = Math.max(apex, state.y + (state.vy * h) / 2 / (1 - next.vy / state.vy));
    }
    apex = Math.max(apex, next.y);
    Object.assign(state, next);
  }
}
