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
const NEAR = 0.9;

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
  for (const sign of [1, -1]) {
    const base = (sign > 0 ? airs.forward : airs.backward)[0];
    const air = { ...base, mass, diameter, area, drag: lowDrag, lift: 0, sideLift: 0 };
    const reached = instants.map(({ x, y, vx, vy }) => sign * scout.fly(air, x, y, vx, vy).x);
    const best = Math.max(0, ...reached);
    const aside = instants.map(({ x, y, vx, vy }) => Math.hypot(vx, vy) * scout.fly(air, x, y, vx, vy).time);
    const widest = Math.max(0, ...aside);
    thinned(instants, (i) => reached[i] > NEAR * best || aside[i] > NEAR * widest).forEach(
      ({ x, y, vx, vy, time }) => {
        search.tryAll({ x, y, vx, vy, time, tornAt: null, station: null });
      },
    );
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

/** Those that are wanted, at most 60 of them evenly. */
function thinned(instants: readonly Instant[], wanted: (i: number) => boolean): Instant[] {
  const kept = instants.filter((_, i) => wanted(i));
  const every = Math.ceil(kept.length / 60);
  return kept.filter((_, i) => i % every === 0);
}
