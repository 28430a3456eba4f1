/**
 * Release speed and direction from points tapped on the frames of a film: the motion after the release is a throw under
 * known gravity, drag and wind, fitted by least squares in place and speed at the release. Uncertainties are those of JCGM
 * 100:2008: the taps' from the fit, all others by working it out again with each input moved by its standard
 * uncertainty; expanded by Student's factor for the effective degrees of freedom (G.4.1).
 */
import { budgetOf, spread, totalOf } from "./film-budget";
import { ENOUGH, fallJudged, noFall } from "./film-fall";
import { type Pixel, pixelsOf, shareOf } from "./film-plane";
import { type FilmRequest, type Worked, type Working, workingOf } from "./film-working";
import {
  FEWEST_POINTS,
  FOOTAGE_SOURCES,
  type Footage,
  type FootageResult,
  type FootageSource,
} from "./footage";
import { slingAngleAt } from "./sling-angle";
import type { Told } from "./throw-fit";

const RADIAN = Math.PI / 180;
/** All that moves the fall: when the loop slipped does not. */
const OF_FALL = FOOTAGE_SOURCES.filter((source) => source !== "instant");

export function releaseFromFootage(footage: Footage, request: FilmRequest): FootageResult {
  const { lengths, plumb, frames, tap, held, free, pace, pivot, towards } = footage;
  if (lengths.length === 0 || lengths.some((each) => !(pixelsOf(each) > 4 * tap && each.length > 0)))
    return { ok: false, why: "scale" };
  if (plumb && !(pixelsOf({ from: plumb[0], to: plumb[1] }) > 4 * tap)) return { ok: false, why: "plumb" };
  const flown = frames.flatMap(({ time, projectile }) =>
    projectile && time >= free ? [{ time, projectile }] : [],
  );
  if (flown.length < FEWEST_POINTS) return { ok: false, why: "few-points" };
  if (held === null) return { ok: false, why: "held" };
  if (held >= free) return { ok: false, why: "order" };

  const working = workingOf(footage, flown, (held + free) / 2, request);
  const best = working.work({});
  if (best.slow === null) return { ok: false, why: "pace" };
  const { plane, fit, slow } = best;
  const budget = budgetOf(footage, request, working, { ...best, slow }, flown.length);
  const speed = totalOf(budget, "speed");
  const angle = totalOf(budget, "angle");
  const down = totalOf(budget, "down", OF_FALL).uncertainty;
  const ahead = totalOf(budget, "ahead", OF_FALL).uncertainty;
  if (pace.by === "fall" && !(fit.fall && down < ENOUGH * working.gravity)) return { ok: false, why: "pace" };

  const fall =
    fit.fall && pace.by === "told"
      ? fallJudged(
          { value: fit.fall.down, uncertainty: down },
          { value: fit.fall.ahead, uncertainty: ahead },
          working.gravity,
        )
      : noFall;
  const frameAt = (time: number) => frames.find((frame) => frame.time === time);
  const origin = plane.at(pivot ?? (lengths[0] as { from: Pixel }).from);
  return {
    ok: true,
    speed: { value: Math.hypot(fit.vx, fit.vy), uncertainty: speed.uncertainty },
    launchAngle: { value: Math.atan2(fit.vy, fit.vx) / RADIAN, uncertainty: angle.uncertainty / RADIAN },
    coverage: { speed: speed.factor, angle: angle.factor },
    backwards: fit.vx < 0,
    slingAngle: slingAngleAt(pivot, towards, tap, frameAt(held), frameAt(free)),
    at: { ahead: fit.x - origin.x, up: fit.y - origin.y },
    between: [held, free],
    points: flown.length,
    budget: Object.fromEntries(
      FOOTAGE_SOURCES.map((source) => {
        const effect = budget.effects[source];
        return [source, { speed: effect.speed, angle: effect.angle / RADIAN }];
      }),
    ) as Record<FootageSource, { speed: number; angle: number }>,
    roughness: budget.roughness,
    fall,
    slower: slowerOf(
      footage,
      request,
      pace.by === "fall" ? slow : fall.verdict === "time" ? working.work({ slow: null }).slow : null,
    ),
    wind: { along: working.still.wind, within: working.windWithin },
    lengthsOff: lengthsOff(footage, working, best),
  };
}

/** By how much, with its uncertainty: that of the fall in the film at its true pace. */
function slowerOf(footage: Footage, request: FilmRequest, slow: number | null): Told | null {
  if (slow === null) return null;
  const { frames, held, free, clock } = footage;
  const paced = releaseFromFootage(
    {
      ...footage,
      frames: frames.map((frame) => ({ ...frame, time: frame.time / slow })),
      held: (held ?? free) / slow,
      free: free / slow,
      clock: clock / slow,
      pace: { by: "told", timing: 0 },
    },
    request,
  );
  const size = paced.ok ? paced.fall.size : null;
  return size && { value: slow, uncertainty: (slow * size.uncertainty) / (2 * size.value) };
}

/** More than measuring, tapping and a camera off the square explain. */
function lengthsOff({ lengths, tap, camera }: Footage, { work }: Working, { plane }: Worked): number | null {
  if (lengths.length < 2) return null;
  const off = spread(plane.shares);
  const turned = camera.square * RADIAN;
  const askew = [{ yaw: turned }, { yaw: -turned }, { pitch: turned }, { pitch: -turned }].map((change) =>
    spread(work(change).plane.shares.map((share, i) => 1 + share - (plane.shares[i] as number))),
  );
  const near = camera.depth / plane.distance;
  const explained = 2 * Math.hypot(...lengths.map((each) => shareOf(each, tap))) + Math.max(...askew) + near;
  return off > explained ? off : null;
}
