/**
 * An adaptive explicit Runge-Kutta integrator of order 8(5,3) with dense output of order 7, for small
 * autonomous systems, without allocation in the loop.
 * Source: E. Hairer, S. P. Nørsett, G. Wanner, Solving Ordinary Differential Equations I, 2nd ed. (1993),
 * sections II.4 (step size control), II.6 and II.10 (the pair and its dense output).
 */
import { denseRows, STAGE_SUMS, stepError } from "./dop853-sums";

/** Writes dy/dt of state `y` into `dy`; both have at least `size` entries. */
export type RightHandSide = (y: Float64Array, dy: Float64Array) => void;

/** Most state variables that a system may have. */
export const MAX_SIZE = 8;
/** Numbers that the dense output of one step takes: y at its start and seven rows. */
export const DENSE_LENGTH = 8 * MAX_SIZE;

const STAGES = 12;
const [SUM_1, SUM_2, SUM_3, SUM_4, SUM_5, SUM_6, SUM_7, SUM_8, SUM_9, SUM_10, SUM_11, SUM_12] = STAGE_SUMS;
const SAFETY = 0.9;
const GROW_MOST = 6;
const SHRINK_MOST = 0.2;

export class Dop853 {
  /** State at the start of the next step. */
  readonly y = new Float64Array(MAX_SIZE);
  /** State at the end of the last accepted step, before `accept`. */
  readonly yEnd = new Float64Array(MAX_SIZE);
  /** Size of the step that `attempt` took last. */
  stepTaken = 0;
  /** Size proposed for the next step. */
  stepNext = 0;
  evaluations = 0;

  /** The slopes of all stages in one array, for the sums. */
  private readonly slopes = new Float64Array(16 * MAX_SIZE);
  private readonly k: Float64Array[] = Array.from({ length: 16 }, (_, s) =>
    this.slopes.subarray(s * MAX_SIZE, (s + 1) * MAX_SIZE),
  );
  private readonly stage = new Float64Array(MAX_SIZE);
  private size = 0;
  private f: RightHandSide = () => {};
  private previousError = 1e-4;

  /**
   * @param relative error tolerance of each component relative to its size
   * @param absolute error tolerance added to it
   */
  constructor(
    readonly relative: number,
    readonly absolute: number,
  ) {}

  /**
   * Begins at the state in `this.y`.
   * @param firstStep a guess that saves the search for one
   */
  begin(f: RightHandSide, size: number, longestStep: number, firstStep?: number): void {
    this.f = f;
    this.size = size;
    this.previousError = 1e-4;
    f(this.y, this.k[0]);
    this.evaluations++;
    this.stepNext = firstStep ?? this.firstStep(longestStep);
  }

  /** Hairer's guess of the first step, II.4. */
  private firstStep(longestStep: number): number {
    const [k0, k1] = [this.k[0], this.k[1]];
    let d0 = 0;
    let d1 = 0;
    for (let i = 0; i < this.size; i++) {
      const scale = this.absolute + this.relative * Math.abs(this.y[i]);
      d0 += (this.y[i] / scale) ** 2;
      d1 += (k0[i] / scale) ** 2;
    }
    let h = d0 < 1e-10 || d1 < 1e-10 ? 1e-6 : 0.01 * Math.sqrt(d0 / d1);
    h = Math.min(h, longestStep);
    for (let i = 0; i < this.size; i++) this.stage[i] = this.y[i] + h * k0[i];
    this.f(this.stage, k1);
    this.evaluations++;
    let d2 = 0;
    for (let i = 0; i < this.size; i++) {
      const scale = this.absolute + this.relative * Math.abs(this.y[i]);
      d2 += ((k1[i] - k0[i]) / scale) ** 2;
    }
    const steepest = Math.max(Math.sqrt(d1), Math.sqrt(d2) / h);
    const h1 = steepest <= 1e-15 ? Math.max(1e-6, h * 1e-3) : (0.01 / steepest) ** (1 / 8);
    return Math.min(100 * h, h1, longestStep);
  }

  /**
   * Takes one step of at most `longest`, shrinking it until the error holds. The result is in `yEnd`; nothing is
   * kept until `accept`.
   * @throws RangeError when no step is small enough or the state is no longer finite
   */
  attempt(longest: number): void {
    let h = Math.min(this.stepNext, longest);
    for (;;) {
      const error = this.tryStep(h);
      if (error <= 1) {
        // SAFETY · error^(0.2·0.04 − 1/8) · previousError^0.04, by logarithms: general powers are slow.
        const growth =
          SAFETY *
          Math.exp((0.2 * 0.04 - 1 / 8) * Math.log(error || 1e-10) + 0.04 * Math.log(this.previousError));
        this.previousError = Math.max(error, 1e-4);
        this.stepTaken = h;
        // A step cut short to end on `longest` says nothing about how far one could have gone.
        const next = h * Math.min(GROW_MOST, Math.max(SHRINK_MOST, growth));
        this.stepNext = h < this.stepNext && next > h ? Math.max(next, this.stepNext) : next;
        return;
      }
      const shrink = Number.isFinite(error) ? SAFETY * error ** (-1 / 8) : SHRINK_MOST;
      h *= Math.max(SHRINK_MOST, Math.min(1, shrink));
      this.stepNext = h;
      // A step that is no number is not small either: it would be tried for ever.
      if (!(h >= 1e-13)) throw new RangeError("the motion changes faster than it can be followed");
    }
  }

