/** The loads card's words for parts, lives and loads. */
import { loadText } from "@/app/_ui/hazard-sheet/words";
import type { UnitSystem } from "@/app/_ui/units-cookie";
import type { Life, PartLoad, PartName } from "@/lib/throw";
import type { Dimension } from "@/lib/units";

export const PART_WORDS: Record<PartName, { title: string; checks: string }> = {
  sling: { title: "Sling", checks: "whoever made the sling, and the inspector with it in hand" },
  arm: { title: "Arm in bending", checks: "somebody who grades timber or welds by trade" },
  pivot: { title: "Pivot and axle", checks: "somebody who sizes shafts and bearings by trade" },
  hanger: { title: "Counterweight's hanger", checks: "somebody who rigs loads by trade" },
  stop: { title: "End stop", checks: "the drop test of the stop designer, then the inspector" },
  chamber: { title: "Chamber", checks: "a pressure-vessel inspector, by the local code" },
};

export const LIFE_WORDS: Record<Life, string> = {
  throw: "Throw as meant",
  after: "Swinging on, unloaded",
  "hang-up": "Hang-up",
  "dry-fire": "Dry fire",
  torn: "Sling tears",
};

/** The film shows the throw and the machine that is held on to: other lives have no place in it. */
export const inFilm = ({ life, time, part }: PartLoad): boolean =>
  time !== null && part !== "chamber" && (life === "throw" || life === "hang-up" || life === "after");

const DIMENSIONS: Record<PartLoad["quantity"], Dimension> = {
  force: "force",
  stress: "stress",
  torque: "torque",
  gauge: "gauge",
  energy: "energy",
};

export const quantityText = (value: number, { quantity }: PartLoad, system: UnitSystem): string =>
  loadText(value, DIMENSIONS[quantity], system);
