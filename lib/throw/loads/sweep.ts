/** The room that arm, sling, projectile, counterweight and hanger sweep. */
import type { Extent, Sweep } from "../contracts/loads";
import { LOOSE } from "../swing/motion";
import type { Trace } from "../swing/trace";
import { type Lives, wholeOf } from "./lives";
import { Peaks, type Stretch } from "./peaks";
import type { Unloaded } from "./unloaded";

const PARTS = ["The tip of the arm", "The short end", "The counterweight", "The projectile"] as const;
const WAYS = ["height", "forward", "backward"] as const;
const PROJECTILE = 3;
/** A sling that has let go trails behind the tip at most at its whole length. */
const SLING = "The empty sling";

/** Largest of every part each way over stretches of a trace; the projectile only where it is on the machine. */
function extremes(
  lives: Lives,
  trace: Trace,
  stretches: readonly Stretch[],
  loaded: boolean,
  radius: number,
) {
  const { pose, body } = lives;
  const measure = (step: number, fraction: number, out: Float64Array) => {
    pose.place(loaded ? trace.phase(step) : LOOSE, trace.stateAt(step, fraction));
    const points = [pose.tip, pose.shortEnd, pose.counterweight, pose.ball];
    for (const point of points) pose.toGround(point);
    for (let part = 0; part < PARTS.length; part++) {
      let size = 0;
      if (part === 2) size = body.counterweightSize;
      if (part === PROJECTILE) size = loaded ? radius : Number.NEGATIVE_INFINITY;
      out[3 * part] = points[part][1] + size;
      out[3 * part + 1] = points[part][0] + size;
      out[3 * part + 2] = -points[part][0] + size;
    }
  };
  const peaks = new Peaks(3 * PARTS.length, measure);
  for (const stretch of stretches) peaks.add(stretch);
  return peaks.found.map(({ value }) => value);
}

interface Reached {
  extent: Extent;
  by: Sweep["by"];
}

function reachedBy(values: readonly number[]): Reached {
  const extent = { height: 0, forward: 0, backward: 0 };
  const by = { height: "", forward: "", backward: "" };
  for (let part = 0; part < PARTS.length; part++) {
    WAYS.forEach((way, i) => {
      const value = values[3 * part + i];
      if (by[way] !== "" && !(value > extent[way])) return;
      extent[way] = value;
      by[way] = PARTS[part];
    });
  }
  return { extent, by };
}

/**
 * What the machine sweeps: held on to the horizon on every branch, unloaded after the loop has slipped, and unloaded
 * from the trigger.
 * @param radius of the projectile, m
 * @param dryFire the machine unloaded from the trigger
 */
export function sweepOf(lives: Lives, dryFire: Unloaded | null, radius: number): Sweep {
  const { pose, trace } = lives;
  const loaded = extremes(lives, trace, lives.throw, true, radius);
  const all = [...loaded];
  const raise = (values: readonly number[]) => {
    values.forEach((value, i) => {
      all[i] = Math.max(all[i], value);
    });
  };
  raise(extremes(lives, trace, lives.hangUp, true, radius));
  const { slingLength } = pose.setup;
  const trailing = { height: 0, forward: 0, backward: 0 };
  for (const run of [lives.after, dryFire]) {
    if (!run) continue;
    const values = extremes(lives, run.trace, wholeOf(run), false, radius);
    raise(values);
    WAYS.forEach((way, i) => {
      trailing[way] = Math.max(trailing[way], values[i] + slingLength);
    });
  }
  const { extent, by } = reachedBy(all);
  for (const way of WAYS) {
    if (trailing[way] <= extent[way]) continue;
    extent[way] = trailing[way];
    by[way] = SLING;
  }
  const slips = lives.hangUp.length > 0 || lives.after !== null;
  return { all: extent, untilRelease: slips ? reachedBy(loaded).extent : null, by };
}
