/** The jerks with which a slack sling comes taut: what the projectile's speed loses in an instant, the sling must give. */
import type { Jerk } from "../contracts/loads";
import type { Instant } from "../release";
import { LOOSE, LOOSE_ON_TROUGH, SWING } from "../swing/motion";
import type { Lives } from "./lives";
import { bendingBeyond } from "./pose";

/** Impulses below this share of the sling's usual are no jerks but rounding. */
const LEAST = 1e-9;

/** A jerk with the bending moment that it puts on each station, N·m. */
export interface StationJerk extends Jerk {
  moments: number[];
}

/**
 * Every jerk of every branch. The peak force takes the sling as a spring: speed · √(stiffness · mass that it must
 * stop), with the machine giving way by its own inertia; the real one is less where arm and pouch give too.
 * @param stiffness N/m
 */
export function jerksOf(
  { trace, pose, body }: Lives,
  nominal: Instant | null,
  stiffness: number,
  stations: readonly number[],
): StationJerk[] {
  const out: StationJerk[] = [];
  const { mass } = pose.setup;
  const before = { ball: new Float64Array(4), tip: new Float64Array(4), rate: 0 };
  const [lost, kept] = [new Float64Array(4), new Float64Array(4)];
  const jerk = (last: number, next: number, late: boolean) => {
    pose.place(trace.phase(last), trace.stateAt(last, 1));
    before.ball.set(pose.ball);
    before.tip.set(pose.tip.subarray(0, 4));
    before.rate = pose.rate;
    lost.set(pose.ball);
    pose.toGround(lost);
    const phase = trace.phase(next);
    pose.place(phase, trace.stateAt(next, 0));
    const { ball, tip } = pose;
    const apart = Math.hypot(ball[0] - tip[0], ball[1] - tip[1]);
    if (!(apart > 0)) return;
    const ux = (ball[0] - tip[0]) / apart;
    const uy = (ball[1] - tip[1]) / apart;
    kept.set(ball);
    pose.toGround(kept);
    const lostX = kept[2] - lost[2];
    const lostY = kept[3] - lost[3];
    // On the trough only the level part is the sling's; it bears the rest.
    const impulse =
      phase === SWING
        ? mass * Math.hypot(lostX, lostY)
        : (mass * Math.abs(lostX)) / Math.max(0.05, Math.abs(ux));
    const speed =
      (before.ball[2] - before.tip[2]) * ux +
      (before.ball[3] - before.tip[3]) * uy -
      (ball[2] - tip[2]) * ux -
      (ball[3] - tip[3]) * uy;
    if (!(impulse > LEAST * mass) || !(speed > 0)) return;
    const peakForce = Math.sqrt(stiffness * impulse * speed);
    // While the force stands, tip and arm change their speed in the same proportion to it.
    const perImpulse = peakForce / impulse;
    const pull = peakForce * (uy * pose.ex - ux * pose.ey);
    const tipChange = (tip[3] - before.tip[3]) * pose.ex - (tip[2] - before.tip[2]) * pose.ey;
    const across = -tipChange * perImpulse;
    const turning = (pose.rate - before.rate) * perImpulse;
    // On the short arm it dies away towards the counterweight, which hardly moves in that time.
    const atPivot = Math.abs(bendingBeyond(body, 0, pull, across, turning));
    const moments = stations.map((station) =>
      station < 0
        ? atPivot * (1 + station / body.shortArm)
        : Math.abs(bendingBeyond(body, station, pull, across, turning)),
    );
    const moment = Math.max(...moments);
    const time = trace.begin(next);
    out.push({
      time,
      hangUp: late || (nominal !== null && time >= nominal.time),
      impulse,
      speed,
      peakForce,
      moment,
      moments,
    });
  };
  let fork = -1;
  for (const { stop, from, to } of trace.segments) {
    if (stop === "none") fork = to - 1;
    else if (stop === "holds" && to > from && fork >= 0 && isTaut(trace.phase(from))) jerk(fork, from, false);
    for (let step = from + 1; step < to; step++) {
      if (!isTaut(trace.phase(step - 1)) && isTaut(trace.phase(step))) jerk(step - 1, step, stop === "fails");
    }
  }
  return out;
}

const isTaut = (phase: number) => phase !== LOOSE && phase !== LOOSE_ON_TROUGH;
