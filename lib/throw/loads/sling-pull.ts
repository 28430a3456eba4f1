/** The largest pull in the sling until the loop slips and nothing else, for searches that ask it of many machines. */
import type { Strengths } from "../contracts/strengths";
import type { Instant } from "../release";
import { inCup } from "../swing/carrier";
import { jerksOf } from "./jerks";
import type { Lives } from "./lives";
import { slingStiffness } from "./materials";
import { Peaks } from "./peaks";

/** N, jerks included; null for what has no sling. The same as the larger of `loads().sling`'s tension and jerk. */
export function slingPull(
  lives: Lives,
  nominal: Instant | null,
  strengths: Strengths | undefined,
): number | null {
  const { pose, trace } = lives;
  if (inCup(pose.setup)) return null;
  const peaks = new Peaks(1, (step, fraction, out) => {
    pose.recall(trace, step, fraction);
    out[0] = pose.tension;
  });
  for (const stretch of lives.throw) peaks.add(stretch);
  const tension = Math.max(0, peaks.found[0].value);
  const { stiffness } = slingStiffness(strengths?.sling, pose.setup.slingLength, tension);
  const jerks = jerksOf(lives, nominal, stiffness, [0]).filter(({ hangUp }) => !hangUp);
  return Math.max(tension, ...jerks.map(({ peakForce }) => peakForce));
}
