/** How these pages write their numbers. */
import { loadText } from "@/app/_ui/hazard-sheet/words";
import type { UnitSystem } from "@/app/_ui/units-cookie";
import { type Dimension, formatQuantity } from "@/lib/units";

/** A measured length, to the centimetre or the eighth of an inch. */
export const sizeText = (metres: number, system: UnitSystem): string =>
  formatQuantity(metres, "length", system, { digits: 2 });

/** A gap or a packing, in millimetres or inches. */
export const gapText = (metres: number, system: UnitSystem): string =>
  system === "metric" ? `${Math.round(metres * 1000)} mm` : `${(metres / 0.0254).toFixed(2)} in`;

export const massText = (kilograms: number, system: UnitSystem): string =>
  formatQuantity(kilograms, "mass", system, { digits: Math.abs(kilograms) < 10 ? 1 : 0 });

/** With its weight beside it: what a scale says and what a plate may say. */
export const weightText = (kilograms: number, gravity: number, system: UnitSystem): string =>
  `${massText(kilograms, system)} (${formatQuantity(kilograms * gravity, "force", system, { digits: 0 })})`;

export const shareText = (share: number): string => `${Number((100 * share).toFixed(1))} %`;

export const leanText = (degrees: number): string => `${degrees.toFixed(1)}°`.replace("-", "−");

/** One of the machine's own numbers. */
export function figureText(value: number, dimension: Dimension, system: UnitSystem): string {
  if (dimension === "ratio") return String(Number(value.toPrecision(2)));
  if (dimension === "angle") return leanText(value);
  if (dimension === "length") return sizeText(value, system);
  if (dimension === "mass") return formatQuantity(value, "mass", system);
  return loadText(value, dimension, system);
}
