import { describe, expect, it } from "vitest";
import {
  airProperties,
  direct,
  ellipsoidArea,
  groundDirect,
  groundDistance,
  inverse,
  kelvin,
  localPlane,
  normalGravity,
  windAt,
} from "@/lib/earth";

describe("air", () => {
  it("takes the measured pressure before the altitude", () => {
    expect(airProperties({ pressure: 95_000, altitude: 3000 }).pressure).toBe(95_000);
    expect(airProperties({ pressure: 95_000, altitude: 3000 }).temperature).toBeCloseTo(268.65, 9);
  });

  it("without a temperature takes the standard one at the altitude", () => {
    expect(airProperties({ altitude: 1000 }).temperature).toBeCloseTo(281.65, 9);
    expect(airProperties({ altitude: 1000, temperature: 303.15 }).density).toBeCloseTo(
      89_874.56 / (287.05287 * 303.15),
      5,
    );
  });

  it("has no density without pressure", () => {
    expect(airProperties({ pressure: 0 }).density).toBe(0);
  });

  it("reads degrees Celsius where kelvin cannot be meant", () => {
    expect(kelvin(15)).toBe(288.15);
    expect(airProperties({ temperature: -10 }).temperature).toBeCloseTo(263.15, 9);
    expect(kelvin(263.15)).toBe(263.15);
  });

  it.each([
    { pressure: -1 },
    { pressure: Number.NaN },
    { temperature: Number.NaN },
    { temperature: -100 },
    { altitude: 12_000 },
    { altitude: Number.NaN },
  ])("refuses %j", (conditions) => expect(() => airProperties(conditions)).toThrow(RangeError));

  it("refuses an anemometer at the ground", () => {
    expect(() => windAt(5, 3, 0)).toThrow(RangeError);
  });
});

describe("points and lines", () => {
  const site = { latitude: 51.2, longitude: -3.4 };

  it("gives bearings from 0 to 360 and longitudes within 180", () => {
    expect(inverse(site, direct(site, -90, 500)).bearing).toBeCloseTo(270, 9);
    const across = direct({ latitude: 10, longitude: 179.999 }, 90, 1000);
    expect(across.longitude).toBeLessThan(-179.98);
    expect(inverse({ latitude: 10, longitude: 179.999 }, across).distance).toBeCloseTo(1000, 6);
  });

  it("has no bearing from a point to itself", () => {
    expect(inverse(site, site)).toEqual({ distance: 0, bearing: 0, reverseBearing: 0 });
  });

  it("measures longer on higher ground", () => {
    const end = direct(site, 30, 1000);
    expect(groundDistance(site, end, 1000) - 1000).toBeCloseTo(1000 * (1000 / 6_371_000), 2);
    expect(groundDistance(site, groundDirect(site, 30, 150, 1000), 1000)).toBeCloseTo(150, 7);
  });

  it("lays east and north the right way", () => {
    const plane = localPlane(site);
    const east = plane.toPlane(direct(site, 90, 100));
    expect(east.east).toBeCloseTo(100, 6);
    expect(east.north).toBeCloseTo(0, 6);
    expect(plane.toPlane(direct(site, 0, 100)).north).toBeCloseTo(100, 6);
  });

  it("knows the area of a square and which way round it runs", () => {
    const ring = [45, 315, 225, 135].map((bearing) => direct(site, bearing, 100 * Math.SQRT1_2));
    expect(ellipsoidArea(ring)).toBeCloseTo(10_000, 2);
    expect(ellipsoidArea([...ring].reverse())).toBeCloseTo(-10_000, 2);
  });

  it("refuses what is no place", () => {
    expect(() => inverse({ latitude: 91, longitude: 0 }, site)).toThrow(RangeError);
    expect(() => direct(site, Number.NaN, 1)).toThrow(RangeError);
    expect(() => direct({ latitude: 0, longitude: Number.NaN }, 0, 1)).toThrow(RangeError);
    expect(() => normalGravity(-91)).toThrow(RangeError);
  });
});
