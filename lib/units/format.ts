/** Writing quantities: a value, its unit, and no more digits than it deserves. */
import { type Dimension, differenceFromSI, fromSI, shownUnit, type UnitSystem } from "./table";

export interface FormatOptions {
  /** Digits after the decimal point of the shown unit, kept even when they are zeros. */
  digits?: number | undefined;
  /** Standard or expanded uncertainty in SI: the last digit shown is the one it leaves meaningful. */
  uncertainty?: number | undefined;
}

const EIGHTHS = ["", "1/8", "1/4", "3/8", "1/2", "5/8", "3/4", "7/8"] as const;
const INCH = 0.0254;
/** Significant digits of a number that was written in the unit of the input field: finer than anyone measures a machine. */
const FIELD_DIGITS = 6;
/** Of one that comes of another unit: as many as a tape or a scale has. The field keeps the value itself. */
const CONVERTED_DIGITS = 4;
/** Marks on the field are surveyed to the centimetre. */
const DISTANCE_DECIMALS = 2;
/** These are the same in every system. */
const UNCONVERTED: readonly Dimension[] = ["angle", "time", "ratio"];
const MOST_DECIMALS = 12;

/** A number without an exponent, as short as it can be written exactly. */
export function formatPlain(value: number): string {
  const text = String(value + 0);
  return text.includes("e") ? value.toFixed(Math.abs(value) < 1 ? 20 : 0).replace(/\.?0+$/, "") : text;
}

/** Removes a trailing fraction of zeros, and the sign of a zero. */
function trimmed(text: string): string {
  const short = text.includes(".") ? text.replace(/\.?0+$/, "") : text;
  return /^-0*$/.test(short) ? "0" : short;
}

function fixed(value: number, decimals: number): string {
  const places = Math.min(decimals, MOST_DECIMALS);
  if (places >= 0) {
    const text = value.toFixed(places);
    return /^-[0.]*$/.test(text) ? text.slice(1) : text;
  }
  const step = 10 ** -places;
  return String(Math.round(value / step) * step + 0);
}

/**
 * How many decimals an uncertainty leaves meaningful: it keeps one significant digit, or two when the first
 * is a 1 or 2 (JCGM 100:2008, 7.2.6, asks for at most two). Negative: digits before the point fall away.
 */
export function decimalsFor(uncertainty: number): number {
  if (!(uncertainty > 0 && Number.isFinite(uncertainty))) return MOST_DECIMALS;
  const [mantissa, exponent] = uncertainty.toExponential(1).split("e") as [string, string];
  return -Number(exponent) + (Number(mantissa) < 3 ? 1 : 0);
}

function checked(value: number): number {
  if (!Number.isFinite(value)) throw new RangeError("Only a finite number can be written.");
  return value;
}

/** Whether options ask for digits, and how many, in a unit. */
function askedDecimals(
  options: FormatOptions | undefined,
  dimension: Dimension,
  system: UnitSystem,
): number | null {
  if (options?.digits !== undefined) return options.digits;
  if (options?.uncertainty === undefined) return null;
  const decimals = decimalsFor(
    Math.abs(differenceFromSI(options.uncertainty, shownUnit(dimension, system).unit)),
  );
  return decimals === MOST_DECIMALS ? null : decimals;
}

interface FeetAndInches {
  negative: boolean;
  feet: number;
  inches: string;
}

/** Splits a length, rounded to eighths or to decimals of an inch, so that no 12 inches are left over. */
function feetAndInches(metres: number, decimals: number | "eighths"): FeetAndInches {
  const steps = decimals === "eighths" ? 8 : 10 ** decimals;
  const count = Math.round((Math.abs(metres) / INCH) * steps);
  const feet = Math.floor(count / (12 * steps));
  const left = count - feet * 12 * steps;
  let inches = trimmed((left / steps).toFixed(decimals === "eighths" ? 3 : decimals));
  if (decimals === "eighths") {
    const whole = Math.floor(left / 8);
    const eighth = EIGHTHS[left % 8] as string;
    inches = eighth === "" ? String(whole) : whole === 0 ? eighth : `${whole} ${eighth}`;
  }
  return { negative: metres < 0 && count > 0, feet, inches };
}

function inchDecimals(
  metres: number,
  options: FormatOptions | undefined,
  field: boolean,
): number | "eighths" {
  if (options?.digits !== undefined) return Math.min(Math.max(options.digits, 0), 6);
  if (options?.uncertainty !== undefined && options.uncertainty > 0) {
    const decimals = Math.max(0, decimalsFor(options.uncertainty / INCH));
    return decimals === 0 || decimals === 1 ? "eighths" : Math.min(decimals, 6);
  }
  // A field must not change what it shows: eighths only where they are exact to a tenth of a thousandth.
  const inches = Math.abs(metres / INCH);
  const eighths = inches * 8;
  if (!field || Math.abs(eighths - Math.round(eighths)) < 8e-4) return "eighths";
  return isWritten(inches, 3) ? 3 : Math.min(3, Math.max(0, decimalsOf(inches, CONVERTED_DIGITS)));
}

