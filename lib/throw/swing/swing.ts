/**
 * Follows a machine from the trigger until the projectile strikes the ground or the horizon passes: the trough,
 * lift-off, the swing, every slack and catch of the sling, and both ways past an end stop. The sling (or the cup) never
 * lets go here; whoever reads the recorded trace lets it go at any instant.
 */

import { Dop853, MAX_SIZE } from "../numeric/dop853";
import type { SwingSetup } from "./carrier";
import {
  CLEAR,
  CLEAR_OF_TROUGH,
  Events,
  GROUND,
  LIFT_OFF,
  SLACK,
  SLIP,
  STOP,
  type Standing,
  TAUT,
  TURN,
  WINDING,
} from "./events";
import { carryOut } from "./impulse";
import { CUP, LOOSE, LOOSE_ON_TROUGH, Motion, SWING, stateSize, TROUGH } from "./motion";
import { springEnergy, WOUND, windingPast } from "./spring";
import { CannotThrow, startState } from "./start";
import { Trace } from "./trace";

const MOST_STEPS = 6000;
/** A swing that need not be exact may take steps longer by this; they are probed as densely in time. */
const ROUGH = 1e-8;
const ROUGH_STEPS = 2;

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
  private readonly scratch = new Float64Array(MAX_SIZE);
  private readonly tip = new Float64Array(4);
  private readonly ball = new Float64Array(4);
  private readonly standing: Standing = { phase: TROUGH, clear: false, open: false, stop: "none" };
  private readonly events: Events;
  private time = 0;

  constructor(
    private readonly setup: SwingSetup,
    accuracy: number,
  ) {
    this.motion = new Motion(setup);
    this.longest = longestStep(setup);
    this.events = new Events(this.motion, this.standing, this.longest);
    this.trace = new Trace(this.motion);
    this.solver = new Dop853(accuracy, accuracy);
  }

  run(): Trace {
    const { trace, solver } = this;
    this.standing.phase = startState(this.motion, solver.y);
    if (this.standing.phase === SWING || this.standing.phase === CUP) trace.liftOff = 0;
    if (this.standing.phase === CUP) this.standing.clear = this.events.heightOf(solver.y) > CLEAR_OF_TROUGH;
    if (this.standing.phase === LOOSE_ON_TROUGH) trace.slackNow();
    if (this.follow() === "stop") {
      trace.sawStop = true;
      const saved = this.save();
      if (this.standing.phase !== CUP) {
        this.standing.stop = "holds";
        this.arrest();
        this.settle();
        this.follow();
        this.restore(saved);
      }
      this.standing.stop = "fails";
      const { spring } = this.setup.carrier;
      if (spring) this.motion.winding = windingPast(spring, WOUND, -1);
      this.follow();
    }
    return trace;
  }

  private save() {
    const { standing, time, motion, trace } = this;
    const { liftOff, slackSoFar } = trace;
    return {
      y: this.solver.y.slice(),
      standing: { ...standing },
      time,
      mode: motion.mode,
      liftOff,
      slackSoFar,
    };
  }

  private restore({ y, standing, time, mode, liftOff, slackSoFar }: ReturnType<Swing["save"]>): void {
    this.solver.y.set(y);
    Object.assign(this.standing, standing);
    this.time = time;
    this.motion.mode = mode;
    this.trace.liftOff = liftOff;
    this.trace.slackSoFar = slackSoFar;
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
        solver.begin(this.motion.rightHandSide(this.standing.phase), stateSize(this.standing.phase), longest);
        this.events.begin(solver.y);
        restart = false;
      }
      solver.attempt(Math.min(longest, setup.horizon - this.time));
      const slot = trace.slot();
      solver.dense(slot.dense, slot.at);
      const hit = this.events.first(slot.dense, slot.at, solver.stepTaken);
      if (hit >= 0) {
        solver.attemptExactly(this.events.hitAt * solver.stepTaken);
        solver.dense(slot.dense, slot.at);
      }
      trace.push(this.time, solver.stepTaken, this.standing.phase);
      this.time += solver.stepTaken;
      solver.accept();
      if (this.standing.phase === TROUGH) this.holdLength();
      if (hit >= 0) {
        if (hit === GROUND) end = "ground";
        if (hit === STOP) end = "stop";
        if (end !== "horizon") break;
        this.pass(hit);
        restart = true;
      }
    }
    trace.segments.push({ stop: this.standing.stop, from, to: trace.steps, end });
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

  /** Goes over an event that does not end the segment. */
  private pass(event: number): void {
    const { motion } = this;
    const { y } = this.solver;
    const { spring } = this.setup.carrier;
    if (event === CLEAR) this.standing.clear = true;
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
    const { motion, standing, scratch } = this;
    const { y } = this.solver;
    y[5] = 0;
    if (standing.phase === LOOSE_ON_TROUGH) {
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
    if (this.standing.phase === LOOSE_ON_TROUGH && motion.sliding === 0) {
      motion.evaluate(LOOSE_ON_TROUGH, y, this.scratch);
      if (motion.slips()) motion.sliding = Math.sign(motion.gravityX);
    }
    if (this.standing.phase === TROUGH) {
      motion.evaluate(TROUGH, y, this.scratch);
      if (motion.normal <= 0) this.liftOff();
      else if (motion.tension < 0) this.loosen();
    }
    if (this.standing.phase === SWING) {
      if (Number.isNaN(trace.liftOff)) trace.liftOff = this.time;
      motion.evaluate(SWING, y, this.scratch);
      if (motion.tension < -1e-9 * setup.mass * setup.gravity) this.loosen();
    }
  }

  /** Off the trough: it swings under a taut sling, or flies under a slack one. */
  private liftOff(): void {
    this.motion.projectileOnFrame(this.standing.phase, this.solver.y, this.ball);
    if (this.standing.phase === TROUGH) this.swingOn();
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
    this.standing.phase = SWING;
    y[4] = Math.atan2(uy, ux);
    y[5] = (ux * (ball[3] - tip[3]) - uy * (ball[2] - tip[2])) / slingLength;
  }

  private loosen(): void {
    this.motion.projectileOnFrame(this.standing.phase, this.solver.y, this.ball);
    this.looseOn();
  }

  /** With the position and velocity in `ball` the projectile goes on under a slack sling. */
  private looseOn(): void {
    const { ball, motion } = this;
    this.trace.slackNow();
    this.standing.open = false;
    if (this.standing.phase !== TROUGH && this.standing.phase !== LOOSE_ON_TROUGH) {
      this.flyOn();
      return;
    }
    this.standing.phase = LOOSE_ON_TROUGH;
    this.solver.y[4] = ball[0];
    this.solver.y[5] = ball[2];
    motion.sliding = Math.sign(ball[2]);
  }

  private flyOn(): void {
    const { y } = this.solver;
    const { ball } = this;
    if (Number.isNaN(this.trace.liftOff)) this.trace.liftOff = this.time;
    this.standing.phase = LOOSE;
    y[4] = ball[0];
    y[5] = ball[2];
    y[6] = ball[1];
    y[7] = ball[3];
  }

  /** Direction from the tip to the projectile, their states in `tip` and `ball`. */
  private along() {
    const { motion, tip, ball } = this;
    const { y } = this.solver;
    motion.projectileOnFrame(this.standing.phase, y, ball);
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
    const onTrough = this.standing.phase === LOOSE_ON_TROUGH;
    const borne = onTrough && uy >= 0;
    const slide = Math.sign(y[5]) || -Math.sign(ux);
    const momentum = motion.levelMomentum(y, this.standing.phase);
    carryOut(motion, y, ball, { ux, uy, taut: true, borne, slide, momentum });
    if (onTrough && (borne || ball[3] < 1e-9)) this.slideOn(ux);
    else this.swingOn();
  }

  /** With the velocity in `ball` the projectile slides on under a taut sling. */
  private slideOn(ux: number): void {
    const { motion, ball } = this;
    const { y } = this.solver;
    this.standing.phase = TROUGH;
    y[5] = ball[2];
    motion.sliding = Math.sign(y[5]) || -Math.sign(ux);
    motion.regularised = y[5] === 0;
  }

  /**
   * The arm stops dead at its end stop, on the frame: it locks, and a jerk takes what speed runs out along the sling.
   * A frame that rolls takes the momentum of the arm.
   */
  private arrest(): void {
    const { motion, ball } = this;
    const { phase } = this.standing;
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
