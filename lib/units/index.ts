/** Quantities at the edges of the program: read what a person typed, write what the program knows. */
export { beaufort } from "./beaufort";
export {
  type FormatOptions,
  formatBoth,
  formatNumber,
  formatQuantity,
  formatUncertain,
  unitLabel,
} from "./format";
export { type ParsedQuantity, parseQuantity } from "./parse";
export { MARK_UNITS, type MarkUnit, roundDown } from "./round-down";
export { type Dimension, fromSI, toSI, type Unit, type UnitSystem, unitOf } from "./table";
export { downToTwoDigits, upToTwoDigits } from "./two-digits";
