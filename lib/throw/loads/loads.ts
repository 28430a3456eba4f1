/** Loads and sweep of one exact machine. */
import type { Case } from "../case";
import type { Loads, Sweep } from "../contracts/loads";
import type { HazardRequest } from "../contracts/request";
import type { Strengths } from "../contracts/strengths";
import { isSwung } from "../setup";
import { formulaLoads, formulaSweep } from "./formula-loads";
import { type Lives, livesOf } from "./lives";
import { modeOf } from "./pose";
import { sweepOf } from "./sweep";
import { SwingLoads } from "./swing-loads";
import type { Unloaded } from "./unloaded";

/** A request with what its parts can bear. */
export type StrengthRequest = HazardRequest & { strengths?: Strengths | undefined };

/** What loads, sweep and faults share: make it once a case. Null for a machine that is not swung. */
export function swingLives(request: StrengthRequest, worked: Pick<Case, "trace" | "releases">): Lives | null {
  const { machine } = request;
  if (!isSwung(machine)) return null;
  return livesOf({ ...request, machine }, worked, request.strengths);
}

/**
 * What the parts bear from the trigger on, each against its declared strength.
 * @param samples a step of the swing; the peaks do not depend on it
 */
export function loads(
  request: StrengthRequest,
  worked: Pick<Case, "trace" | "releases">,
  lives: Lives | null = swingLives(request, worked),
  samples?: number,
): Loads {
  if (!lives) return formulaLoads(request);
  return new SwingLoads(lives, worked.releases.nominal, request.strengths, samples).loads();
}

/** The room swept to the horizon; null when nothing is known of the machine's size. */
export function sweep(
  request: StrengthRequest,
  worked: Pick<Case, "trace" | "releases">,
  lives: Lives | null = swingLives(request, worked),
): Sweep | null {
  if (!lives) return formulaSweep(request);
  return sweepOf(lives, dryFire(lives), request.projectile.diameter / 2);
}

/** The machine triggered with nothing in its sling. The run is the caller's to keep. */
export function dryFire({ trace, unloaded }: Lives): Unloaded {
  return unloaded.run(trace.phase(0), trace.stateAt(0, 0).slice(), modeOf(trace, 0), 0, true);
}
