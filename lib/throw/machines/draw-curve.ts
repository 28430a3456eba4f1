/** Draw force against draw length: straight lines between measured points, and the work under them. */

export interface DrawPoint {
  /** How far the pouch, string or carriage is drawn from where it rests, m. */
  length: number;
  /** N */
  force: number;
}

/** Neighbouring points lie at least so far apart, m: no scale and no tape tells closer ones apart. */
export const LEAST_STEP = 1e-6;

/**
 * Piecewise linear. A first point beyond length 0 is joined to no force at length 0. Past the last point there is
 * nothing.
 */
export class DrawCurve {
  private readonly lengths: number[] = [];
  private readonly forces: number[] = [];
  /** Work from length 0 to each point, J. */
  private readonly works: number[] = [];

  /**
   * @param points lengths rising from 0
   * @param scale multiplies every force
   */
  constructor(points: readonly DrawPoint[], scale = 1) {
    const all = (points[0]?.length ?? 0) >= LEAST_STEP ? [{ length: 0, force: 0 }, ...points] : points;
    all.forEach(({ length, force }, i) => {
      const scaled = force * scale;
      this.lengths.push(i === 0 ? 0 : length);
      this.forces.push(scaled);
      const mean = 0.5 * (scaled + (this.forces[i - 1] ?? 0));
      this.works.push(i === 0 ? 0 : this.works[i - 1] + mean * (length - this.lengths[i - 1]));
    });
  }

  /** The full draw, m. */
  get length(): number {
    return this.lengths[this.lengths.length - 1];
  }

  /** All the work of drawing, J. */
  get energy(): number {
    return this.works[this.works.length - 1];
  }

  /** Work of drawing from 0 to a length, J. */
  work(length: number): number {
    const { lengths, forces, works } = this;
    let low = 0;
    let high = lengths.length - 1;
    while (high - low > 1) {
      const middle = (low + high) >> 1;
      if (lengths[middle] <= length) low = middle;
      else high = middle;
    }
    const part = Math.min(lengths[high], length) - lengths[low];
    const slope = (forces[high] - forces[low]) / (lengths[high] - lengths[low]);
    return works[low] + part * (forces[low] + 0.5 * slope * part);
  }
}
