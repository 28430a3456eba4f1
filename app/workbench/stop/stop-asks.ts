/** The numbers that the stop designer asks for, by name. */
import type { Dimension } from "@/lib/units";

export interface Asked {
  label: string;
  dimension: Dimension;
  help: string;
  optional: boolean;
  start?: number;
}

const asked = (
  label: string,
  dimension: Dimension,
  help: string,
  optional = true,
  start?: number,
): Asked => ({
  label,
  dimension,
  help,
  optional,
  ...(start === undefined ? {} : { start }),
});

export const QUANTITIES = {
  energy: asked("Arriving energy", "energy", "Of all that moves when it meets the stop.", false, 2000),
  movingMass: asked("Moving mass", "mass", "As it feels at the stop; for its speed and deceleration."),
  drive: asked("Driving force", "force", "What weight or springs go on pushing with; none if left empty."),
  radius: asked(
    "Where the stop catches the arm",
    "length",
    "From the pivot; half the arm if left empty. Nearer to the pivot the forces grow.",
  ),
  stroke: asked("Way of the stop", "length", "Over which it brakes.", false, 0.3),
  force: asked("Peak force", "force", "The most that it and what holds it shall bear.", false, 20000),
  deceleration: asked("Deceleration, times gravity", "ratio", "The greatest allowed.", false, 20),
  efficiency: asked(
    "Mean over peak force",
    "ratio",
    "What is usual for the kind if left empty; 1 if it crushes evenly, 0.5 for a spring.",
  ),
  shearStrength: asked(
    "Bolt's shear strength",
    "stress",
    "As its maker states it; by its class if left empty.",
  ),
  designFactor: asked("Design factor of the bolts", "ratio", "On the peak force.", false, 3),
  frameMass: asked("Frame's mass", "mass", "As declared on What may break if left empty."),
  footprint: asked("Length of the base", "length", "As declared on What may break if left empty."),
  friction: asked(
    "Friction on the ground",
    "ratio",
    "0.3 if nothing is declared (common practice, no source).",
  ),
  height: asked("Height of the stop", "length", "Above the ground; of track or pivot if left empty."),
  dropMass: asked("Weight to drop", "mass", "One that needs about 1.5 m if left empty."),
} as const satisfies Record<string, Asked>;
export type QuantityName = keyof typeof QUANTITIES;