/** Decimals that leave so many significant digits; below 0 where digits before the point are left out. */
const decimalsOf = (shown: number, digits: number): number =>
  digits - Math.floor(Math.log10(Math.abs(shown) || 1)) - 1;

/** Whether so many decimals say all of a number: then somebody wrote it so. */
const isWritten = (shown: number, decimals: number): boolean =>
  Math.abs(Number(shown.toFixed(decimals)) - shown) <= Math.abs(shown) * 1e-9;

/** The number in the unit shown, as text, without the unit. */
function numberText(
  value: number,
  dimension: Dimension,
  system: UnitSystem,
  options: FormatOptions | undefined,
  field: boolean,
): string {
  const { unit, decimals } = shownUnit(dimension, system);
  const shown = fromSI(value, unit);
  const asked = askedDecimals(options, dimension, system);
  if (asked !== null) return fixed(shown, asked);
  if (!field) return trimmed(fixed(shown, decimals));
  const most = Math.min(Math.max(0, decimalsOf(shown, FIELD_DIGITS)), MOST_DECIMALS);
  if (UNCONVERTED.includes(dimension) || isWritten(shown, most)) return trimmed(fixed(shown, most));
  const least = dimension === "distance" ? DISTANCE_DECIMALS : 0;
  return trimmed(fixed(shown, Math.min(most, Math.max(least, decimalsOf(shown, CONVERTED_DIGITS)))));
}

/**
 * A value (SI; angles in degrees, temperatures in kelvin) with its unit: "87.4 m", "13 ft 9 3/8 in", "42.5°".
 * Without options the digits are those a reader wants of that dimension, trailing zeros left out.
 * Throws RangeError on what is not finite.
 */
export function formatQuantity(
  value: number,
  dimension: Dimension,
  system: UnitSystem,
  options?: FormatOptions,
): string {
  checked(value);
  if (dimension === "length" && system === "us") {
    const { negative, feet, inches } = feetAndInches(value, inchDecimals(value, options, false));
    const parts = [feet > 0 ? `${feet} ft` : "", feet > 0 && inches === "0" ? "" : `${inches} in`];
    return (negative ? "−" : "") + parts.filter(Boolean).join(" ");
  }
  const { symbol } = shownUnit(dimension, system).unit;
  const text = numberText(value, dimension, system, options, false).replace("-", "−");
  if (symbol === "") return text;
  return symbol === "°" ? `${text}°` : `${text} ${symbol}`;
}

/** For whoever reads it, in whichever units: "12.3 m (40.4 ft)". */
export const formatBoth = (value: number, dimension: Dimension, digits: number): string =>
  `${formatQuantity(value, dimension, "metric", { digits })} (${formatQuantity(value, dimension, "us", { digits })})`;

/**
 * The number as an input field shows it, without a unit: to 6 significant digits where it was written in this unit, to 4
 * where it was converted; a US length is written in feet and inches (13' 9 3/8"). `parseQuantity` reads what it says. Throws RangeError on what is not finite.
 */
export function formatNumber(
  value: number,
  dimension: Dimension,
  system: UnitSystem,
  options?: FormatOptions,
): string {
  checked(value);
  if (dimension !== "length" || system !== "us") return numberText(value, dimension, system, options, true);
  const { negative, feet, inches } = feetAndInches(value, inchDecimals(value, options, true));
  const parts = [feet > 0 ? `${feet}'` : "", feet > 0 && inches === "0" ? "" : `${inches}"`];
  return (negative ? "-" : "") + parts.filter(Boolean).join(" ");
}

/** A value and its uncertainty, both SI, with as many digits as the uncertainty leaves: "87.43 ± 0.05 m". */
export function formatUncertain(
  value: number,
  uncertainty: number,
  dimension: Exclude<Dimension, "length">,
  system: UnitSystem,
): string {
  checked(value);
  const { unit } = shownUnit(dimension, system);
  const spread = Math.abs(differenceFromSI(uncertainty, unit));
  if (!(spread > 0 && Number.isFinite(spread))) return formatQuantity(value, dimension, system);
  const decimals = decimalsFor(spread);
  const text = `${fixed(fromSI(value, unit), decimals).replace("-", "−")} ± ${fixed(spread, decimals)}`;
  return unit.symbol === "" ? text : unit.symbol === "°" ? `${text}°` : `${text} ${unit.symbol}`;
}

/** The unit's sign beside an input field; empty for a ratio. */
export function unitLabel(dimension: Dimension, system: UnitSystem): string {
  return dimension === "length" && system === "us" ? "ft in" : shownUnit(dimension, system).unit.symbol;
}
