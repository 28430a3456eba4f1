/** How far drag, lift and wind move a body off its airless way within tenths of a second: classical Runge-Kutta steps. */
import { type Air, dragCoefficientOf } from "../flight/flight";

const STEPS = 6;

/** The flight's air, its wind along the throw at the height of the release, m/s. */
export type AirWay = Pick<
  Air,
  "gravity" | "density" | "viscosity" | "mass" | "diameter" | "area" | "drag" | "lift" | "windX"
>;

/**
 * @param times s from the instant at which it has this velocity, of either sign, in any order
 * @returns x0, y0, x1, y1, …, m
 */
export function airDisplacements(
  air: AirWay,
  vx: number,
  vy: number,
  times: readonly number[],
): Float64Array {
  const out = new Float64Array(2 * times.length);
  if (air.density === 0) return out;
  const force = new Float64Array(2);
  times.forEach((time, i) => {
    const h = time / STEPS;
    // Place and velocity less those without air.
    let [x, y, u, v] = [0, 0, 0, 0];
    for (let step = 0; step < STEPS; step++) {
      const at = (dt: number, du: number, dv: number) => {
        push(air, vx + u + du, vy - air.gravity * (step * h + dt) + v + dv, force);
        return [force[0] as number, force[1] as number] as const;
      };
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

/** Acceleration by the air: against the relative velocity, and across it, upwards for a lift above 0. */
function push(air: AirWay, vx: number, vy: number, out: Float64Array): void {
  const along = vx - air.windX;
  const speed = Math.hypot(along, vy);
  const share = (0.5 * air.density * air.area * speed) / air.mass;
  const drag = -share * dragCoefficientOf(air as Air, speed);
  const lift = share * air.lift * (vx < 0 ? -1 : 1);
  out[0] = drag * along - lift * vy;
  out[1] = drag * vy + lift * along;
}
