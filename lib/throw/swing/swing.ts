/**
 * Follows a machine from the trigger until the projectile strikes the ground or the horizon passes: the trough,
 * lift-off, the swing, every slack and catch of the sling, and both ways past an end stop. The sling (or the cup) never
 * lets go here; whoever reads the recorded trace lets it go at any instant.
 */

import { Dop853, evaluateDense, MAX_SIZE } from "../numeric/dop853";
import { fallThroughZero } from "../numeric/root";
import type { Stop } from "../release";
import { type SwingSetup, stopGap } from "./carrier";
import { carryOut } from "./impulse";
import { CUP, LOOSE, LOOSE_ON_TROUGH, Motion, type Phase, SWING, stateSize, TROUGH } from "./motion";
import { springEnergy, WOUND, windingGap, windingPast } from "./spring";
import { CannotThrow, startState } from "./start";
import { Trace } from "./trace";

/** How far above the trough the projectile must have been before the ground counts, m (physics: a graze). */
const CLEAR_OF_TROUGH = 1e-3;
const MOST_STEPS = 6000;
const SUBDIVISIONS = 4;
/** A swing that need not be exact may take steps longer by this; they are probed as densely in time. */
const ROUGH = 1e-8;
const ROUGH_STEPS = 2;
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
const WINDING = 7;
const SLIP = 8;
const EVENTS = 9;
const NEVER = 1;

export { CannotThrow, startState } from "./start";

