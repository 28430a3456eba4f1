/** The stop designer's words for kinds, limits and bolts. */
import type { UnitSystem } from "@/app/_ui/units-cookie";
import type { StopKind, StopLimit } from "@/lib/throw";
import { formatQuantity } from "@/lib/units";

export const KIND_WORDS: Record<StopKind, { label: string; note: string }> = {
  crush: {
    label: "Crushable",
    note: "Bags of sand, stacked card, stiff foam: spent after one blow, put in new ones after each.",
  },
  timber: {
    label: "Timber that bends",
    note: "A beam between two supports. It springs back, and breaks without a warning: look at it after each blow.",
  },
  rubber: {
    label: "Rubber",
    note: "Buffers or tyres: stiffer the more they are pressed, and in the cold. They push back.",
  },
  "rope-loop": {
    label: "Rope loop",
    note: "A loop that catches and stretches. It pulls back, and a rope that parts whips: nobody in its line.",
  },
  spring: { label: "Spring", note: "Gives nearly all of it back: the arm returns as fast as it came." },
  curve: {
    label: "As measured",
    note: "Force against way as you measured it; what it gives back is not known.",
  },
};

export const LIMIT_WORDS: Record<StopLimit, string> = {
  stroke: "The way there is",
  force: "The force that it may bear",
  deceleration: "The deceleration that the machine may bear",
};

export const PLANE_WORDS = { "1": "One cut", "2": "Two cuts, held on both sides" } as const;

export const wayText = (metres: number, system: UnitSystem): string =>
  formatQuantity(metres, "length", system, { digits: 2 });
