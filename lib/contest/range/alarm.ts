/**
 * A throw beyond the worst one computed: the model is wrong, or the machine is not what was declared, so the range holds.
 * Also for a mark that was measured long ago and comes in on a range that has long been cold: what is in doubt is not
 * that throw but the zone that people rely on now. The hold then says how old it is, and is called once for each mark.
 */
import type { Database } from "../../db";
import { LATE } from "../../range";
import { formatBoth } from "../../units";
import { programHold } from "./hold";

export interface BeyondWorst {
  fixId: string;
  machineName: string;
  /** From the firing point, and the worst throw of its sheet that way, m. */
  distance: number;
  worst: number;
  observedAt: Date;
}

export async function holdForThrow(db: Database, contestId: string, beyond: BeyondWorst): Promise<void> {
  const at = Date.now();
  const { fixId, machineName, distance, worst, observedAt } = beyond;
  const metres = (value: number) => formatBoth(value, "distance", 1);
  const why = `A throw of ${machineName} went ${metres(distance)}, beyond the worst one computed, ${metres(worst)}. The machine is not what was declared, or the model is wrong: nobody relies on its zone.${agoWords(at - observedAt.getTime())}`;
  await programHold(db, contestId, { id: `alarm-${fixId}`, at, by: null, why });
}

/** Said where it is not of this moment, so that nobody looks for it on the range. */
export function agoWords(ms: number): string {
  if (ms <= LATE) return "";
  const minutes = Math.round(ms / 60_000);
  const ago =
    minutes < 120 ? `${minutes} minutes` : minutes < 2880 ? `${Math.round(minutes / 60)} hours` : "days";
  return ` It was seen ${ago} before it was entered here.`;
}