/** A step so short that no event hides between two probes of it, s: a quarter of an arm's quick turn. */
function longestStep({ carrier, slingLength, gravity }: SwingSetup): number {
  const falling = 0.08 * Math.sqrt(Math.max(carrier.tipY, slingLength) / gravity);
  if (!carrier.spring) return falling;
  // The rate at which the springs would turn the bare arm.
  const rate = Math.sqrt((2 * springEnergy(carrier.spring, carrier.startAngle)) / carrier.inertia);
  return Math.min(falling, 0.25 / rate);
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
  private readonly longest: number;
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
    this.longest = longestStep(setup);
    this.trace = new Trace(this.motion);
    this.solver = new Dop853(accuracy, accuracy);
  }

  run(): Trace {
    const { trace, solver } = this;
    this.phase = startState(this.motion, solver.y);
    if (this.phase === SWING || this.phase === CUP) trace.liftOff = 0;
    if (this.phase === CUP) this.clear = this.heightOf(solver.y) > CLEAR_OF_TROUGH;
    if (this.phase === LOOSE_ON_TROUGH) trace.slackNow();
    if (this.follow() === "stop") {
      trace.sawStop = true;
      const saved = this.save();
      if (this.phase !== CUP) {
        this.stop = "holds";
        this.arrest();
        this.settle();
        this.follow();
        this.restore(saved);
      }
      this.stop = "fails";
      const { spring } = this.setup.carrier;
      if (spring) this.motion.winding = windingPast(spring, WOUND, -1);
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
      mode: motion.mode,
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
    this.motion.mode = saved.mode;
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
    const longest = this.longest * (this.solver.relative >= ROUGH ? ROUGH_STEPS : 1);
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
      if (hit >= 0) {
        solver.attemptExactly(this.hitAt * solver.stepTaken);
        solver.dense(slot.dense, slot.at);
      }
      trace.push(this.time, solver.stepTaken, this.phase);
      this.time += solver.stepTaken;
      solver.accept();
      if (this.phase === TROUGH) this.holdLength();
      if (hit >= 0) {
        if (hit === GROUND) end = "ground";
        if (hit === STOP) end = "stop";
        if (end !== "horizon") break;
        this.pass(hit);
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
    this.motion.tipOnFrame(y, this.tip);
    const drop = troughHeight - this.tip[1];
    const across = Math.sqrt(Math.max(0, slingLength ** 2 - drop ** 2));
    if (across < 0.05 * slingLength) return;
    const side = y[4] < this.tip[0] ? -across : across;
    y[4] = this.tip[0] + side;
    y[5] = this.tip[2] + (drop * this.tip[3]) / side;
  }

  /** Values of all events at a state; NEVER for those that cannot happen in this phase. */
  private events(y: Float64Array, out: Float64Array): void {
    const { motion, setup, phase } = this;
    out.fill(NEVER);
    const { carrier } = setup;
    if (this.stop === "none") {
      if (carrier.endStop !== null) out[STOP] = stopGap(carrier, y[0]);
    } else if (carrier.spring && !motion.locked) {
      out[WINDING] = windingGap(carrier.spring, motion.winding, y[0]);
    }
    if (phase === TROUGH || phase === SWING) {
      motion.evaluate(phase, y, this.scratch);
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
    const { motion, setup } = this;
    out[TAUT] = this.slackOf(y, setup.troughHeight);
    if (motion.sliding !== 0 && setup.troughFriction > 0) out[TURN] = y[5] * motion.sliding;
    if (setup.lean === 0 && setup.frame === null) return;
    motion.evaluate(LOOSE_ON_TROUGH, y, this.scratch);
    out[LIFT_OFF] = motion.normal;
    if (motion.sliding === 0 && setup.troughFriction > 0) {
      out[SLIP] = setup.troughFriction * motion.gravityY - Math.abs(motion.gravityX);
    }
  }

  /** Square of the sling less that of the distance it must span. */
  private slackOf(y: Float64Array, height: number): number {
    const { tip, setup } = this;
    this.motion.tipOnFrame(y, tip);
    return setup.slingLength ** 2 - (y[4] - tip[0]) ** 2 - (height - tip[1]) ** 2;
  }

  private groundEvents(y: Float64Array, out: Float64Array): void {
    const height = this.heightOf(y);
    if (this.clear) {
      out[GROUND] = height;
      return;
    }
    // Above the trough and the ground it counts as clear; 1 mm below the lower of them it has struck.
    const above = this.phase === CUP ? height : this.ball[1] - this.setup.troughHeight;
    out[GROUND] = Math.max(height, above) + CLEAR_OF_TROUGH;
    out[CLEAR] = CLEAR_OF_TROUGH - Math.min(height, above);
  }

  /** Height of the projectile above the ground, m; leaves its place on the frame in `ball`. */
  private heightOf(y: Float64Array): number {
    const { ball, motion } = this;
    motion.projectileOnFrame(this.phase, y, ball);
    return motion.height(ball[0], ball[1]);
  }

  /** The first event inside the step just attempted; −1 if there is none. Where it is stands in `hitAt`. */
  private firstEvent(dense: Float64Array, at: number): number {
    const { before, after, probe, phase } = this;
    const size = stateSize(phase);
    const loose = phase === LOOSE || phase === LOOSE_ON_TROUGH;
    const longer = Math.max(1, Math.ceil(this.solver.stepTaken / this.longest - 1e-9));
    const part = 1 / (longer * (loose ? LOOSE_SUBDIVISIONS : SUBDIVISIONS));
    const gap = OPEN * this.setup.slingLength ** 2;
    let from = 0;
    while (from < 1) {
      const to =
        loose && !this.open && from < part ? Math.max(FIRST_PROBE, 2 * from) : Math.min(1, from + part);
      evaluateDense(dense, at, to, size, probe);
      this.events(probe, after);
      if (loose && !this.open) {
        if (after[TAUT] > gap) this.open = true;
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
  private hitAt = 1;

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
    const { motion } = this;
    const { y } = this.solver;
    const { spring } = this.setup.carrier;
    if (event === CLEAR) this.clear = true;
    else if (event === WINDING && spring) motion.winding = windingPast(spring, motion.winding, y[1]);
    else if (event === LIFT_OFF) this.liftOff();
    else if (event === SLACK) this.loosen();
    else if (event === TAUT) this.catchProjectile();
    else if (event === SLIP) motion.sliding = Math.sign(motion.gravityX);
    else if (event === TURN) this.turn();
    this.settle();
  }

  /** The projectile on the trough has come to rest. */
  private turn(): void {
    const { motion, phase, scratch } = this;
    const { y } = this.solver;
    y[5] = 0;
    if (phase === LOOSE_ON_TROUGH) {
      motion.sliding = 0;
      return;
    }
    motion.sliding = -motion.sliding;
    motion.evaluate(TROUGH, y, scratch);
    if (scratch[5] * motion.sliding <= 0) motion.regularised = true;
  }

  /**
   * After a jump of speed or friction the forces may already be of the wrong sign, so that no event would fire:
   * the trough does not pull and the sling does not push.
   */
  private settle(): void {
    const { motion, trace, setup } = this;
    const { y } = this.solver;
    if (this.phase === LOOSE_ON_TROUGH && motion.sliding === 0) {
      motion.evaluate(LOOSE_ON_TROUGH, y, this.scratch);
      if (motion.slips()) motion.sliding = Math.sign(motion.gravityX);
    }
    if (this.phase === TROUGH) {
      motion.evaluate(TROUGH, y, this.scratch);
      if (motion.normal <= 0) this.liftOff();
      else if (motion.tension < 0) this.loosen();
    }
    if (this.phase === SWING) {
      if (Number.isNaN(trace.liftOff)) trace.liftOff = this.time;
      motion.evaluate(SWING, y, this.scratch);
      if (motion.tension < -1e-9 * setup.mass * setup.gravity) this.loosen();
    }
  }

  /** Off the trough: it swings under a taut sling, or flies under a slack one. */
  private liftOff(): void {
    this.motion.projectileOnFrame(this.phase, this.solver.y, this.ball);
    if (this.phase === TROUGH) this.swingOn();
    else this.flyOn();
  }

  /** With the position and velocity in `ball`, whose sling is taut, the projectile swings about the tip. */
  private swingOn(): void {
    const { y } = this.solver;
    const { slingLength } = this.setup;
    const { motion, tip, ball } = this;
    motion.tipOnFrame(y, tip);
    const ux = (ball[0] - tip[0]) / slingLength;
    const uy = (ball[1] - tip[1]) / slingLength;
    this.phase = SWING;
    y[4] = Math.atan2(uy, ux);
    y[5] = (ux * (ball[3] - tip[3]) - uy * (ball[2] - tip[2])) / slingLength;
  }

  private loosen(): void {
    this.motion.projectileOnFrame(this.phase, this.solver.y, this.ball);
    this.looseOn();
  }

  /** With the position and velocity in `ball` the projectile goes on under a slack sling. */
  private looseOn(): void {
    const { ball, motion } = this;
    this.trace.slackNow();
    this.open = false;
    if (this.phase !== TROUGH && this.phase !== LOOSE_ON_TROUGH) {
      this.flyOn();
      return;
    }
    this.phase = LOOSE_ON_TROUGH;
    this.solver.y[4] = ball[0];
    this.solver.y[5] = ball[2];
    motion.sliding = Math.sign(ball[2]);
  }

  private flyOn(): void {
    const { y } = this.solver;
    const { ball } = this;
    if (Number.isNaN(this.trace.liftOff)) this.trace.liftOff = this.time;
    this.phase = LOOSE;
    y[4] = ball[0];
    y[5] = ball[2];
    y[6] = ball[1];
    y[7] = ball[3];
  }

  /** Direction from the tip to the projectile, their states in `tip` and `ball`. */
  private along() {
    const { motion, tip, ball } = this;
    const { y } = this.solver;
    motion.projectileOnFrame(this.phase, y, ball);
    motion.tipOnFrame(y, tip);
    const distance = Math.hypot(ball[0] - tip[0], ball[1] - tip[1]);
    return { ux: (ball[0] - tip[0]) / distance, uy: (ball[1] - tip[1]) / distance };
  }

  /**
   * The sling comes taut: an impulse along it takes the relative speed away, the whole machine reacting through
   * its inertia. A pull with an upward part plucks a projectile off the trough; otherwise the trough bears it.
   */
  private catchProjectile(): void {
    const { motion, ball } = this;
    const { y } = this.solver;
    const { ux, uy } = this.along();
    const onTrough = this.phase === LOOSE_ON_TROUGH;
    const borne = onTrough && uy >= 0;
    const slide = Math.sign(y[5]) || -Math.sign(ux);
    const momentum = motion.levelMomentum(y, this.phase);
    carryOut(motion, y, ball, { ux, uy, taut: true, borne, slide, momentum });
    if (onTrough && (borne || ball[3] < 1e-9)) this.slideOn(ux);
    else this.swingOn();
  }

  /** With the velocity in `ball` the projectile slides on under a taut sling. */
  private slideOn(ux: number): void {
    const { motion, ball } = this;
    const { y } = this.solver;
    this.phase = TROUGH;
    y[5] = ball[2];
    motion.sliding = Math.sign(y[5]) || -Math.sign(ux);
    motion.regularised = y[5] === 0;
  }

  /**
   * The arm stops dead at its end stop, on the frame: it locks, and a jerk takes what speed runs out along the sling.
   * A frame that rolls takes the momentum of the arm.
   */
  private arrest(): void {
    const { motion, ball, phase } = this;
    const { y } = this.solver;
    const { ux, uy } = this.along();
    const momentum = motion.levelMomentum(y, phase);
    motion.locked = true;
    y[1] = 0;
    y[3] = 0;
    const onTrough = phase === TROUGH || phase === LOOSE_ON_TROUGH;
    const taut = phase === TROUGH || phase === SWING;
    const borne = phase === LOOSE_ON_TROUGH || (phase === TROUGH && uy >= 0);
    const slide = onTrough ? Math.sign(y[5]) || -Math.sign(ux) : 0;
    const held = carryOut(motion, y, ball, { ux, uy, taut, borne, slide, momentum });
    if (phase === LOOSE) {
      y[5] = ball[2];
      y[7] = ball[3];
    } else if (phase === LOOSE_ON_TROUGH) {
      y[5] = ball[2];
      if (y[5] !== 0) motion.sliding = Math.sign(y[5]);
    } else if (!held) {
      // The tip no longer leads: the projectile comes in on a slack sling.
      this.looseOn();
    } else if (borne) {
      ball[2] = 0;
      this.slideOn(ux);
    } else {
      this.swingOn();
    }
  }
}
