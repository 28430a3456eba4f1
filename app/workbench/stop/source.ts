/** Where the energy comes from: what arrives at the machine's own stop, what a machine without one lets loose, or a typed number. */
import type { Breakage } from "@/lib/throw";

export interface Source {
  value: string;
  label: string;
  energy: number;
  /** At the stop, s from the trigger; null without a stop of its own. */
  arrives: number | null;
}

export const TYPED = "typed";

/** Everything that the machine may send to a stop, the largest first. */
export function sourcesOf(found: Breakage | null): Source[] {
  if (!found) return [];
  const { arrivals, energies, stop } = found;
  const labels = {
    "dry-fire": "Dry fire",
    torn: "Sling that tears at the worst instant",
    throw: "Throw as meant",
  } as const;
  const own = (Object.keys(labels) as (keyof typeof labels)[]).flatMap((life): Source[] => {
    const arrival = arrivals[life];
    if (!arrival) return [];
    const { energy, arrives } = arrival;
    return [{ value: life, label: labels[life], energy, arrives }];
  });
  if (!stop && energies) {
    own.push({
      value: "dry-fire",
      label: "All that a dry fire lets loose",
      energy: energies.dryFire,
      arrives: null,
    });
    const { energyLeft } = found.loads;
    if (energyLeft !== null && energyLeft > 0)
      own.push({
        value: "throw",
        label: "All that a throw as meant leaves",
        energy: energyLeft,
        arrives: null,
      });
  }
  return own.sort((a, b) => b.energy - a.energy);
}
