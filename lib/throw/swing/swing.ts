/**
 * Follows a machine from the trigger until the projectile strikes the ground or the horizon passes: the trough,
 * lift-off, the swing, every slack and catch of the sling, and both ways past a floating arm's end stop. The
 * sling never lets go here; worst.ts and release.ts let it go at any instant of the recorded trace.
 */

import { Dop853, evaluateDense, MAX_SIZE } from "../numeric/dop853";
import { fallThroughZero } from "../numeric/root";
import type { Stop } from "../release";
import type { SwingSetup } from "./carrier";
import { LOOSE, LOOSE_ON_TROUGH, Motion, type Phase, SWING, stateSize, TROUGH } from "./motion";
import { Trace } from "./trace";

/** How far above the trough the projectile must have been before the ground counts, m (physics: a graze). */
const CLEAR_OF_TROUGH = 1e-3;
const MOST_STEPS = 20_000;
const SUBDIVISIONS = 4;
/** A slack sling needs no forces to be probed, so more often: it may come taut on a short chord. */
const LOOSE_SUBDIVISIONS = 8;
/** A slack that has just begun may end within a millisecond: its first steps are probed from this share on. */
const FIRST_PROBE = 2 ** -14;
/** Gap between the squares of sling and distance that is more than rounding, as a share of the sling's. */
const OPEN = 1e-13;

/** What can end a step. An event fires where its value falls through zero. */
const LIFT_OFF = 0;
const SLACK = 1;
const TURN = 2;
const GROUND = 3;
const CLEAR = 4;
const TAUT = 5;
const STOP = 6;
const EVENTS = 7;
const NEVER = 1;

/** A machine that does not throw at all, with the field to change. */
export class CannotThrow extends Error {
  constructor(
    readonly field: string,
    message: string,
  ) {
    super(message);
  }
}

/** State of the projectile and machine at the trigger; throws CannotThrow when the arm cannot fall. */
export function startState(motion: Motion, y: Float64Array): Phase {
  const { carrier, slingLength, troughHeight } = motion.setup;
  const tipY = carrier.originY + carrier.tipY * Math.sin(carrier.startAngle);
  const drop = troughHeight - tipY;
  y.fill(0);
  y[0] = carrier.startAngle;
  y[2] = -Math.PI / 2;
  y[4] = carrier.tipX * Math.cos(carrier.startAngle) + Math.sqrt(slingLength ** 2 - drop ** 2);
  motion.sliding = -1;
  motion.regularised = false;
  motion.locked = false;
  const dy = new Float64Array(MAX_SIZE);
  motion.trough(y, dy);
  if (motion.tension <= 0) {
    // The tip first moves towards the projectile, which lies where it is until the sling comes taut.
    motion.looseOnTrough(y, dy);
    if (dy[1] < 0) {
      motion.sliding = 0;
      return LOOSE_ON_TROUGH;
    }
  }
  if (!(dy[1] < 0 && motion.tension > 0)) {
    throw new CannotThrow(
      "counterweightMass",
      "The arm cannot fall: the counterweight does not outweigh the arm, the projectile and the friction of the trough. Make it heavier, or the long arm shorter or lighter.",
    );
  }
  if (motion.normal > 0) return TROUGH;
  y[4] = Math.atan2(drop, Math.sqrt(slingLength ** 2 - drop ** 2));
  return SWING;
}

/** @param accuracy relative error tolerance of the integration; 1e-10 keeps energy to 1e-9 */
export function swing(setup: SwingSetup, accuracy = 1e-10): Trace {
  try {
    return new Swing(setup, accuracy).run();
  } catch (error) {
    if (!(error instanceof RangeError)) throw error;
    const message = `The swing cannot be followed: ${error.message}. Check the masses and moments of inertia, or shorten the horizon.`;
    throw new CannotThrow("armMass", message);
  }
}

class Swing {
  private readonly motion: Motion;
  private readonly trace: Trace;
  private readonly solver: Dop853;
  private readonly before = new Float64Array(EVENTS);
  private readonly after = new Float64Array(EVENTS);
  private readonly probe = new Float64Array(MAX_SIZE);
  private readonly scratch = new Float64Array(MAX_SIZE);
  private readonly tip = new Float64Array(4);
  private readonly ball = new Float64Array(4);
  private phase: Phase = TROUGH;
  private time = 0;
  /** Whether the projectile has been 1 mm above the trough. */
  private clear = false;
  /** Whether the gap of a slack sling has been seen to open. */
  private open = false;
  private stop: Stop = "none";

