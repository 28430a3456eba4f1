/**
 * Source: NIST Special Publication 811 (2008), appendix B.8, "Factors for units listed alphabetically". Bold
 * factors there are exact; inHg is given to 7 digits ("inch of mercury, conventional").
 */
import { describe, expect, it } from "vitest";
import { type Dimension, parseQuantity, toSI, unitOf } from "@/lib/units";

const FACTORS: [unit: string, dimension: Dimension, si: number][] = [
  ["ft", "length", 3.048e-1],
  ["in", "length", 2.54e-2],
  ["yd", "length", 9.144e-1],
  ["mi", "length", 1.609344e3],
  ["lb", "mass", 4.5359237e-1],
  ["oz", "mass", 2.8349523125e-2],
  ["short tons", "mass", 9.0718474e2],
  ["long tons", "mass", 1.0160469088e3],
  ["lbf", "force", 4.4482216152605],
  ["mph", "speed", 4.4704e-1],
  ["ft/s", "speed", 3.048e-1],
  ["km/h", "speed", 1 / 3.6],
  ["kn", "speed", 1852 / 3600],
  ["gal", "volume", 3.785411784e-3],
  ["ft²", "area", 9.290304e-2],
  ["acres", "area", 4.0468564224e3],
  ["atm", "pressure", 1.01325e5],
];

/** Printed to 7 significant digits in the source, because not exact there. */
const ROUNDED: [unit: string, dimension: Dimension, si: number][] = [
  ["psi", "pressure", 6.894757e3],
  ["inHg", "pressure", 3.386389e3],
  ["mmHg", "pressure", 1.333224e2],
  ["ft·lbf", "energy", 1.355818],
  ["lb·ft²", "inertia", 4.214011e-2],
  ["lb·in²", "inertia", 2.926397e-4],
];

describe("NIST SP 811 conversion factors", () => {
  it.each(FACTORS)("1 %s of %s is exact", (symbol, dimension, si) => {
    expect(Math.abs(toSI(1, unitOf(dimension, symbol)) / si - 1)).toBeLessThan(3e-16);
  });

  it.each(ROUNDED)("1 %s of %s to the 7 digits printed", (symbol, dimension, si) => {
    expect(Math.abs(toSI(1, unitOf(dimension, symbol)) / si - 1)).toBeLessThan(2e-7);
  });

  it("reads the defining points of the Fahrenheit scale: 32 °F and 212 °F (SP 811, B.5)", () => {
    expect(parseQuantity("32 °F", "temperature", "metric")).toEqual({ ok: true, value: 273.15 });
    const boiling = parseQuantity("212", "temperature", "us");
    expect(boiling.ok && boiling.value).toBeCloseTo(373.15, 10);
  });
});
