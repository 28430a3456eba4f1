/** Numbers beside a limit: none is rounded to its right side. */
import { describe, expect, it } from "vitest";
import { atLeastText, atMostText, besideLimit, exceeds } from "@/app/_ui/beside-limit";
import { fallsShort, figuresText } from "@/app/_ui/inspection/figures-text";
import { atLeastSize, atMostSize, massText } from "@/app/_ui/inspection/texts";

const mass = (system: "metric" | "us") => (value: number, more: number) => massText(value, system, more);

describe("what is over its limit by a little", () => {
  it.each([
    [1300.4, 1300, "metric", ["1300.4 kg", "1300.0 kg", "0.40 kg"]],
    [1300.04, 1300, "metric", ["1300.04 kg", "1300.00 kg", "0.040 kg"]],
    [1320, 1300, "metric", ["1320 kg", "1300 kg", "20 kg"]],
    [1000.1, 1000, "us", ["2204.8 lb", "2204.6 lb", "0.22 lb"]],
  ] as const)("%s kg against %s in %s units reads so", (value, limit, system, told) => {
    const { value: has, limit: may, off } = besideLimit(value, limit, mass(system));
    expect([has, may, off]).toEqual(told);
    expect(exceeds(value, limit)).toBe(true);
  });

  it("is not what differs by rounding in the last bits", () => {
    const pounds = 0.45359237;
    expect(exceeds(0.1 * pounds + 0.2 * pounds, 0.3 * pounds)).toBe(false);
  });
});

it.each([
  [4.004, "metric", "4.01 m", "4.00 m"],
  [4, "metric", "4.00 m", "4.00 m"],
  [0.1 + 0.2, "metric", "0.30 m", "0.30 m"],
  [4.004, "us", "13 ft 1 3/4 in", "13 ft 1 5/8 in"],
  [3.9624, "us", "13 ft", "13 ft"],
  [-0.004, "metric", "0.00 m", "−0.01 m"],
] as const)("a size of %s m in %s units is %s to pass, and %s of room", (metres, system, most, least) => {
  expect([atMostSize(metres, system), atLeastSize(metres, system)]).toEqual([most, least]);
});

describe("two digits", () => {
  it.each([
    [1.996, "1.9", "2"],
    [2, "2", "2"],
    [4.97, "4.9", "5"],
    [0.504, "0.5", "0.51"],
    [0.996, "0.99", "1"],
    [12.4, "12", "13"],
    [0.3, "0.3", "0.3"],
    [0, "0", "0"],
  ])("of %s are %s of a reserve and %s of what is needed", (value, least, most) => {
    expect([atLeastText(value), atMostText(value)]).toEqual([least, most]);
  });

  it("never show a reserve that falls short as the usual factor", () => {
    const figures = [
      { label: "reserve", value: 2.298, dimension: "ratio" as const },
      { label: "usual factor", value: 2.3, dimension: "ratio" as const },
    ];
    expect(fallsShort(figures)).toBe(true);
    expect(figuresText(figures, "us")).toBe("Reserve: 2.2; usual factor: 2.3.");
  });
});
