/** A body's places in time: known with their velocities at knots, between them on the cubic that keeps both (Hermite). */

/** Numbers a knot: time, x, y, z, ẋ, ẏ, ż. */
export const KNOT = 7;

/** x downrange, y up, z to the right of the bearing; m and m/s. */
export interface Moving {
  x: number;
  y: number;
  z: number;
  vx: number;
  vy: number;
  vz: number;
}

export class Track {
  readonly begin: number;
  readonly end: number;
  private readonly count: number;

  /** @param knots at least one; times rise */
  constructor(private readonly knots: ArrayLike<number>) {
    this.count = knots.length / KNOT;
    this.begin = knots[0];
    this.end = knots[(this.count - 1) * KNOT];
  }

  /** Before the first knot and after the last one it stands there, with the velocity that it had. */
  at(time: number): Moving {
    const { knots, count } = this;
    if (count === 1 || time <= this.begin) return this.knot(0);
    if (time >= this.end) return this.knot(count - 1);
    let low = 0;
    let high = count - 1;
    while (high - low > 1) {
      const middle = (low + high) >> 1;
      if (knots[middle * KNOT] <= time) low = middle;
      else high = middle;
    }
    const [a, b] = [low * KNOT, high * KNOT];
    const h = knots[b] - knots[a];
    const s = (time - knots[a]) / h;
    const cubic = (i: number) => {
      const [p, q] = [knots[a + i], knots[b + i]];
      const [u, v] = [h * knots[a + 3 + i], h * knots[b + 3 + i]];
      const second = 3 * (q - p) - 2 * u - v;
      const third = 2 * (p - q) + u + v;
      return [p + s * (u + s * (second + s * third)), (u + s * (2 * second + s * 3 * third)) / h];
    };
    const [[x, vx], [y, vy], [z, vz]] = [cubic(1), cubic(2), cubic(3)];
    return { x, y, z, vx, vy, vz };
  }

  /** When it is highest, s: where it stops rising, or at its beginning. */
  highest(): number {
    const { knots, count } = this;
    let top = 0;
    for (let i = 1; i < count; i++) if (knots[i * KNOT + 2] > knots[top * KNOT + 2]) top = i;
    let low = knots[Math.max(0, top - 1) * KNOT];
    let high = knots[Math.min(count - 1, top + 1) * KNOT];
    if (this.at(low).vy <= 0) return low;
    for (let i = 0; i < 60; i++) {
      const middle = (low + high) / 2;
      if (this.at(middle).vy > 0) low = middle;
      else high = middle;
    }
    return low;
  }

  private knot(index: number): Moving {
    const { knots } = this;
    const at = index * KNOT;
    const [x, y, z, vx, vy, vz] = [1, 2, 3, 4, 5, 6].map((i) => knots[at + i]);
    return { x, y, z, vx, vy, vz };
  }
}
