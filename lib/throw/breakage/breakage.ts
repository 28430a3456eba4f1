/**
 * What may break, in the time of a preview: the loads of the declared machine, of a dry fire and of a sling that
 * tears, without the search of the tolerance box.
 */
import { moved, nominalThrow } from "../case";
import type { HazardRequest } from "../contracts";
import type { Loads } from "../contracts/loads";
import { type Arrival, arrivalOf, driveAlong, type MachineStop, machineStopOf } from "../faults/arrivals";
import { type Tears, tearsOf } from "../faults/tears";
import { formulaLoads } from "../loads/formula-loads";
import type { Lives } from "../loads/lives";
import { dryFire, swingLives } from "../loads/loads";
import { HARDWARE_DESIGN_FACTOR, SwingLoads } from "../loads/swing-loads";
import { machineEnergy } from "../loads/unloaded";
import { gravityOf } from "../setup";
import { storedEnergy } from "../swing/energy";
import { meantFrame } from "../worst/box";
import {
  armLoads,
  chamberLoads,
  hardwareLoads,
  type Life,
  type PartLoad,
  slingLoads,
  stopLoads,
} from "./parts";

export interface Breakage {
  /** Everything that bears a load, in each life that it has. */
  parts: PartLoad[];
  loads: Loads;
  /** What meets the end stop after a throw as meant, in a dry fire and after the worst tear. */
  arrivals: Partial<Record<Life, Arrival>>;
  stop: MachineStop | null;
  /** Of arm and counterweight above the least that they can reach, J; null for machines without an arm. */
  energies: { dryFire: number; afterThrow: number | null } | null;
  /** When the loop slips, s from the trigger; null when it never does or the kind has no swing. */
  slips: number | null;
  /** Of the throw as meant, m; null when nothing is thrown. */
  distance: number | null;
  /** m/s² */
  gravity: number;
}

/** @throws CannotThrow */
export function breakage(request: HazardRequest): Breakage {
  const worked = moved(request, meantFrame(request));
  const lives = swingLives(request, worked);
  const { nominal } = worked.releases;
  const common = {
    slips: lives ? (nominal?.time ?? null) : null,
    distance: nominalThrow(request, nominal)?.distance ?? null,
    gravity: gravityOf(request),
  };
  if (!lives) {
    const loads = formulaLoads(request);
    return { ...common, loads, parts: chamberLoads(loads), arrivals: {}, stop: null, energies: null };
  }
  const reckoned = new SwingLoads(lives, nominal, request.strengths);
  const loads = reckoned.loads();
  const dry = reckoned.unloaded(dryFire(lives));
  const { pose, trace } = lives;
  const least = machineEnergy(pose.motion, trace.phase(0), trace.stateAt(0, 0)) - storedEnergy(pose.setup);
  const tears = tearsOf(lives, nominal, least, () => {});
  const arrivals = arrivalsOf(lives, tears);
  const stop = machineStopOf(pose.setup, arrivals["dry-fire"] ?? arrivals.throw ?? arrivals.torn);
  return {
    ...common,
    loads,
    parts: [
      ...slingLoads(loads),
      ...armLoads(loads, reckoned.bendings(), dry),
      ...hardwareLoads("pivot", loads, dry?.pivot),
      ...hardwareLoads("hanger", loads, dry?.hanger),
      ...stopLoads(arrivals, driveAlong(stop), request.strengths?.stop ?? {}, HARDWARE_DESIGN_FACTOR),
    ],
    arrivals,
    stop,
    energies: { dryFire: tears.largestDryFire, afterThrow: tears.largestMeant },
  };
}

function arrivalsOf({ pose }: Lives, { meant, dryFire, worst }: Tears): Breakage["arrivals"] {
  const out: Breakage["arrivals"] = {};
  if (meant) out.throw = arrivalOf(pose.setup, meant);
  if (dryFire) out["dry-fire"] = arrivalOf(pose.setup, dryFire);
  if (worst) out.torn = arrivalOf(pose.setup, worst);
  return out;
}
