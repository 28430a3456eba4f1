/** How the tuning page says what it found. Pure. */
import { atLeastText } from "@/app/_ui/beside-limit";
import { distanceText, energyText, loadText } from "@/app/_ui/hazard-sheet/words";
import type { tuning } from "@/lib/throw";
import { type Dimension, formatQuantity, type UnitSystem } from "@/lib/units";

export const measureLabels: Record<tuning.Measure, string> = {
  slingPull: "Largest pull in the sling",
  armReserve: "Arm's reserve against bending",
  stopEnergy: "Energy that meets the stop",
  forward: "Worst ahead",
  backward: "Worst behind",
};

export function measureText(measure: tuning.Measure, value: number | null, system: UnitSystem): string {
  if (value === null) return "–";
  if (measure === "slingPull") return loadText(value, "force", system);
  if (measure === "stopEnergy") return energyText(value, system);
  if (measure === "armReserve") return `${atLeastText(value)} times`;
  return distanceText(value, system);
}

export const knobText = (value: number, dimension: Dimension, system: UnitSystem): string =>
  formatQuantity(value, dimension, system);

/** A difference of distance, without its sign: in as many digits as it deserves. */
function moveText(metres: number, system: UnitSystem): string {
  const shown = system === "us" ? Math.abs(metres) / 0.3048 : Math.abs(metres);
  return formatQuantity(Math.abs(metres), "distance", system, { digits: shown < 9.95 ? 1 : 0 });
}

/** Less than is worth a sentence of its own, m. */
export const UNTOLD = 0.05;

const stepText = ({ steps, unit }: tuning.Sensitivity) =>
  unit === "°" ? `${steps}°` : `${steps}${unit ? ` ${unit}` : ""}`;

const lower = (label: string) => label.charAt(0).toLowerCase() + label.slice(1);

/** "1° of release angle is 0.9 m: more throws shorter." */
export function stepSentence(step: tuning.Sensitivity, system: UnitSystem): string {
  const { up, down, change, course } = step;
  const amount = `${stepText(step)} of ${lower(step.label)}`;
  const way = (moved: number) => `${moveText(moved, system)} ${moved < 0 ? "shorter" : "farther"}`;
  if (step.end)
    return `${amount} is ${moveText(change, system)}: more throws ${change < 0 ? "shorter" : "farther"}.`;
  if (up === null && down === null) return `${amount} more or less, and nothing is thrown.`;
  if (up === null) return `${amount} more, and nothing is thrown; less throws ${way(down as number)}.`;
  if (down === null) return `${amount} less, and nothing is thrown; more throws ${way(up)}.`;
  if (course === "jumps")
    return `Within ${amount} the throw jumps: more throws ${way(up)}, less ${way(down)}. Stay away from it.`;
  if (course === "turns")
    return `${amount} more throws ${way(up)}, less ${way(down)}: it stands at its ${up < 0 ? "best" : "worst"}.`;
  return `${amount} is ${moveText(change, system)}: more throws ${change < 0 ? "shorter" : "farther"}.`;
}

export function goalText(goal: tuning.Goal, system: UnitSystem): string {
  if (goal.kind === "farthest") return "the farthest throw";
  return `a mark at ${distanceText(goal.distance, system)}, ${goal.prefer === "steadiest" ? "the steadiest" : "the gentlest"} that hits it`;
}
