/**
 * Source: ISO 2533:1975 / ICAO standard atmosphere, by geopotential height (from memory). Viscosity at sea
 * level: the same standard, 1.7894e-5 Pa·s (from memory). Beaufort: WMO, v ≈ 0.836·B^1.5 (from memory).
 */
import { describe, expect, it } from "vitest";
import { airProperties, standardAtmosphere, windAt } from "@/lib/earth";

const TABLE = [
  { altitude: 0, temperature: 288.15, pressure: 101_325, density: 1.225 },
  { altitude: 1000, temperature: 281.65, pressure: 89_875, density: 1.1116 },
  { altitude: 2000, temperature: 275.15, pressure: 79_495, density: 1.0065 },
];

describe("standard atmosphere", () => {
  it.each(TABLE)("at $altitude m", ({ altitude, temperature, pressure, density }) => {
    const air = airProperties({ altitude });
    expect(air.temperature).toBeCloseTo(temperature, 6);
    expect(Math.abs(air.pressure - pressure)).toBeLessThan(0.6);
    expect(Math.abs(air.density - density)).toBeLessThan(0.00005);
  });

  it("viscosity at sea level", () => {
    expect(airProperties().viscosity).toBeCloseTo(1.7894e-5, 9);
  });

  it("is in hydrostatic balance: dp = −ρ·g·dh (closed form of the same law)", () => {
    const step = 1;
    for (const height of [0, 500, 1500, 4000]) {
      const fall = standardAtmosphere(height + step).pressure - standardAtmosphere(height - step).pressure;
      const weight = -airProperties({ altitude: height }).density * 9.80665 * 2 * step;
      expect(Math.abs(fall / weight - 1)).toBeLessThan(1e-7);
    }
  });
});

describe("wind", () => {
  it("grows as the seventh root of height: twice as fast 128 times higher", () => {
    expect(windAt(1280, 5, 10)).toBeCloseTo(10, 12);
    expect(windAt(10, 7, 10)).toBe(7);
    expect(windAt(0, 7, 10)).toBe(0);
    expect(windAt(-1, 7, 10)).toBe(0);
  });
});
