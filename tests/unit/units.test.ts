import { describe, expect, it } from "vitest";
import {
  beaufort,
  type Dimension,
  formatNumber,
  formatQuantity,
  formatUncertain,
  parseQuantity,
  type UnitSystem,
  unitLabel,
} from "@/lib/units";

const value = (text: string, dimension: Dimension, system: UnitSystem = "us") => {
  const parsed = parseQuantity(text, dimension, system);
  return parsed.ok ? parsed.value : `${parsed.reason}: ${parsed.message}`;
};

const TWELVE_SIX = 150 * 0.0254;

describe("feet and inches", () => {
  it.each([
    "12 ft 6 in",
    "12ft 6in",
    "12ft6",
    "12 ft 6",
    "12'6\"",
    "12' 6\"",
    "12'6",
    "12'-6\"",
    "12’ 6”",
    "12′ 6″",
    "12' 6''",
    "12 ft. 6 in.",
    "12 feet, 6 inches",
    "12 foot and 6 inches",
    "12 FT 6 IN",
    "12.5 ft",
    "12,5 ft",
    "12 1/2 ft",
    "12½ ft",
    "150 in",
    " 12\u00a0ft\u20096 in ",
  ])("%s", (text) => expect(value(text, "length", "metric")).toBeCloseTo(TWELVE_SIX, 12));

  it.each([
    ["6 1/2 in", 6.5],
    ["6-1/2 in", 6.5],
    ["6½ in", 6.5],
    ["1/8 in", 0.125],
    ['⅜"', 0.375],
    ["3' 2 3/16\"", 38.1875],
    ["-2 ft 3 in", -27],
    ["−2 ft 3 in", -27],
  ])("%s is %d in", (text, inches) => expect(value(text, "length")).toBeCloseTo(inches * 0.0254, 12));

  it("asks about 12-6, which is feet and inches only to a builder", () => {
    const parsed = parseQuantity("12-6", "length", "us");
    expect(parsed).toMatchObject({ ok: false, reason: "ambiguous" });
    expect(!parsed.ok && parsed.choices?.map((choice) => choice.label)).toEqual(["12 ft 6 in", "12.6 ft"]);
    expect(value("12-6", "length", "metric")).toMatch(/^not-a-number/);
  });
});

describe("numbers", () => {
  it.each([
    ["3,5", 3.5],
    ["3.5", 3.5],
    [".5", 0.5],
    [",5", 0.5],
    ["0,123", 0.123],
    ["1234,567", 1234.567],
    ["1,234.5", 1234.5],
    ["1.234,5", 1234.5],
    ["1,234,567", 1234567],
    ["1.234.567", 1234567],
    ["1 234,5", 1234.5],
    ["1.234", 1.234],
    ["+4", 4],
    ["1.5e3", 1500],
    ["2E-2", 0.02],
    ["1.5×10³", 1500],
    ["1.5·10^-2", 0.015],
    ["1/4", 0.25],
    ["1 1/2", 1.5],
  ])("%s is %d", (text, number) => expect(value(text, "length", "metric")).toBeCloseTo(number, 12));

  it("hands both readings of 1,234 back", () => {
    expect(parseQuantity("1,234 m", "distance", "metric")).toEqual({
      ok: false,
      reason: "ambiguous",
      message: "Is that 1234 m or 1.234 m? Choose one.",
      choices: [
        { label: "1234 m", value: 1234 },
        { label: "1.234 m", value: 1.234 },
      ],
    });
    const negative = parseQuantity("-1,234", "angle", "metric");
    expect(!negative.ok && negative.choices?.map((choice) => choice.value)).toEqual([-1234, -1.234]);
  });

  it("knows which reading is meant when only one makes sense", () => {
    expect(value("1,234 ft 6 in", "distance")).toBeCloseTo(1234.5 * 0.3048, 9);
  });

  it.each([
    "abc",
    "3..5",
    "1,23.5",
    "12,34,56",
    "5,",
    "~5",
    "1/0",
    "2 3/2 ft",
    "10-12 m",
    "12 6",
    "5 m 3",
    "2m50",
    "6 in 2 ft",
    "3 m 2 m",
    "5.5 ft 3 in",
    "5 ft 12 in",
    "5 m!",
    "12 ft 6 in x",
    "--5",
    "+",
    "-",
    "NaN",
    "Infinity",
    "1e999",
    "0x10",
    "٣",
    "9".repeat(500),
  ])("refuses %s in a sentence", (text) => {
    const parsed = parseQuantity(text, "length", "metric");
    expect(parsed).toMatchObject({ ok: false });
    expect(!parsed.ok && parsed.reason).not.toBe("ambiguous");
    expect(!parsed.ok && parsed.message).toMatch(/^.{10,250}[.]$/s);
  });

  it("tells an empty field from a wrong one", () => {
    expect(parseQuantity("  ", "mass", "us")).toMatchObject({
      reason: "empty",
      message: "Enter a mass, such as 9 lb 4 oz.",
    });
  });
});

