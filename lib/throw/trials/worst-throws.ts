/**
 * The worst throws that practice is held against: those of the machine as declared, in its own gust, for these are what
 * the keep-out zone is made of. Wind and projectile that were written down for a throw make none of them farther, and
 * neither does what else was changed for it: beyond the declared worst a throw has left the zone's numbers behind.
 */
import type { MeasuredThrow } from "../contracts/calibration";
import type { HazardRequest } from "../contracts/request";
import { machineKind } from "../machines/registry";
import { evaluate, orNull } from "../tuning/evaluate";
import { isInRange, withValues } from "../tuning/knobs";
import { findWorst } from "../worst/worst";

/** Farthest first impacts, m. */
export interface Ways {
  forward: number;
  backward: number;
}

export type WorstOf = (request: HazardRequest) => Ways;

/** The whole tolerance box, in seconds; what was searched once is remembered, for this takes nearly all of the time. */
export function searchedWorst(): WorstOf {
  const known = new Map<string, Ways>();
  return (request) => {
    const key = worstKey(request);
    const before = known.get(key);
    if (before) return before;
    const { worst } = findWorst(request);
    const found = { forward: worst.forward.distance, backward: worst.backward.distance };
    known.set(key, found);
    return found;
  };
}

/**
 * At the declared numbers alone, in milliseconds: nearer than the worst of the box, so that it holds sooner. Infinite
 * where it cannot be computed, which is for the search to say.
 */
export const quickWorst: WorstOf = (request) => {
  const found = evaluate(request, ["forward", "backward"]);
  return { forward: found?.forward ?? Infinity, backward: found?.backward ?? Infinity };
};

/** Of the machine as it was changed for one throw, where that throws less far than the declared one. */
export function ownWorst(request: HazardRequest, { settings = {} }: MeasuredThrow, worstOf: WorstOf): Ways {
  const declared = worstOf(request);
  const meantOnly = aimsOf(request);
  const changed = Object.entries(settings).filter(([name]) => !meantOnly.has(name));
  if (changed.length === 0) return declared;
  // One that cannot be was written down wrong: it hides nothing of the other throws.
  const own = orNull(() => {
    const asked = withValues(request, Object.fromEntries(changed));
    return isInRange(asked) ? worstOf(asked) : null;
  });
  return {
    forward: Math.min(declared.forward, own?.forward ?? Infinity),
    backward: Math.min(declared.backward, own?.backward ?? Infinity),
  };
}

/** What decides the throw as meant alone changes no worst throw. */
const aimsOf = ({ machine }: HazardRequest): ReadonlySet<string> =>
  new Set(machineKind(machine.kind).parameters.flatMap(({ name, onlyNominal }) => (onlyNominal ? name : [])));

function worstKey(request: HazardRequest): string {
  const aims = aimsOf(request);
  const { throws: _, ...rest } = request;
  const machine = Object.entries(request.machine).filter(([name]) => !aims.has(name));
  return JSON.stringify({ ...rest, machine });
}
