import { GRAVITY as g } from "./mechanism";

const morrison = (Re: number) =>
  24 / Re +
  (2.6 * (Re / 5)) / (1 + (Re / 5) ** 1.52) +
  (0.411 * (Re / 2.63e5) ** -7.94) / (1 + (Re / 2.63e5) ** -8) +
  (0.25 * (Re / 1e6)) / (1 + Re / 1e6);
const mu = (1.458e-6 * 288.15 ** 1.5) / (288.15 + 110.4);
function range(m: number, d: number, v0: number, angle: number, cd: (v: number) => number, h = 0) {
  let x = 0,
    y = h,
    vx = v0 * Math.cos(angle),
    vy = v0 * Math.sin(angle);
  const A = (Math.PI * d * d) / 4,
    dt = 1e-4;
  while (true) {
    const ac = (vx: number, vy: number) => {
      const v = Math.hypot(vx, vy),
        k = (0.5 * 1.225 * cd(v) * A) / m;
      return [-k * v * vx, -g - k * v * vy];
    };
    const [a, b] = ac(vx, vy);
    const [c, e] = ac(vx + (a * dt) / 2, vy + (b * dt) / 2);
    const nx = x + dt * (vx + (a * dt) / 2),
      ny = y + dt * (vy + (b * dt) / 2);
    if (ny < 0) return x + ((nx - x) * y) / (y - ny);
    x = nx;
    y = ny;
    vx += c * dt;
    vy += e * dt;
  }
}
for (const Re of [1, 10, 100, 1e3, 1e4, 1e5, 2e5, 3e5, 5e5, 7e5, 1e6]) console.log(Re, morrison(Re));
for (const m of [2, 4, 5.4, 7.26])
  for (const a of [35, 40, 45]) {
    const A = (a * Math.PI) / 180;
    const r1 = range(m, 0.2, 50, A, () => 0.47),
      r2 = range(m, 0.2, 50, A, () => 0.09),
      r3 = range(m, 0.2, 50, A, (v) => morrison((1.225 * v * 0.2) / mu));
    console.log(
      m,
      a,
      r1.toFixed(1),
      r2.toFixed(1),
      r3.toFixed(1),
      (r2 / r1).toFixed(3),
      (r3 / r1).toFixed(3),
    );
  }
