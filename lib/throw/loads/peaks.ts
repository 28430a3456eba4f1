/**
 * The largest of several quantities along recorded steps, whatever the sampling: every step is sampled, and the best
 * of each quantity is then refined between its neighbours, in the next step too where it lies at an end.
 */
import type { Trace } from "../swing/trace";

/** Samples a step; the refinement makes the peak, they only have to find the right hump. */
const SAMPLES = 6;
const GOLDEN = (Math.sqrt(5) - 1) / 2;
const REFINEMENTS = 10;

/** Writes every quantity at a fraction of a step. */
export type Measure = (step: number, fraction: number, out: Float64Array) => void;

/** Part of a trace: steps `from` to `to` (exclusive), the last only up to a fraction. */
export interface Stretch {
  from: number;
  to: number;
  /** Fraction of the first step at which it begins and of the last at which it ends. */
  begin: number;
  end: number;
}

export interface Found {
  value: number;
  step: number;
  fraction: number;
}

export class Peaks {
  readonly found: Found[];
  private readonly values: Float64Array;

  constructor(
    private readonly count: number,
    private readonly measure: Measure,
    private readonly samples = SAMPLES,
  ) {
    this.values = new Float64Array(count);
    this.found = Array.from({ length: count }, () => ({
      value: Number.NEGATIVE_INFINITY,
      step: -1,
      fraction: 0,
    }));
  }

  /** Samples a stretch and refines. Several stretches of one trace may be added. */
  add(stretch: Stretch): this {
    const { count, values, found, samples, measure } = this;
    const touched = new Set<number>();
    for (let step = stretch.from; step < stretch.to; step++) {
      const begin = step === stretch.from ? stretch.begin : 0;
      const end = step === stretch.to - 1 ? stretch.end : 1;
      for (let i = 0; i <= samples; i++) {
        const fraction = begin + ((end - begin) * i) / samples;
        measure(step, fraction, values);
        for (let q = 0; q < count; q++) {
          if (!(values[q] > found[q].value)) continue;
          found[q].value = values[q];
          found[q].step = step;
          found[q].fraction = fraction;
          touched.add(q);
        }
      }
    }
    for (const q of touched) this.refine(q, stretch);
    return this;
  }

  private refine(q: number, stretch: Stretch): void {
    const { step, fraction } = this.found[q];
    const begin = step === stretch.from ? stretch.begin : 0;
    const end = step === stretch.to - 1 ? stretch.end : 1;
    const apart = (end - begin) / this.samples;
    this.golden(q, step, Math.max(begin, fraction - apart), Math.min(end, fraction + apart));
    if (fraction >= 1 && step + 1 < stretch.to) {
      this.golden(q, step + 1, 0, (step + 1 === stretch.to - 1 ? stretch.end : 1) / this.samples);
    } else if (fraction <= 0 && step > stretch.from) {
      this.golden(q, step - 1, 1 - 1 / this.samples, 1);
    }
  }

  private golden(q: number, step: number, from: number, to: number): void {
    let [a, b] = [from, to];
    for (let i = 0; i < REFINEMENTS; i++) {
      const left = b - GOLDEN * (b - a);
      const right = a + GOLDEN * (b - a);
      if (this.at(q, step, left) > this.at(q, step, right)) b = right;
      else a = left;
    }
  }

  /** The quantity there, kept when it is the largest. */
  private at(q: number, step: number, fraction: number): number {
    this.measure(step, fraction, this.values);
    const value = this.values[q];
    const found = this.found[q];
    if (value > found.value) {
      found.value = value;
      found.step = step;
      found.fraction = fraction;
    }
    return value;
  }
}

export const timeOf = (trace: Trace, { step, fraction }: Found): number =>
  trace.begin(step) + fraction * trace.size(step);