  /** Takes exactly this step, whatever its error: for ending on an event found inside a step that held. */
  attemptExactly(h: number): void {
    this.tryStep(h);
    this.stepTaken = h;
  }

  /**
   * Ends the step just attempted at the share `x` of it by its dense output: less exact than `attemptExactly` by one
   * order, and without another step. The next step must be begun anew.
   */
  endAt(dense: Float64Array, x: number): void {
    evaluateDense(dense, 0, x, this.size, this.yEnd);
    this.stepTaken *= x;
  }

  private tryStep(h: number): number {
    const { k, slopes, y, yEnd, stage, size, f } = this;
    // Called by name, not in a loop: each call has one target then, which the compiler can put in its place.
    SUM_1(y, slopes, h, size, stage);
    f(stage, k[1]);
    SUM_2(y, slopes, h, size, stage);
    f(stage, k[2]);
    SUM_3(y, slopes, h, size, stage);
    f(stage, k[3]);
    SUM_4(y, slopes, h, size, stage);
    f(stage, k[4]);
    SUM_5(y, slopes, h, size, stage);
    f(stage, k[5]);
    SUM_6(y, slopes, h, size, stage);
    f(stage, k[6]);
    SUM_7(y, slopes, h, size, stage);
    f(stage, k[7]);
    SUM_8(y, slopes, h, size, stage);
    f(stage, k[8]);
    SUM_9(y, slopes, h, size, stage);
    f(stage, k[9]);
    SUM_10(y, slopes, h, size, stage);
    f(stage, k[10]);
    SUM_11(y, slopes, h, size, stage);
    f(stage, k[11]);
    SUM_12(y, slopes, h, size, yEnd);
    f(yEnd, k[12]);
    this.evaluations += STAGES;
    return stepError(y, yEnd, slopes, h, size, this.relative, this.absolute);
  }

  /** Writes the dense output of the step just attempted to `out[at …]`; `evaluateDense` reads it. */
  dense(out: Float64Array, at: number): void {
    const { k, slopes, y, yEnd, stage, size, f } = this;
    const h = this.stepTaken;
    for (let s = STAGES + 1; s < 16; s++) {
      STAGE_SUMS[s - 1](y, slopes, h, size, stage);
      f(stage, k[s]);
    }
    this.evaluations += 3;
    const [first, last] = [k[0], k[STAGES]];
    for (let i = 0; i < size; i++) {
      const rise = yEnd[i] - y[i];
      out[at + i] = y[i];
      out[at + MAX_SIZE + i] = rise;
      out[at + 2 * MAX_SIZE + i] = h * first[i] - rise;
      out[at + 3 * MAX_SIZE + i] = 2 * rise - h * (last[i] + first[i]);
    }
    denseRows(slopes, h, size, out, at);
  }

  /** Moves on to the end of the step just attempted. */
  accept(): void {
    const { y, yEnd, slopes, size } = this;
    for (let i = 0; i < size; i++) {
      y[i] = yEnd[i];
      slopes[i] = slopes[STAGES * MAX_SIZE + i];
    }
  }
}

/** State at the fraction `x` (0 to 1) of the step whose dense output lies at `dense[at …]`, into `out`. */
export function evaluateDense(
  dense: Float64Array,
  at: number,
  x: number,
  size: number,
  out: Float64Array,
): void {
  const rest = 1 - x;
  for (let i = 0; i < size; i++) out[i] = component(dense, at + i, x, rest);
}

/** One component of `evaluateDense`. */
export function evaluateDenseAt(dense: Float64Array, at: number, x: number, i: number): number {
  return component(dense, at + i, x, 1 - x);
}

function component(dense: Float64Array, a: number, x: number, rest: number): number {
  let sum = dense[a + 7 * MAX_SIZE] * x;
  sum = (sum + dense[a + 6 * MAX_SIZE]) * rest;
  sum = (sum + dense[a + 5 * MAX_SIZE]) * x;
  sum = (sum + dense[a + 4 * MAX_SIZE]) * rest;
  sum = (sum + dense[a + 3 * MAX_SIZE]) * x;
  sum = (sum + dense[a + 2 * MAX_SIZE]) * rest;
  sum = (sum + dense[a + MAX_SIZE]) * x;
  return dense[a] + sum;
}
