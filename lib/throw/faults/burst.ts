/** A projectile that breaks up in the sling or as it is let go. */
import type { Case } from "../case";
import type { Fault } from "../contracts/faults";
import type { Policy } from "../contracts/policy";
import type { Projectile } from "../contracts/projectile";
import { projectileAir } from "../flight/projectile";
import { Scout } from "../flight/scout";
import type { Instant } from "../release";
import { circle, type PieceFlights, reachOf } from "./flights";

/** Shapes that break; a ball of stone, iron or resin does not. Common practice, no source. */
const BREAKABLE: readonly Projectile["shape"][] = ["pumpkin", "irregular"];
/** Of the projectile's mass. */
const SHARE = 0.5;
/** Share of the farthest, by the quick flight without lift, from which a candidate is flown with care. */
const NEAR = 0.95;
/** Of those, how many are flown, evenly over the swing. */
const MOST = 16;

/** Null for what does not break. */
export function projectileBursts(
  projectile: Projectile,
  { releases, airs }: Pick<Case, "releases" | "airs">,
  policy: Policy,
  flights: PieceFlights,
): Fault | null {
  if (!BREAKABLE.includes(projectile.shape)) return null;
  const mass = SHARE * projectile.mass;
  const diameter = projectile.diameter * Math.cbrt(SHARE);
  const { lowDrag, lift, area } = projectileAir({ mass, diameter, shape: "irregular" });
  const of = { name: "Half of the projectile", mass, like: { diameter, drag: lowDrag, lift } };
  const search = flights.search(of);
  const scout = new Scout();
  const instants = releases.list.filter(({ hangUp }) => !hangUp || policy.hangUp);
  const scores = {
    forward: new Float64Array(instants.length),
    backward: new Float64Array(instants.length),
    side: new Float64Array(instants.length),
  };
  for (const way of ["forward", "backward"] as const) {
    const air = { ...airs[way][0], mass, diameter, area, drag: lowDrag, lift: 0, sideLift: 0 };
    instants.forEach(({ x, y, vx, vy }, i) => {
      const impact = scout.fly(air, x, y, vx, vy);
      scores[way][i] = way === "forward" ? impact.x : -impact.x;
      scores.side[i] = Math.max(scores.side[i], Math.hypot(vx, vy) * impact.time);
    });
  }
  for (const way of ["forward", "backward", "side"] as const) {
    for (const { x, y, vx, vy, time } of nearBest(instants, scores[way])) {
      search.fly({ x, y, vx, vy, time, tornAt: null, station: null }, way);
    }
  }
  const pieces = search.pieces();
  const { reach, rest } = reachOf(pieces);
  const around = releases.allRound !== null;
  return {
    code: "projectile-bursts",
    title: "The projectile breaks up in the sling or as it is let go",
    assumptions: [
      "Half of it flies at any velocity that the whole may be let go with, an irregular body with low drag and lift of either sign.",
      policy.hangUp ? "Hang-ups count." : "Hang-ups do not count, as the safety officer set it.",
    ],
    notes: ["Smaller pieces are slowed more and fall nearer."],
    figures: [],
    pieces,
    reach: around ? circle(Math.max(...Object.values(reach))) : reach,
    rest: around ? circle(Math.max(...Object.values(rest))) : rest,
    allRound: around,
  };
}

/** Those whose score is near the best, the best of all among them. */
function nearBest(instants: readonly Instant[], scores: Float64Array): Instant[] {
  const best = scores.reduce((most, score) => Math.max(most, score), 0);
  const kept = instants.filter((_, i) => scores[i] >= best);
  const near = instants.filter((_, i) => scores[i] > NEAR * best);
  const every = Math.ceil(near.length / MOST);
  return [...kept, ...near.filter((_, i) => i % every === 0)];
}
