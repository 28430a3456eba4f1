/** A quantity in the reader's units with the other system's beside it, for tables that others copy from. */
import { type Dimension, type FormatOptions, formatQuantity, type UnitSystem } from "@/lib/units";

export function bothUnits(
  value: number,
  dimension: Dimension,
  system: UnitSystem,
  options?: FormatOptions,
): string {
  return `${formatQuantity(value, dimension, system, options)} (${formatQuantity(value, dimension, otherSystem(system), options)})`;
}

export const otherSystem = (system: UnitSystem): UnitSystem => (system === "metric" ? "us" : "metric");
