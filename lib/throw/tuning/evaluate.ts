/**
 * One exact machine, quickly: how far it throws as meant, and what a team may set a limit to. The distance alone takes
 * a fraction of a millisecond; loads and worst throws some ten times as long, and only what is asked for is computed.
 */
import { airsOf, moved, nominalThrow } from "../case";
import { beyondLimits, refusals } from "../check";
import type { HazardRequest } from "../contracts/request";
import type { Nominal } from "../contracts/sheet";
import type { Lives } from "../loads/lives";
import { dryFire, loads, swingLives } from "../loads/loads";
import { slingPull } from "../loads/sling-pull";
import { kineticEnergy } from "../loads/unloaded";
import type { Instant } from "../release";
import { type Frame, isSwung, setupOf } from "../setup";
import { QuickRelease } from "../spread/quick-release";
import { Motion } from "../swing/motion";
import { CannotThrow } from "../swing/swing";
import { framesOf, meantFrame } from "../worst/box";
import { scanWorst } from "../worst/scan";

/** What a limit may be set to; null where the machine has no such thing, or its strength is not declared. */
export interface Measures {
  /** Largest pull in the sling until the loop slips, jerks included, N. */
  slingPull: number | null;
  /** Strength of the arm over its largest stress, in the throw as meant and after it. */
  armReserve: number | null;
  /** Energy that meets the end stop, J: the larger of a throw as meant and a dry fire. */
  stopEnergy: number | null;
  /** Farthest first impact of any release at the declared numbers, m; without hang-ups where the policy leaves them out. */
  forward: number | null;
  backward: number | null;
}

export type Measure = keyof Measures;
export const MEASURES: readonly Measure[] = ["slingPull", "armReserve", "stopEnergy", "forward", "backward"];

export interface Evaluation extends Measures {
  /** The throw as meant, downrange positive; null where nothing is thrown. */
  nominal: Nominal | null;
}

/** Relative error of swings that are only compared. */
const ROUGH = { accuracy: 1e-7, coarse: 2 };

/** Whether anything forbids to compute or to declare this machine; its numbers' ranges are the caller's. */
const isRefused = (request: HazardRequest, motion?: Motion) =>
  refusals(request, motion).length > 0 || beyondLimits(request).length > 0;

/** What cannot be thrown is told by null; any other fault is one of the program. */
export function orNull<Answer>(compute: () => Answer): Answer | null {
  try {
    return compute();
  } catch (error) {
    if (error instanceof CannotThrow || error instanceof RangeError) return null;
    throw error;
  }
}

/** Distances of many machines that differ little from a declared one. */
export class Thrower {
  /** Machines thrown so far. */
  thrown = 0;
  private readonly quick: QuickRelease;

  /** @param efficiency share of the energy at release that the projectile gets: of a machine that was calibrated */
  constructor(
    declared: HazardRequest,
    private readonly efficiency = 1,
  ) {
    this.quick = new QuickRelease(declared);
  }

  /** First impact of the throw as meant, m, downrange positive; null where nothing is thrown. */
  distance(request: HazardRequest): number | null {
    return this.throw(request)?.distance ?? null;
  }

  throw(request: HazardRequest): Nominal | null {
    this.thrown++;
    return orNull(() => {
      const release = this.release(request);
      return release && nominalThrow(request, this.slowed(release));
    });
  }

  private slowed(release: Instant): Instant {
    if (this.efficiency === 1) return release;
    const share = Math.sqrt(this.efficiency);
    const { vx, vy, vz = 0 } = release;
    return { ...release, vx: share * vx, vy: share * vy, vz: share * vz };
  }

  private release(request: HazardRequest): Instant | null {
    const frame = meantFrame(request);
    if (isSwung(request.machine) && frame === "held") {
      const motion = new Motion(setupOf(request));
      if (isRefused(request, motion)) return null;
      const found = this.quick.of(request, motion);
      // The quick release has no instant of its own: nothing that is judged here depends on it.
      return found && ({ time: 0, ...found } as Instant);
    }
    if (isRefused(request)) return null;
    return moved(request, frame, isSwung(request.machine) ? ROUGH : undefined).releases.nominal;
  }
}

/**
 * @param wanted what is asked for beside the throw as meant
 * @param rough good for comparing: about 1e-3
 * @returns null when the machine cannot be computed
 */
export function evaluate(
  request: HazardRequest,
  wanted: readonly Measure[] = MEASURES,
  rough = false,
): Evaluation | null {
  if (isRefused(request)) return null;
  return orNull(() => {
    const out: Evaluation = {
      nominal: null,
      slingPull: null,
      armReserve: null,
      stopEnergy: null,
      forward: null,
      backward: null,
    };
    for (const frame of framesOf(request)) evaluateOn(frame, request, wanted, rough, out);
    return out;
  });
}

/** Adds what one frame does: the larger load, the farther throw. */
function evaluateOn(
  frame: Frame,
  request: HazardRequest,
  wanted: readonly Measure[],
  rough: boolean,
  out: Evaluation,
): void {
  const { releases, trace } = moved(request, frame, rough ? ROUGH : undefined);
  out.nominal = nominalThrow(request, releases.nominal);
  const most = (measure: Measure, value: number | null | undefined) => {
    if (value === null || value === undefined || !wanted.includes(measure)) return;
    out[measure] = Math.max(out[measure] ?? 0, value);
  };
  if (wanted.includes("forward") || wanted.includes("backward")) {
    const scan = scanWorst(releases, airsOf(request));
    const counted = request.policy?.hangUp === false ? scan.firstPass : scan;
    most("forward", counted.forward?.distance ?? 0);
    most("backward", counted.backward?.distance ?? 0);
  }
  const asksLoads = wanted.some((measure) => measure !== "forward" && measure !== "backward");
  const lives = asksLoads ? swingLives(request, { trace, releases }) : null;
  if (!lives) return;
  if (wanted.includes("slingPull")) most("slingPull", slingPull(lives, releases.nominal, request.strengths));
  if (wanted.includes("armReserve") && request.strengths?.arm) {
    const reserve = loads(request, { trace, releases }, lives).arm?.reserve.reserve ?? null;
    if (reserve !== null) out.armReserve = Math.min(out.armReserve ?? Infinity, reserve);
  }
  if (wanted.includes("stopEnergy")) most("stopEnergy", stopEnergyOf(lives, releases.nominal));
}

/** The larger of what meets the stop after a throw as meant and on a dry fire, J; null without a stop. */
function stopEnergyOf(lives: Lives, nominal: Instant | null): number | null {
  const { trace, pose, after, locked } = lives;
  if (!pose.setup.carrier.endStop) return null;
  const dry = dryFire(lives).arrival?.energy ?? 0;
  const [first] = trace.segments;
  // What is let go after the stop has been met meets it with the projectile still in the sling.
  const met = (nominal ? locked(nominal.step) : true) && first?.end === "stop";
  const meant = met
    ? kineticEnergy(pose.motion, trace.phase(first.to - 1), trace.stateAt(first.to - 1, 1))
    : (after?.arrival?.energy ?? 0);
  return Math.max(dry, meant);
}
