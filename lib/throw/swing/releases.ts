/**
 * The instants at which the projectile may come free: all of the recorded swing, sampled densely enough that a
 * flight changes little between neighbours, with the sling's angle followed continuously.
 */

import { fallThroughZero } from "../numeric/root";
import type { Instant, Releases } from "../release";
import { CUP, LOOSE, LOOSE_ON_TROUGH, type Motion, SWING } from "./motion";
import type { Segment, Trace } from "./trace";

/** Between neighbours the velocity turns by no more than this, rad. */
const TURN = 0.06;
/** …and changes in size by no more than this share. */
const CHANGE = 0.05;
const FIRST_PASS_ENDS = -Math.PI / 2;

/** Angle of the line from tip to projectile to the outward line of the arm, rad, only known up to full turns. */
function rawAngle(motion: Motion, phase: number, y: Float64Array, scratch: Float64Array): number {
  if (phase === SWING) return y[4] - y[0];
  // A cup has no sling whose angle could fall: its first pass does not end.
  if (phase === CUP) return 0;
  const { troughHeight } = motion.setup;
  motion.tipOnFrame(y, scratch);
  const height = phase === LOOSE ? y[6] : troughHeight;
  return Math.atan2(height - scratch[1], y[4] - scratch[0]) - y[0];
}

/** The value that differs from `raw` by full turns and lies nearest to `near`. */
function unwrap(raw: number, near: number): number {
  return raw + 2 * Math.PI * Math.round((near - raw) / (2 * Math.PI));
}

const BRANCH_NAMES = {
  none: "Until the end stop, or without one",
  holds: "The end stop holds",
  fails: "The end stop fails",
} as const;

/** The releases of an arm machine: every instant of its recorded swing. */
export class SwingReleases implements Releases {
  readonly list: Instant[] = [];
  /**
   * The first instant after lift-off at which the sling's angle has fallen to the release angle; out of a cup, the
   * first at which it no longer pushes, at the latest the one at which the arm meets its stop.
   */
  nominal: Instant | null = null;
  readonly allRound = null;
  readonly branches: readonly string[];
  private readonly releaseAngle: number;
  private readonly ball = new Float64Array(4);
  private readonly scratch = new Float64Array(4);

  /**
   * @param coarse how many times wider apart the instants may lie than the worst case asks for: to choose among
   *   machines, not to say how far one throws
   */
  constructor(
    readonly trace: Trace,
    private readonly coarse = 1,
  ) {
    this.releaseAngle = trace.motion.setup.releaseAngle;
    const { segments } = trace;
    this.branches = segments.map(({ stop }) => BRANCH_NAMES[stop]);
    let fork = { angle: Math.PI / 2, hangUp: false, released: false };
    segments.forEach((segment, index) => {
      const start = segment.stop === "none" ? fork : { ...fork };
      const end = this.sample(segment, index, start);
      if (segment.stop === "none") fork = end;
    });
  }

  near(instant: Instant, fraction: number): Instant {
    return this.at(instant.step, fraction, instant.segment, instant.slingAngle, instant.hangUp);
  }

  /** One instant, with the sling's angle unwrapped near a known one. */
  private at(step: number, fraction: number, segment: number, nearAngle: number, hangUp: boolean): Instant {
    const { trace, ball } = this;
    const phase = trace.phase(step);
    const y = trace.stateAt(step, fraction);
    const slingAngle = unwrap(rawAngle(trace.motion, phase, y, this.scratch), nearAngle);
    trace.motion.projectile(phase, y, ball);
    return {
      time: trace.begin(step) + fraction * trace.size(step),
      step,
      fraction,
      segment,
      x: ball[0],
      y: ball[1],
      vx: ball[2],
      vy: ball[3],
      slingAngle,
      hangUp,
      afterSlack: trace.afterSlack(step),
      stop: trace.segments[segment]?.stop ?? "none",
    };
  }

  private sample(
    segment: Segment,
    index: number,
    start: { angle: number; hangUp: boolean; released: boolean },
  ) {
    const { trace, list } = this;
    let { angle, hangUp, released } = start;
    for (let step = segment.from; step < segment.to; step++) {
      const parts = this.parts(step);
      const phase = trace.phase(step);
      const flying =
        phase === SWING ||
        phase === LOOSE ||
        phase === CUP ||
        (phase === LOOSE_ON_TROUGH && trace.liftOff < trace.begin(step));
      for (let part = 0; part <= parts; part++) {
        const instant = this.at(step, part / parts, index, angle, hangUp);
        const from = Math.max(0, part - 1) / parts;
        // The stop is taken as working for the throw as meant.
        if (!released && flying && segment.stop !== "fails" && this.heldBy(instant) <= 0) {
          released = true;
          this.nominal = this.crossing(instant, from, angle, (near) => this.heldBy(near));
          if (phase === CUP) list.push(this.nominal);
        }
        if (!hangUp && instant.slingAngle <= FIRST_PASS_ENDS) {
          hangUp = true;
          list.push(this.crossing(instant, from, angle, (near) => near.slingAngle - FIRST_PASS_ENDS));
          instant.hangUp = true;
        }
        angle = instant.slingAngle;
        list.push(instant);
      }
    }
    if (!released && segment.end === "stop" && trace.phase(segment.to - 1) === CUP) {
      this.nominal = list[list.length - 1];
      return { angle, hangUp, released: true };
    }
    return { angle, hangUp, released };
  }

  /** How far the pin is from letting the loop go, rad, or how hard the cup pushes, N: positive while it is held. */
  private heldBy({ step, fraction, slingAngle }: Instant): number {
    const { trace } = this;
    if (trace.phase(step) === CUP) return trace.forcesAt(step, fraction).tension;
    return slingAngle - this.releaseAngle;
  }

  /** The instant between `from` and `to` of the same step at which `value` falls to 0. */
  private crossing(to: Instant, from: number, nearAngle: number, value: (near: Instant) => number): Instant {
    const valueAt = (x: number) => value(this.at(to.step, x, to.segment, nearAngle, false));
    const fraction = valueAt(from) <= 0 ? from : fallThroughZero(valueAt, from, to.fraction);
    return this.at(to.step, fraction, to.segment, nearAngle, false);
  }

  /** Into how many parts a step is divided. */
  private parts(step: number): number {
    const { trace, ball } = this;
    let turn = 0;
    let change = 0;
    let vx = 0;
    let vy = 0;
    let slow = 0;
    const looks = this.coarse > 1 ? 2 : 4;
    for (let look = 0; look <= looks; look++) {
      trace.projectileAt(step, look / looks, ball);
      const fast = Math.sqrt(ball[2] * ball[2] + ball[3] * ball[3]);
      if (look > 0) {
        turn += Math.abs(Math.atan2(vx * ball[3] - vy * ball[2], vx * ball[2] + vy * ball[3]));
        change += Math.abs(fast - slow) / Math.max(1, fast, slow);
      }
      vx = ball[2];
      vy = ball[3];
      slow = fast;
    }
    const { coarse } = this;
    return Math.min(
      64,
      Math.max(1, Math.ceil(turn / (coarse * TURN)), Math.ceil(change / (coarse * CHANGE))),
    );
  }
}