describe("units", () => {
  it.each<[string, Dimension, number]>([
    ["2 m 50 cm", "length", 2.5],
    ["350 mm", "length", 0.35],
    ["40 lb", "mass", 18.1436948],
    ["9 lb 4 oz", "mass", 148 * 0.028349523125],
    ["2 tonnes", "mass", 2000],
    ["42° 30'", "angle", 42.5],
    ["42 deg", "angle", 42.5 - 0.5],
    ["85 mph", "speed", 37.9984],
    ["20 ft / s", "speed", 6.096],
    ["36 km/h", "speed", 10],
    ["12 kg·m²", "inertia", 12],
    ["12 kg m^2", "inertia", 12],
    ["12 kgm2", "inertia", 12],
    ["50 %", "ratio", 0.5],
    ["20 C", "temperature", 293.15],
    ["59 F", "temperature", 288.15],
    ["288.15 K", "temperature", 288.15],
    ["1013,25 hPa", "pressure", 101325],
    ["29.92 in Hg", "pressure", 29.92 * 3386.389],
    ["2 min 30 s", "time", 150],
    ["100 ft-lb", "energy", 135.58179483314],
  ])("%s of %s", (text, dimension, si) => expect(value(text, dimension, "metric")).toBeCloseTo(si, 9));

  // Factors by NIST SP 811 (2008), appendix B.8 (from memory), as many digits as it prints: pound-force foot
  // 1.355 818 N·m, pound-force inch 0.112 984 8 N·m, revolution per minute 0.104 719 8 rad/s, degree
  // 0.017 453 29 rad, psi 6894.757 Pa, pound per cubic foot 16.018 46 kg/m³.
  it.each<[string, Dimension, number]>([
    ["1 lbf·ft", "torque", 1.355818],
    ["1 ft-lb", "torque", 1.355818],
    ["1 lb-in", "torque", 0.1129848],
    ["1.2 kN·m", "torque", 1200],
    ["1 Nm", "torque", 1],
    ["1 N·m/rad", "stiffness", 1],
    ["1 N·m/°", "stiffness", 1 / 0.01745329],
    ["1 Nm per degree", "stiffness", 1 / 0.01745329],
    ["1 lbf·ft/rad", "stiffness", 1.355818],
    ["1 ft·lbf/deg", "stiffness", 1.355818 / 0.01745329],
    ["1 rpm", "rate", 0.1047198],
    ["1 rev/min", "rate", 0.1047198],
    ["1 rad/s", "rate", 1],
    ["1 °/s", "rate", 0.01745329],
    ["2 rev/s", "rate", 120 * 0.1047198],
    ["1 psi", "gauge", 6894.757],
    ["1 psig", "gauge", 6894.757],
    ["6.5 bar", "gauge", 650_000],
    ["100 kPa", "gauge", 100_000],
    ["1 psi", "stress", 6894.757],
    ["5 MPa", "stress", 5e6],
    ["1 lb/ft³", "density", 16.01846],
    ["7.8 g/cm3", "density", 7800],
  ])("%s of %s, as NIST prints it", (text, dimension, si) => {
    const read = value(text, dimension, "metric");
    expect(Number(read) / si).toBeCloseTo(1, 6);
  });

  it("shows what turns by the minute and a vessel's pressure above the air's", () => {
    expect(formatQuantity(Math.PI, "rate", "metric")).toBe("30 rev/min");
    expect(formatQuantity(Math.PI, "rate", "us")).toBe("30 rev/min");
    expect(formatQuantity(650_000, "gauge", "metric")).toBe("6.5 bar");
    expect(formatQuantity(650_000, "gauge", "us")).toBe("94.3 psi");
    expect(formatQuantity(100, "torque", "us")).toBe("73.8 lbf·ft");
    expect(formatQuantity(100, "stiffness", "us")).toBe("73.8 lbf·ft/rad");
    expect(value("240", "rate", "us")).toBeCloseTo(8 * Math.PI, 12);
    expect(value("90", "gauge", "us")).toBeCloseTo(620_528, 0);
    expect(value("six", "gauge", "us")).toMatch(/is not a gauge pressure. .* such as 90 psi/);
  });

  it("takes a bare number in the system's unit", () => {
    expect(value("10", "length", "metric")).toBe(10);
    expect(value("10", "length", "us")).toBeCloseTo(3.048, 12);
    expect(value("10", "mass", "us")).toBeCloseTo(4.5359237, 12);
    expect(value("1013", "pressure", "metric")).toBe(101300);
  });

  it("says what a wrong unit is a unit of", () => {
    expect(value("40 lb", "length")).toBe(
      "unknown-unit: “lb” is a unit of mass, and this is a length. Write, for example, 11 ft 6 in.",
    );
    expect(value("7 furlongs", "length")).toMatch(/^unknown-unit: The unit “furlongs” is not known/);
    expect(value("5 min", "length")).toMatch(/^unknown-unit: “min” is a unit of/);
  });

  it("asks which ton", () => {
    const parsed = parseQuantity("2 tons", "mass", "us");
    expect(!parsed.ok && parsed.choices?.map((choice) => choice.label)).toEqual([
      "2 t",
      "2 short tons",
      "2 long tons",
    ]);
  });

  it("refuses what is below absolute zero", () => {
    expect(value("-300 °C", "temperature")).toMatch(/absolute zero/);
  });
});

