/** How the numbers of what is looked at and reckoned before a machine throws are written. */
import { atLeastText } from "@/app/_ui/beside-limit";
import { loadText } from "@/app/_ui/hazard-sheet/words";
import type { UnitSystem } from "@/app/_ui/units-cookie";
import { type Dimension, formatQuantity } from "@/lib/units";

const EIGHTH = 0.0254 / 8; // m

/** A measured length, to the centimetre or the eighth of an inch; with `more` to its tenth, or to decimals of an inch. */
export const sizeText = (metres: number, system: UnitSystem, more = 0): string =>
  system === "us" && more === 0
    ? formatQuantity(metres, "length", system)
    : formatQuantity(metres, "length", system, { digits: 2 + more });

const stepOf = (system: UnitSystem) => (system === "us" ? EIGHTH : 0.01);

/** What has to pass under or between something: never smaller than it is. */
export const atMostSize = (metres: number, system: UnitSystem): string =>
  sizeText(Math.ceil(metres / stepOf(system) - 1e-6) * stepOf(system), system);

/** What is left between two things: never more than there is. */
export const atLeastSize = (metres: number, system: UnitSystem): string =>
  sizeText(Math.floor(metres / stepOf(system) + 1e-6) * stepOf(system), system);

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
