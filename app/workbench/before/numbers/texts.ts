/** How these pages write their numbers. */
import { atLeastText } from "@/app/_ui/beside-limit";
import { loadText } from "@/app/_ui/hazard-sheet/words";
import type { UnitSystem } from "@/app/_ui/units-cookie";
import { type Dimension, formatQuantity } from "@/lib/units";

/** A measured length, to the centimetre or the eighth of an inch. */
export const sizeText = (metres: number, system: UnitSystem, more = 0): string =>
  formatQuantity(metres, "length", system, { digits: 2 + more });

/** A gap or a packing, in millimetres or inches. */
export const gapText = (metres: number, system: UnitSystem, more = 0): string =>
  (system === "metric"
    ? `${(metres * 1000).toFixed(more)} mm`
    : `${(metres / 0.0254).toFixed(2 + more)} in`
  ).replace("-", "−");

export const massText = (kilograms: number, system: UnitSystem, more = 0): string =>
  formatQuantity(kilograms, "mass", system, { digits: (Math.abs(kilograms) < 10 ? 1 : 0) + more });

/** With its weight beside it: what a scale says and what a plate may say. */
export const weightText = (kilograms: number, gravity: number, system: UnitSystem, more = 0): string =>
  `${massText(kilograms, system, more)} (${formatQuantity(kilograms * gravity, "force", system, { digits: 0 })})`;

export const shareText = (share: number): string => `${Number((100 * share).toFixed(1))} %`;

export const leanText = (degrees: number, more = 0): string =>
  `${degrees.toFixed(1 + more)}°`.replace("-", "−");

/** One of the machine's own numbers. */
export function figureText(value: number, dimension: Dimension, system: UnitSystem): string {
  if (dimension === "ratio") return atLeastText(value);
  if (dimension === "angle") return leanText(value);
  if (dimension === "length") return sizeText(value, system);
  if (dimension === "mass") return formatQuantity(value, "mass", system);
  return loadText(value, dimension, system);
}
