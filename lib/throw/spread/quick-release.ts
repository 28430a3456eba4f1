/**
 * The throw as meant and nothing else, for thousands of draws: from the trough over lift-off to the instant at which
 * the loop slips, with the equations of motion of the whole swing but looser steps, nothing recorded, and no event
 * that an ordinary throw does not meet. Whatever is not ordinary (a slack sling, a stop, the ground, a machine with
 * parts that this file does not know) is followed by swing.ts instead.
 */
import { moved } from "../case";
import type { HazardRequest } from "../contracts/request";
import { DENSE_LENGTH, Dop853, evaluateDense, evaluateDenseAt, MAX_SIZE } from "../numeric/dop853";
import { fallThroughZero } from "../numeric/root";
import { setupOf } from "../setup";
import { type Carrier, type SwingSetup, stopGap } from "../swing/carrier";
import { CUP, Motion, type Phase, SWING, stateSize, TROUGH } from "../swing/motion";
import { startState } from "../swing/swing";
import { meantFrame } from "../worst/box";

/** Releases agree with those of the whole swing to about 5e-6 of the speed. */
const ACCURACY = 1e-6;
/** How closely an event is found, as a share of its step. */
const WIDTH = 1e-10;
/** s; the step control takes it from there. */
const FIRST_STEP = 0.1;
/** A throw as meant has been let go long before. */
const MOST_STEPS = 200;
/** How much later than the declared machine a drawn one may let go, for its careful swing to be cut short. */
const LATER = 1.5;

/** What this file knows of machines; anything else that a setup holds is left to swing.ts. */
const KNOWN_CARRIER: ReadonlySet<string> = new Set<keyof Carrier>([
  "startAngle",
  "tipX",
  "tipY",
  "originY",
  "shortArm",
  "mass",
  "inertia",
  "inertiaCos2",
  "moment",
  "levelMoment",
  "hanger",
  "spring",
  "floats",
  "endStop",
  "counterweightSize",
]);
const KNOWN_SETUP: ReadonlySet<string> = new Set<keyof SwingSetup>([
  "carrier",
  "mass",
  "slingLength",
  "troughHeight",
  "troughFriction",
  "releaseAngle",
  "gravity",
  "lean",
  "leanAcross",
  "horizon",
]);

/** Position and velocity of the projectile as it comes free. */
export interface Release {
  x: number;
  y: number;
  vx: number;
  vy: number;
  /** To the right of the bearing; 0 without them. */
  z?: number;
  vz?: number;
}

const UNSURE = 0;
const RELEASED = 1;

export class QuickRelease {
  /** Draws for which the careful swing was needed. */
  careful = 0;
  private readonly solver: Dop853;
  private readonly dense = new Float64Array(DENSE_LENGTH);
  private readonly probe = new Float64Array(MAX_SIZE);
  private readonly scratch = new Float64Array(MAX_SIZE);
  private readonly tip = new Float64Array(4);
  private readonly ball = new Float64Array(4);
  private readonly release: Release = { x: 0, y: 0, vx: 0, vy: 0 };
  /** How long the careful swing is followed at first, s; the whole horizon when undefined. */
  private soon: number | undefined;

  /** @param declared decides how far careful swings are followed, so that no draw depends on those before it */
  constructor(
    private readonly declared: HazardRequest,
    accuracy = ACCURACY,
  ) {
    this.solver = new Dop853(accuracy, accuracy);
  }

  /**
   * The release as meant, in an object that the next call overwrites; null when the loop never slips.
   * @param request of a swung machine
   * @param motion of it, if it is at hand
   * @throws CannotThrow
   */
  of(request: HazardRequest, motion = new Motion(setupOf(request, meantFrame(request)))): Release | null {
    const { setup } = motion;
    if (isKnown(setup) && this.follow(motion) === RELEASED) {
      const { release, ball } = this;
      release.x = ball[0];
      release.y = ball[1];
      release.vx = ball[2];
      release.vy = ball[3];
      return release;
    }
    const frame = meantFrame(request);
    if (this.careful++ === 0) {
      const meant = moved(this.declared, frame).releases.nominal;
      this.soon = meant ? LATER * meant.time : undefined;
    }
    if (this.soon !== undefined && this.soon < setup.horizon) {
      const { nominal } = moved({ ...request, horizon: this.soon }, frame).releases;
      if (nominal) return nominal;
    }
    return moved(request, frame).releases.nominal;
  }