  constructor(
    private readonly setup: SwingSetup,
    accuracy: number,
  ) {
    this.motion = new Motion(setup);
    this.trace = new Trace(this.motion);
    this.solver = new Dop853(accuracy, accuracy);
  }

  run(): Trace {
    const { trace, solver } = this;
    this.phase = startState(this.motion, solver.y);
    if (this.phase === SWING) trace.liftOff = 0;
    if (this.phase === LOOSE_ON_TROUGH) trace.slackNow();
    if (this.follow() === "stop") {
      trace.sawStop = true;
      const saved = this.save();
      this.stop = "holds";
      this.arrest();
      this.settle();
      this.follow();
      this.restore(saved);
      this.stop = "fails";
      this.follow();
    }
    return trace;
  }

  private save() {
    const { phase, time, clear, motion, trace } = this;
    return {
      y: this.solver.y.slice(),
      phase,
      time,
      clear,
      sliding: motion.sliding,
      regularised: motion.regularised,
      liftOff: trace.liftOff,
      open: this.open,
      afterSlack: trace.slackSoFar,
    };
  }

  private restore(saved: ReturnType<Swing["save"]>): void {
    this.solver.y.set(saved.y);
    this.phase = saved.phase;
    this.time = saved.time;
    this.clear = saved.clear;
    this.motion.sliding = saved.sliding;
    this.motion.regularised = saved.regularised;
    this.motion.locked = false;
    this.trace.liftOff = saved.liftOff;
    this.open = saved.open;
    this.trace.slackSoFar = saved.afterSlack;
  }

  /** Goes on until something ends the segment, and records it. */
  private follow(): "ground" | "horizon" | "stop" {
    const { trace, solver, setup } = this;
    const from = trace.steps;
    let end: "ground" | "horizon" | "stop" = "horizon";
    let restart = true;
    // Dense enough that no event hides between two probes of a step: a quarter of an arm's quick turn.
    const longest = 0.08 * Math.sqrt(Math.max(setup.carrier.tipY, setup.slingLength) / setup.gravity);
    while (this.time < setup.horizon) {
      if (trace.steps - from > MOST_STEPS) {
        throw new CannotThrow("horizon", "The swing has too many steps to follow. Shorten the horizon.");
      }
      if (restart) {
        solver.begin(this.motion.rightHandSide(this.phase), stateSize(this.phase), longest);
        this.events(solver.y, this.before);
        restart = false;
      }
      solver.attempt(Math.min(longest, setup.horizon - this.time));
      const slot = trace.slot();
      solver.dense(slot.dense, slot.at);
      const hit = this.firstEvent(slot.dense, slot.at);
      if (hit.event >= 0) {
        solver.attemptExactly(hit.fraction * solver.stepTaken);
        solver.dense(slot.dense, slot.at);
      }
      trace.push(this.time, solver.stepTaken, this.phase);
      this.time += solver.stepTaken;
      solver.accept();
      if (this.phase === TROUGH) this.holdLength();
      this.events(solver.y, this.before);
      if (hit.event >= 0) {
        if (hit.event === GROUND) end = "ground";
        if (hit.event === STOP) end = "stop";
        if (end !== "horizon") break;
        this.pass(hit.event);
        restart = true;
      }
    }
    trace.segments.push({ stop: this.stop, from, to: trace.steps, end });
    return end;
  }

  /** On the trough the sling's length follows from the arm: takes out the drift of the integration. */
  private holdLength(): void {
    const { y } = this.solver;
    const { slingLength, troughHeight } = this.setup;
    this.motion.tip(y, this.tip);
    const drop = troughHeight - this.tip[1];
    const across = Math.sqrt(Math.max(0, slingLength ** 2 - drop ** 2));
    if (across < 0.05 * slingLength) return;
    const side = y[4] < this.tip[0] ? -across : across;
    y[4] = this.tip[0] + side;
    y[5] = this.tip[2] + (drop * this.tip[3]) / side;
  }

