/** How far drag moves a body off its airless way within tenths of a second: still air, classical Runge-Kutta steps. */
import type { Air } from "../flight/flight";
import { sphereDrag } from "../flight/projectile";

const STEPS = 12;

/**
 * @param times s from the instant at which it has this velocity, of either sign, in any order
 * @returns x0, y0, x1, y1, …, m
 */
export function dragDisplacements(air: Air, vx: number, vy: number, times: readonly number[]): Float64Array {
  const out = new Float64Array(2 * times.length);
  times.forEach((time, i) => {
    const h = time / STEPS;
    // Place and velocity less those without air.
    let [x, y, u, v] = [0, 0, 0, 0];
    for (let step = 0; step < STEPS; step++) {
      const at = (dt: number, du: number, dv: number) =>
        dragOf(air, vx + u + du, vy - air.gravity * (step * h + dt) + v + dv);
      const [a1, b1] = at(0, 0, 0);
      const [a2, b2] = at(h / 2, (h / 2) * a1, (h / 2) * b1);
      const [a3, b3] = at(h / 2, (h / 2) * a2, (h / 2) * b2);
      const [a4, b4] = at(h, h * a3, h * b3);
      x += h * u + ((h * h) / 6) * (a1 + a2 + a3);
      y += h * v + ((h * h) / 6) * (b1 + b2 + b3);
      u += (h / 6) * (a1 + 2 * a2 + 2 * a3 + a4);
      v += (h / 6) * (b1 + 2 * b2 + 2 * b3 + b4);
    }
    out[2 * i] = x;
    out[2 * i + 1] = y;
  });
  return out;
}

function dragOf(air: Air, vx: number, vy: number): readonly [number, number] {
  const speed = Math.hypot(vx, vy);
  if (air.density === 0 || speed === 0) return [0, 0];
  const coefficient = air.drag ?? sphereDrag((air.density * speed * air.diameter) / air.viscosity);
  const share = (-0.5 * air.density * coefficient * air.area * speed) / air.mass;
  return [share * vx, share * vy];
}