  private follow(motion: Motion): typeof RELEASED | typeof UNSURE {
    const { solver, dense, probe, ball } = this;
    const { setup } = motion;
    const { carrier, horizon, releaseAngle } = setup;
    const { y, yEnd } = solver;
    const start = startState(motion, y);
    if (start === CUP) return this.throwFromCup(motion);
    if (start !== TROUGH && start !== SWING) return UNSURE;
    const size = stateSize(SWING);
    const longest = 0.2 * Math.sqrt(Math.max(carrier.tipY, setup.slingLength) / setup.gravity);
    let time = 0;
    let steps = 0;
    if (start === TROUGH) {
      solver.begin(motion.rightHandSide(TROUGH), size, longest, FIRST_STEP);
      for (;;) {
        if (steps++ > MOST_STEPS || time >= horizon) return UNSURE;
        // The forces are those at the end of the step, where the equations were evaluated last.
        solver.attempt(longest);
        const lifted = motion.normal <= 0;
        if (lifted) this.toLiftOff(motion);
        if (!(motion.tension > 0) || yEnd[5] * motion.sliding <= 0 || this.stopped(setup)) return UNSURE;
        time += solver.stepTaken;
        solver.accept();
        if (lifted) break;
      }
      this.toSwing(motion);
    }
    // Between 0 and 180° at the start, and continuous from then on.
    const turns = 2 * Math.PI * Math.round((Math.PI / 2 - (y[4] - y[0])) / (2 * Math.PI));
    if (y[4] - y[0] + turns <= releaseAngle) return this.letGo(motion, SWING, y);
    const level = releaseAngle - turns;
    // On a frame that leans, the trough may lie below the ground of the firing point.
    let clear = false;
    solver.begin(motion.rightHandSide(SWING), size, longest, FIRST_STEP);
    for (;;) {
      if (steps++ > MOST_STEPS || time >= horizon) return UNSURE;
      solver.attempt(longest);
      if (!(motion.tension > 0) || this.stopped(setup)) return UNSURE;
      motion.projectileOnFrame(SWING, yEnd, ball);
      const height = motion.height(ball[0], ball[1]);
      const above = ball[1] - setup.troughHeight;
      clear ||= Math.min(height, above) > 0;
      if ((clear ? height : Math.max(height, above)) <= 0) return UNSURE;
      if (yEnd[4] - yEnd[0] <= level) {
        solver.dense(dense, 0);
        evaluateDense(dense, 0, this.slipping(level), size, probe);
        return this.letGo(motion, SWING, probe);
      }
      time += solver.stepTaken;
      solver.accept();
    }
  }

  /** Ends the step just attempted where the trough no longer bears the projectile. */
  private toLiftOff(motion: Motion): void {
    const { solver, dense, probe, scratch } = this;
    solver.dense(dense, 0);
    const share = fallThroughZero(
      (x) => {
        evaluateDense(dense, 0, x, stateSize(TROUGH), probe);
        motion.evaluate(TROUGH, probe, scratch);
        return motion.normal;
      },
      0,
      1,
      WIDTH,
    );
    solver.endAt(dense, share);
    motion.evaluate(TROUGH, solver.yEnd, scratch);
  }

  /** The share of the step just attempted at which the sling's angle to the arm falls to `level`. */
  private slipping(level: number): number {
    const { dense } = this;
    return fallThroughZero(
      (x) => evaluateDenseAt(dense, 0, x, 4) - evaluateDenseAt(dense, 0, x, 0) - level,
      0,
      1,
      WIDTH,
    );
  }

  /** Out of a cup the projectile comes free as it no longer pushes, at the latest where the arm is stopped. */
  private throwFromCup(motion: Motion): typeof RELEASED | typeof UNSURE {
    const { solver, dense, probe, scratch } = this;
    const { carrier, gravity, horizon } = motion.setup;
    const cup = motion.rightHandSide(CUP);
    const size = stateSize(CUP);
    const held = (y: Float64Array) => {
      cup(y, scratch);
      return Math.min(motion.tension, stopGap(carrier, y[0]));
    };
    if (!(held(solver.y) > 0)) return UNSURE;
    const longest = 0.2 * Math.sqrt(carrier.tipY / gravity);
    solver.begin(cup, size, longest, FIRST_STEP);
    let time = 0;
    for (let steps = 0; steps < MOST_STEPS && time < horizon; steps++) {
      solver.attempt(longest);
      if (held(solver.yEnd) <= 0) {
        solver.dense(dense, 0);
        const at = (x: number) => {
          evaluateDense(dense, 0, x, size, probe);
          return held(probe);
        };
        evaluateDense(dense, 0, fallThroughZero(at, 0, 1, WIDTH), size, probe);
        return this.letGo(motion, CUP, probe);
      }
      time += solver.stepTaken;
      solver.accept();
      if (solver.y[1] > 0) return UNSURE;
    }
    return UNSURE;
  }

  private letGo(motion: Motion, phase: Phase, y: Float64Array): typeof RELEASED | typeof UNSURE {
    motion.projectile(phase, y, this.ball);
    return this.ball[1] > 0 ? RELEASED : UNSURE;
  }

  private stopped({ carrier }: SwingSetup): boolean {
    return stopGap(carrier, this.solver.yEnd[0]) <= 0;
  }

  /** The projectile lifts off the trough and swings about the tip. */
  private toSwing(motion: Motion): void {
    const { tip, ball } = this;
    const { y } = this.solver;
    motion.projectileOnFrame(TROUGH, y, ball);
    motion.tipOnFrame(y, tip);
    const across = ball[0] - tip[0];
    const up = ball[1] - tip[1];
    y[4] = Math.atan2(up, across);
    y[5] = (across * (ball[3] - tip[3]) - up * (ball[2] - tip[2])) / (across * across + up * up);
  }
}

/** Whether a setup holds nothing but what this file knows: other parts must be absent, null or 0. */
function isKnown(setup: SwingSetup): boolean {
  const { spring, endStop } = setup.carrier;
  // A spring changes its law past its stop, so the arm must not come there.
  const wound = !spring || (endStop?.of === "arm" && endStop.at >= spring.stop);
  return wound && onlyKnown(setup, KNOWN_SETUP) && onlyKnown(setup.carrier, KNOWN_CARRIER);
}

function onlyKnown(parts: object, known: ReadonlySet<string>): boolean {
  for (const name in parts) {
    if (!known.has(name) && (parts as Record<string, unknown>)[name]) return false;
  }
  return true;
}