  /** Values of all events at a state; NEVER for those that cannot happen in this phase. */
  private events(y: Float64Array, out: Float64Array): void {
    const { motion, setup, phase, tip } = this;
    out.fill(NEVER);
    const { carrier, slingLength, troughHeight } = setup;
    if (carrier.endStop !== null && this.stop === "none") {
      out[STOP] = carrier.endStop - carrier.shortArm * Math.cos(y[0]);
    }
    if (phase === TROUGH || phase === SWING) {
      motion.rightHandSide(phase)(y, this.scratch);
      out[SLACK] = motion.tension;
    }
    if (phase === TROUGH) {
      out[LIFT_OFF] = motion.normal;
      if (!motion.regularised && setup.troughFriction > 0) out[TURN] = y[5] * motion.sliding;
      return;
    }
    if (phase === LOOSE_ON_TROUGH) {
      motion.tip(y, tip);
      out[TAUT] = slingLength ** 2 - (y[4] - tip[0]) ** 2 - (troughHeight - tip[1]) ** 2;
      if (motion.sliding !== 0 && setup.troughFriction > 0) out[TURN] = y[5] * motion.sliding;
      return;
    }
    let height = y[6];
    if (phase === SWING) {
      height = carrier.originY + carrier.tipY * Math.sin(y[0]) + slingLength * Math.sin(y[4]);
    } else {
      motion.tip(y, tip);
      out[TAUT] = slingLength ** 2 - (y[4] - tip[0]) ** 2 - (y[6] - tip[1]) ** 2;
    }
    if (this.clear) out[GROUND] = height;
    else {
      out[GROUND] = height - Math.min(troughHeight, 0) + CLEAR_OF_TROUGH;
      out[CLEAR] = troughHeight + CLEAR_OF_TROUGH - height;
    }
  }

  /** The first event inside the step just attempted, and where; event −1 if there is none. */
  private firstEvent(dense: Float64Array, at: number): { event: number; fraction: number } {
    const { before, after, probe, phase } = this;
    const size = stateSize(phase);
    const loose = phase === LOOSE || phase === LOOSE_ON_TROUGH;
    const part = 1 / (loose ? LOOSE_SUBDIVISIONS : SUBDIVISIONS);
    const gap = OPEN * this.setup.slingLength ** 2;
    const previous = before.slice();
    let from = 0;
    while (from < 1) {
      const to =
        loose && !this.open && from < part ? Math.max(FIRST_PROBE, 2 * from) : Math.min(1, from + part);
      evaluateDense(dense, at, to, size, probe);
      this.events(probe, after);
      if (loose && !this.open) {
        if (after[TAUT] > gap) this.open = true;
        // It never opened: the sling stays taut from here.
        else if (after[TAUT] < -gap) return { event: TAUT, fraction: to };
        previous[TAUT] = Math.min(previous[TAUT], 0);
      }
      let event = -1;
      let fraction = 2;
      for (let e = 0; e < EVENTS; e++) {
        if (previous[e] > 0 && after[e] <= 0) {
          const root = this.root(dense, at, size, e, from, to);
          if (root < fraction) {
            fraction = root;
            event = e;
          }
        }
      }
      if (event >= 0) return { event, fraction };
      previous.set(after);
      from = to;
    }
    return { event: -1, fraction: 1 };
  }

  /** Where event `e` falls through zero between two fractions of the step: bisection with secant steps. */
  private root(dense: Float64Array, at: number, size: number, e: number, from: number, to: number): number {
    const value = (x: number) => {
      evaluateDense(dense, at, x, size, this.probe);
      this.events(this.probe, this.scratchEvents);
      return this.scratchEvents[e];
    };
    return fallThroughZero(value, from, to);
  }
  private readonly scratchEvents = new Float64Array(EVENTS);

  /** Goes over an event that does not end the segment. */
  private pass(event: number): void {
    const { motion, phase } = this;
    const { y } = this.solver;
    if (event === CLEAR) this.clear = true;
    else if (event === LIFT_OFF) this.toSwing();
    else if (event === SLACK) this.loosen();
    else if (event === TAUT) this.catchProjectile();
    else if (event === TURN && phase === LOOSE_ON_TROUGH) {
      y[5] = 0;
      motion.sliding = 0;
    } else if (event === TURN) {
      y[5] = 0;
      motion.sliding = -motion.sliding;
      motion.trough(y, this.scratch);
      if (this.scratch[5] * motion.sliding <= 0) motion.regularised = true;
    }
    this.settle();
  }

  /**
   * After a jump of speed or friction the forces may already be of the wrong sign, so that no event would fire:
   * the trough does not pull and the sling does not push.
   */
  private settle(): void {
    const { motion, trace, setup } = this;
    const { y } = this.solver;
    if (this.phase === TROUGH) {
      motion.trough(y, this.scratch);
      if (motion.normal <= 0) this.toSwing();
      else if (motion.tension < 0) this.loosen();
    }
    if (this.phase === SWING) {
      if (Number.isNaN(trace.liftOff)) trace.liftOff = this.time;
      motion.swing(y, this.scratch);
      if (motion.tension < -1e-9 * setup.mass * setup.gravity) this.loosen();
    }
  }

