/**
 * A machine that swings on with nothing in its sling: after the loop has slipped, after the sling has torn, or from
 * the trigger (dry fire). The same equations of motion as the throw; a loose projectile that flies off does nothing.
 */
import { Dop853, evaluateDense, MAX_SIZE } from "../numeric/dop853";
import { fallThroughZero } from "../numeric/root";
import { stopGap } from "../swing/carrier";
import { LOOSE, type Motion, type Phase, stateSize } from "../swing/motion";
import { Trace } from "../swing/trace";

const ACCURACY = 1e-8;
const MOST_STEPS = 5000;
/** As the swing: no event hides between two probes of a step. */
const LONGEST = 0.08;
const PROBES = 4;
/** What loses its load this near the stop meets it at once, rad or m. */
const AT_STOP = 1e-9;

/** Where it meets its stop. */
export interface Arrival {
  /** s from the trigger. */
  time: number;
  /** Kinetic energy of all that moves, J. */
  energy: number;
  /** Of the arm, rad/s. */
  rate: number;
  step: number;
}

export interface Unloaded {
  /** When it lost its load, s from the trigger. */
  since: number;
  /** One segment, up to the stop or the end of time. Reused by the next run unless it was made for this one. */
  trace: Trace;
  arrival: Arrival | null;
}

/** Kinetic energy of the machine without its projectile, J. */
export function kineticEnergy(motion: Motion, phase: Phase, y: Float64Array): number {
  const { mass } = motion.setup;
  const still = y.slice();
  for (let i = 1; i < still.length; i += 2) still[i] = 0;
  const ball = new Float64Array(4);
  motion.projectile(phase, y, ball);
  const own = 0.5 * mass * (ball[2] * ball[2] + ball[3] * ball[3]);
  return Math.max(0, motion.energy(phase, y) - motion.energy(phase, still) - own);
}

/** Energy of the machine without its projectile, J, from an arbitrary level. */
export function machineEnergy(motion: Motion, phase: Phase, y: Float64Array): number {
  const ball = new Float64Array(4);
  motion.projectile(phase, y, ball);
  const { mass, gravity } = motion.setup;
  const own = 0.5 * (ball[2] * ball[2] + ball[3] * ball[3]) + gravity * ball[1];
  return motion.energy(phase, y) - mass * own;
}

export class UnloadedSwing {
  private readonly solver = new Dop853(ACCURACY, ACCURACY);
  private readonly probe = new Float64Array(MAX_SIZE);
  private readonly ball = new Float64Array(4);
  private spare: Trace | null = null;

  constructor(
    private readonly motion: Motion,
    private readonly until: number,
  ) {}

  /**
   * Follows the machine from a state of its swing until it meets its stop, or to the horizon.
   * @param mode of the motion at that state
   * @param keep whether the recorded run must outlive the next one
   */
  run(phase: Phase, from: Float64Array, mode: number, since: number, keep = false): Unloaded {
    const { solver, motion, probe } = this;
    const trace = this.blank(keep);
    motion.mode = mode;
    motion.projectileOnFrame(phase, from, this.ball);
    const y = solver.y;
    y.set(from);
    if (phase !== LOOSE) {
      y[4] = this.ball[0];
      y[5] = this.ball[2];
      y[6] = this.ball[1];
      y[7] = this.ball[3];
    }
    const { carrier, gravity } = motion.setup;
    const stops = carrier.endStop !== null && !motion.locked;
    const gap = (state: Float64Array) => stopGap(carrier, state[0]);
    const size = stateSize(LOOSE);
    const longest = LONGEST * Math.sqrt(carrier.tipY / gravity);
    solver.begin(motion.rightHandSide(LOOSE), size, longest);
    let time = since;
    let arrival: Arrival | null = null;
    let clear = gap(y);
    if (stops && clear < AT_STOP && y[1] < 0) {
      arrival = { time, energy: kineticEnergy(motion, LOOSE, y), rate: y[1], step: 0 };
    }
    while (time < this.until && trace.steps < MOST_STEPS && !arrival) {
      try {
        solver.attempt(Math.min(longest, this.until - time));
      } catch (error) {
        // What moves faster than can be followed is followed as far as it can be.
        if (error instanceof RangeError) break;
        throw error;
      }
      let slot = trace.slot();
      solver.dense(slot.dense, slot.at);
      for (let i = 1; stops && i <= PROBES; i++) {
        evaluateDense(slot.dense, slot.at, i / PROBES, size, probe);
        const next = gap(probe);
        if (clear > 0 && next <= 0) {
          const { dense, at } = slot;
          const value = (x: number) => {
            evaluateDense(dense, at, x, size, probe);
            return gap(probe);
          };
          solver.attemptExactly(fallThroughZero(value, (i - 1) / PROBES, i / PROBES) * solver.stepTaken);
          slot = trace.slot();
          solver.dense(slot.dense, slot.at);
          const energy = kineticEnergy(motion, LOOSE, solver.yEnd);
          arrival = { time: time + solver.stepTaken, energy, rate: solver.yEnd[1], step: trace.steps };
          break;
        }
        clear = next;
      }
      trace.push(time, solver.stepTaken, LOOSE);
      time += solver.stepTaken;
      solver.accept();
    }
    trace.segments.push({ stop: "none", from: 0, to: trace.steps, end: arrival ? "stop" : "horizon" });
    return { since, trace, arrival };
  }

  private blank(keep: boolean): Trace {
    if (keep || !this.spare) {
      const fresh = new Trace(this.motion);
      if (!keep) this.spare = fresh;
      return fresh;
    }
    this.spare.steps = 0;
    this.spare.segments.length = 0;
    return this.spare;
  }
}