describe("writing", () => {
  it.each<[number, Dimension, UnitSystem, object | undefined, string]>([
    [4.2, "length", "metric", undefined, "4.2 m"],
    [4.2, "length", "us", undefined, "13 ft 9 3/8 in"],
    [3.6576, "length", "us", undefined, "12 ft"],
    [3.6575, "length", "us", undefined, "12 ft"],
    [0, "length", "us", undefined, "0 in"],
    [0.0095, "length", "us", undefined, "3/8 in"],
    [-1, "length", "us", undefined, "−3 ft 3 3/8 in"],
    [1.23456, "length", "us", { uncertainty: 0.0003 }, "4 ft 0.605 in"],
    [87.4321, "distance", "metric", undefined, "87.4 m"],
    [87.4, "distance", "metric", { digits: 2 }, "87.40 m"],
    [87.4321, "distance", "metric", { uncertainty: 0.05 }, "87.43 m"],
    [87.4321, "distance", "metric", { uncertainty: 0.15 }, "87.43 m"],
    [87.4321, "distance", "metric", { uncertainty: 0.3 }, "87.4 m"],
    [1234, "distance", "metric", { uncertainty: 40 }, "1230 m"],
    [100, "distance", "us", undefined, "328.1 ft"],
    [-0.00001, "distance", "metric", undefined, "0 m"],
    [-12.34, "distance", "metric", undefined, "−12.3 m"],
    [42.5, "angle", "us", undefined, "42.5°"],
    [288.15, "temperature", "us", undefined, "59 °F"],
    [101325, "pressure", "metric", undefined, "1013.3 hPa"],
    [0.25, "ratio", "metric", undefined, "0.25"],
  ])("%d of %s in %s, %j: %s", (si, dimension, system, options, text) => {
    expect(formatQuantity(si, dimension, system, options)).toBe(text);
  });

  it("writes fields finely enough to hide nothing", () => {
    expect(formatNumber(4.2, "length", "us")).toBe("13' 9.4\"");
    expect(formatNumber(3.81, "length", "us")).toBe("12' 6\"");
    expect(formatNumber(42, "mass", "us")).toBe("92.59");
    expect(formatNumber(420, "mass", "us")).toBe("925.9");
    expect(formatNumber(0.22, "length", "us")).toBe('8.661"');
    expect(formatNumber(0.3048 + 0.0254 * 0.377, "length", "us")).toBe("1' 0.377\"");
    expect(formatNumber(123_456.7, "force", "us")).toBe("27754");
    // Written in this unit it is shown as it was written.
    expect(formatNumber(925.942 * 0.45359237, "mass", "us")).toBe("925.942");
    expect(formatNumber(101_325, "pressure", "metric")).toBe("1013.25");
    // Marks are surveyed.
    expect(formatNumber(187.432, "distance", "us")).toBe("614.93");
    expect(formatNumber(123.456789, "angle", "us")).toBe("123.457");
    expect(formatNumber(1e-7, "mass", "metric")).toBe("0.0000001");
    expect(formatNumber(-0.25, "length", "metric")).toBe("-0.25");
  });

  it("gives a value and its uncertainty the same last digit", () => {
    expect(formatUncertain(87.4321, 0.052, "distance", "metric")).toBe("87.43 ± 0.05 m");
    expect(formatUncertain(87.4321, 0.0149, "distance", "metric")).toBe("87.432 ± 0.015 m");
    expect(formatUncertain(300, 2, "temperature", "us")).toBe("80 ± 4 °F");
  });

  it("labels fields", () => {
    expect(unitLabel("mass", "us")).toBe("lb");
    expect(unitLabel("ratio", "us")).toBe("");
  });

  it("refuses what is not finite", () => {
    expect(() => formatQuantity(Number.NaN, "mass", "metric")).toThrow(RangeError);
    expect(() => formatNumber(Number.POSITIVE_INFINITY, "length", "us")).toThrow(RangeError);
  });
});

describe("the Beaufort scale, its bounds from memory", () => {
  it.each([
    [0, 0, "calm"],
    [0.2, 0, "calm"],
    [5.5, 4, "moderate breeze"],
    [7.9, 4, "moderate breeze"],
    [17.2, 8, "gale"],
    [60, 12, "hurricane"],
  ])("%d m/s is force %d, %s", (speed, force, word) => {
    expect(beaufort(speed)).toEqual({ force, word });
  });

  it("refuses what is no speed", () => {
    expect(() => beaufort(-1)).toThrow(RangeError);
  });
});
