/**
 * What can end a step of a swing: events whose values fall through zero, probed on the dense output between its ends.
 */
import { evaluateDense, MAX_SIZE } from "../numeric/dop853";
import { fallThroughZero } from "../numeric/root";
import type { Stop } from "../release";
import { stopGap } from "./carrier";
import { CUP, LOOSE, LOOSE_ON_TROUGH, type Motion, type Phase, SWING, stateSize, TROUGH } from "./motion";
import { windingGap } from "./spring";

export const LIFT_OFF = 0;
export const SLACK = 1;
export const TURN = 2;
export const GROUND = 3;
export const CLEAR = 4;
export const TAUT = 5;
export const STOP = 6;
export const WINDING = 7;
export const SLIP = 8;
const EVENTS = 9;
/** Value of an event that cannot happen in a phase. */
const NEVER = 1;

/** How far above the trough the projectile must have been before the ground counts, m (physics: a graze). */
export const CLEAR_OF_TROUGH = 1e-3;
/** A step no longer than the setup's longest is probed this often. */
const SUBDIVISIONS = 4;
/** A slack sling needs no forces to be probed, so more often: it may come taut on a short chord. */
const LOOSE_SUBDIVISIONS = 8;
/** A slack that has just begun may end within a millisecond: its first steps are probed from this share on. */
const FIRST_PROBE = 2 ** -14;
/** Gap between the squares of sling and distance that is more than rounding, as a share of the sling's. */
const OPEN = 1e-13;

/** How projectile, sling and stop stand at the moment. */
export interface Standing {
  phase: Phase;
  /** Whether the projectile has been 1 mm above the trough. */
  clear: boolean;
  /** Whether the gap of a slack sling has been seen to open. */
  open: boolean;
  stop: Stop;
}

export class Events {
  /** Where the event found lies in its step, as a share of it. */
  hitAt = 1;
  private readonly before = new Float64Array(EVENTS);
  private readonly after = new Float64Array(EVENTS);
  private readonly wanted = new Float64Array(EVENTS);
  private readonly probe = new Float64Array(MAX_SIZE);
  private readonly slopes = new Float64Array(MAX_SIZE);
  private readonly tip = new Float64Array(4);
  private readonly ball = new Float64Array(4);

  /** @param longest step in which no event hides between two probes, s */
  constructor(
    private readonly motion: Motion,
    private readonly standing: Standing,
    private readonly longest: number,
  ) {}

  /** Takes the values at the state from which the next step starts. */
  begin(y: Float64Array): void {
    this.values(y, this.before);
  }

  /** Values of all events at a state; NEVER for those that cannot happen in this phase. */
  private values(y: Float64Array, out: Float64Array): void {
    const { motion } = this;
    const { setup } = motion;
    const { phase, stop } = this.standing;
    out.fill(NEVER);
    const { carrier } = setup;
    if (stop === "none") {
      if (carrier.endStop !== null) out[STOP] = stopGap(carrier, y[0]);
    } else if (carrier.spring && !motion.locked) {
      out[WINDING] = windingGap(carrier.spring, motion.winding, y[0]);
    }
    if (phase === TROUGH || phase === SWING) {
      motion.evaluate(phase, y, this.slopes);
      out[SLACK] = motion.tension;
    }
    if (phase === TROUGH) {
      out[LIFT_OFF] = motion.normal;
      if (!motion.regularised && setup.troughFriction > 0) out[TURN] = y[5] * motion.sliding;
      return;
    }
    if (phase === LOOSE_ON_TROUGH) {
      this.slidingEvents(y, out);
      return;
    }
    if (phase === LOOSE) out[TAUT] = this.slackOf(y, y[6]);
    this.groundEvents(y, out);
  }

  /** Of a projectile on the trough under a slack sling. */
  private slidingEvents(y: Float64Array, out: Float64Array): void {
    const { motion } = this;
    const { setup } = motion;
    out[TAUT] = this.slackOf(y, setup.troughHeight);
    if (motion.sliding !== 0 && setup.troughFriction > 0) out[TURN] = y[5] * motion.sliding;
    if (setup.lean === 0 && setup.frame === null) return;
    motion.evaluate(LOOSE_ON_TROUGH, y, this.slopes);
    out[LIFT_OFF] = motion.normal;
    if (motion.sliding === 0 && setup.troughFriction > 0) {
      out[SLIP] = setup.troughFriction * motion.gravityY - Math.abs(motion.gravityX);
    }
  }

  /** Square of the sling less that of the distance it must span. */
  private slackOf(y: Float64Array, height: number): number {
    const { tip, motion } = this;
    const { setup } = motion;
    motion.tipOnFrame(y, tip);
    return setup.slingLength ** 2 - (y[4] - tip[0]) ** 2 - (height - tip[1]) ** 2;
  }

  private groundEvents(y: Float64Array, out: Float64Array): void {
    const height = this.heightOf(y);
    if (this.standing.clear) {
      out[GROUND] = height;
      return;
    }
    // Above the trough and the ground it counts as clear; 1 mm below the lower of them it has struck.
    const above = this.standing.phase === CUP ? height : this.ball[1] - this.motion.setup.troughHeight;
    out[GROUND] = Math.max(height, above) + CLEAR_OF_TROUGH;
    out[CLEAR] = CLEAR_OF_TROUGH - Math.min(height, above);
  }

  /** Height of the projectile above the ground, m; leaves its place on the frame in `ball`. */
  heightOf(y: Float64Array): number {
    const { ball, motion } = this;
    motion.projectileOnFrame(this.standing.phase, y, ball);
    return motion.height(ball[0], ball[1]);
  }

  /**
   * The first event inside a step of `taken` seconds; −1 if there is none. Where it is stands in `hitAt`.
   * @param dense output of the step, from `at` on
   */
  first(dense: Float64Array, at: number, taken: number): number {
    const { before, after, probe, standing } = this;
    const { phase } = standing;
    const size = stateSize(phase);
    const loose = phase === LOOSE || phase === LOOSE_ON_TROUGH;
    const longer = Math.max(1, Math.ceil(taken / this.longest - 1e-9));
    const part = 1 / (longer * (loose ? LOOSE_SUBDIVISIONS : SUBDIVISIONS));
    const gap = OPEN * this.motion.setup.slingLength ** 2;
    let from = 0;
    while (from < 1) {
      const to =
        loose && !standing.open && from < part ? Math.max(FIRST_PROBE, 2 * from) : Math.min(1, from + part);
      evaluateDense(dense, at, to, size, probe);
      this.values(probe, after);
      if (loose && !standing.open) {
        if (after[TAUT] > gap) standing.open = true;
        // It never opened: the sling stays taut from here.
        else if (after[TAUT] < -gap) {
          this.hitAt = to;
          return TAUT;
        }
        before[TAUT] = Math.min(before[TAUT], 0);
      }
      let event = -1;
      this.hitAt = 2;
      for (let e = 0; e < EVENTS; e++) {
        if (before[e] > 0 && after[e] <= 0) {
          const root = this.root(dense, at, size, e, from, to);
          if (root < this.hitAt) {
            this.hitAt = root;
            event = e;
          }
        }
      }
      if (event >= 0) return event;
      before.set(after);
      from = to;
    }
    return -1;
  }

  /** Where event `e` falls through zero between two fractions of the step: bisection with secant steps. */
  private root(dense: Float64Array, at: number, size: number, e: number, from: number, to: number): number {
    const value = (x: number) => {
      evaluateDense(dense, at, x, size, this.probe);
      this.values(this.probe, this.wanted);
      return this.wanted[e];
    };
    return fallThroughZero(value, from, to);
  }
}