  private toSwing(): void {
    this.motion.projectile(this.phase, this.solver.y, this.ball);
    this.swingOn();
  }

  /** With the position and velocity in `ball`, whose sling is taut, the projectile swings about the tip. */
  private swingOn(): void {
    const { y } = this.solver;
    const { slingLength } = this.setup;
    const { motion, tip, ball } = this;
    motion.tip(y, tip);
    const ux = (ball[0] - tip[0]) / slingLength;
    const uy = (ball[1] - tip[1]) / slingLength;
    this.phase = SWING;
    y[4] = Math.atan2(uy, ux);
    y[5] = (ux * (ball[3] - tip[3]) - uy * (ball[2] - tip[2])) / slingLength;
  }

  private loosen(): void {
    this.motion.projectile(this.phase, this.solver.y, this.ball);
    this.looseOn();
  }

  /** With the position and velocity in `ball` the projectile goes on under a slack sling. */
  private looseOn(): void {
    const { y } = this.solver;
    const { ball } = this;
    this.trace.slackNow();
    this.open = false;
    y[4] = ball[0];
    y[5] = ball[2];
    if (this.phase === TROUGH) {
      this.phase = LOOSE_ON_TROUGH;
      this.motion.sliding = Math.sign(ball[2]);
      return;
    }
    this.phase = LOOSE;
    y[6] = ball[1];
    y[7] = ball[3];
  }

  /**
   * The sling comes taut: an impulse along it takes the relative speed away, the whole machine reacting through
   * its inertia. A pull with an upward part plucks a projectile off the trough; otherwise the trough bears it.
   */
  private catchProjectile(): void {
    const { y } = this.solver;
    const { motion, tip, ball } = this;
    const { mass, carrier, troughFriction } = this.setup;
    motion.projectile(this.phase, y, ball);
    motion.tip(y, tip);
    const distance = Math.hypot(ball[0] - tip[0], ball[1] - tip[1]);
    const ux = (ball[0] - tip[0]) / distance;
    const uy = (ball[1] - tip[1]) / distance;
    const along = -carrier.tipX * Math.sin(y[0]) * ux + carrier.tipY * Math.cos(y[0]) * uy;
    const apart = (ball[2] - tip[2]) * ux + (ball[3] - tip[3]) * uy;
    const onTrough = this.phase === LOOSE_ON_TROUGH;
    const borne = onTrough && uy >= 0;
    // The trough's own impulse, and its friction, when the sling pulls the projectile down on it.
    const slide = Math.sign(y[5]) || -Math.sign(ux);
    const yielding = borne ? ux * (ux + slide * troughFriction * uy) : 1;
    const give = yielding / mass + along * along * motion.inverseInertiaAt(y);
    const impulse = give > 0 ? Math.max(0, apart) / give : 0;
    motion.strike(y, impulse * along);
    if (borne) {
      y[5] -= (impulse * (ux + slide * troughFriction * uy)) / mass;
    } else {
      ball[2] -= (impulse * ux) / mass;
      ball[3] -= (impulse * uy) / mass;
    }
    if (onTrough && (borne || ball[3] < 1e-9)) {
      this.phase = TROUGH;
      motion.sliding = Math.sign(y[5]) || -Math.sign(ux);
      motion.regularised = y[5] === 0;
      return;
    }
    this.swingOn();
  }

  /** The carriage stops dead at its end stop: the arm locks, a jerk takes what speed runs out along the sling. */
  private arrest(): void {
    const { y } = this.solver;
    const { motion, tip, ball } = this;
    motion.projectile(this.phase, y, ball);
    motion.tip(y, tip);
    motion.locked = true;
    y[1] = 0;
    y[3] = 0;
    if (this.phase === LOOSE || this.phase === LOOSE_ON_TROUGH) return;
    const ux = (ball[0] - tip[0]) / this.setup.slingLength;
    const uy = (ball[1] - tip[1]) / this.setup.slingLength;
    const outward = ball[2] * ux + ball[3] * uy;
    if (outward < 0) {
      // The tip no longer leads: the projectile comes in on a slack sling.
      this.looseOn();
      return;
    }
    if (this.phase === TROUGH && uy >= 0) {
      y[5] = 0;
      motion.regularised = true;
      return;
    }
    this.swingOn();
  }
}
