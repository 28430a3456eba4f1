/** The recorded swing: every accepted step with its dense output, in segments that fork at an end stop. */
import { DENSE_LENGTH, evaluateDense, MAX_SIZE } from "../numeric/dop853";
import type { Stop } from "../release";
import { type Motion, type Phase, stateSize } from "./motion";

/** Steps `from` (inclusive) to `to` (exclusive) of one way the swing can go. */
export interface Segment {
  stop: Stop;
  from: number;
  to: number;
  /** Why it ended: the projectile struck the ground, the horizon passed, or the arm met its stop. */
  end: "ground" | "horizon" | "stop";
}

/** A recording as plain arrays: what another thread needs to play it. */
export interface TraceRecord {
  dense: Float64Array;
  begins: Float64Array;
  sizes: Float64Array;
  phases: Uint8Array;
  modes: Uint8Array;
}

export class Trace {
  readonly segments: Segment[] = [];
  steps = 0;
  /** When the projectile left the trough for the first time, s; NaN if it never did. */
  liftOff = Number.NaN;
  /** Whether the sling has been slack on any branch, and on the branch being recorded. */
  sawSlack = false;
  slackSoFar = false;
  sawStop = false;

  private dense = new Float64Array(256 * DENSE_LENGTH);
  private begins = new Float64Array(256);
  private sizes = new Float64Array(256);
  private phases = new Uint8Array(256);
  private slack = new Uint8Array(256);
  private modes = new Uint8Array(256);
  private readonly slopes = new Float64Array(MAX_SIZE);
  private readonly state = new Float64Array(MAX_SIZE);

  /** @param record played back with a motion of the same setup; nothing can be said then of slack and lift-off */
  constructor(
    readonly motion: Motion,
    record?: TraceRecord,
  ) {
    if (!record) return;
    Object.assign(this, record);
    this.steps = record.begins.length;
  }

  record(): TraceRecord {
    const { steps } = this;
    return {
      dense: this.dense.slice(0, steps * DENSE_LENGTH),
      begins: this.begins.slice(0, steps),
      sizes: this.sizes.slice(0, steps),
      phases: this.phases.slice(0, steps),
      modes: this.modes.slice(0, steps),
    };
  }

  /** Room for the dense output of the next step; `push` keeps it. */
  slot(): { dense: Float64Array; at: number } {
    if ((this.steps + 1) * DENSE_LENGTH > this.dense.length) this.grow();
    return { dense: this.dense, at: this.steps * DENSE_LENGTH };
  }

  push(begin: number, size: number, phase: Phase): void {
    this.begins[this.steps] = begin;
    this.sizes[this.steps] = size;
    this.phases[this.steps] = phase;
    this.slack[this.steps] = this.slackSoFar ? 1 : 0;
    this.modes[this.steps] = this.motion.mode;
    this.steps++;
  }

  slackNow(): void {
    this.sawSlack = true;
    this.slackSoFar = true;
  }

  private grow(): void {
    const count = 2 * this.begins.length;
    const larger = (from: Float64Array, length: number) => {
      const to = new Float64Array(length);
      to.set(from);
      return to;
    };
    this.dense = larger(this.dense, count * DENSE_LENGTH);
    this.begins = larger(this.begins, count);
    this.sizes = larger(this.sizes, count);
    for (const name of ["phases", "slack", "modes"] as const) {
      const to = new Uint8Array(count);
      to.set(this[name]);
      this[name] = to;
    }
  }

  begin(step: number): number {
    return this.begins[step];
  }

  size(step: number): number {
    return this.sizes[step];
  }

  phase(step: number): Phase {
    return this.phases[step] as Phase;
  }

  /** Whether the sling had been slack before this step. */
  afterSlack(step: number): boolean {
    return this.slack[step] === 1;
  }

  /** State at the fraction `x` of a step. The array is the trace's own: read it before the next call. */
  stateAt(step: number, x: number): Float64Array {
    evaluateDense(this.dense, step * DENSE_LENGTH, x, stateSize(this.phase(step)), this.state);
    return this.state;
  }

  /**
   * The motion with tension, normal force and the frame's acceleration at the fraction `x` of a step, as they were
   * then: with the arm locked or not, the springs and the friction as recorded.
   */
  forcesAt(step: number, x: number): Motion {
    const { motion } = this;
    const y = this.stateAt(step, x);
    motion.mode = this.modes[step];
    motion.evaluate(this.phase(step), y, this.slopes);
    return motion;
  }

  /** How far the frame has rolled, m, and how fast it rolls, m/s, at the fraction `x` of a step. */
  frameAt(step: number, x: number): { x: number; speed: number } {
    return this.motion.frame(this.phase(step), this.stateAt(step, x));
  }

  /** Position and velocity of the projectile over the ground, x, y, ẋ, ẏ, at the fraction `x` of a step. */
  projectileAt(step: number, x: number, out: Float64Array): void {
    this.motion.projectile(this.phase(step), this.stateAt(step, x), out);
  }
}
