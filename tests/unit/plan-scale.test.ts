/** Paper and scale of the range plan. */
import { describe, expect, it, test } from "vitest";
import {
  GAP,
  gridStep,
  largestScale,
  MARGIN,
  PAPER_NAMES,
  PAPERS,
  paperLength,
  readScale,
  SCALES,
  scaleBar,
  scaleWords,
  sheetLayout,
} from "@/app/contests/[contest]/range-plan/plan-scale";

const SYSTEMS = ["metric", "us"] as const;
const TURNS = ["portrait", "landscape"] as const;

test.each(PAPER_NAMES.flatMap((paper) => TURNS.map((turn) => [paper, turn] as const)))(
  "on %s, %s, map and panel fill what the printer leaves",
  (name, turn) => {
    const { paper, sheet, map, panel } = sheetLayout(name, turn);
    expect([paper.width, paper.height].sort((a, b) => a - b)).toEqual([
      PAPERS[name].width,
      PAPERS[name].height,
    ]);
    expect(paper.width > paper.height).toBe(turn === "landscape");
    expect(sheet.width + 2 * MARGIN).toBeCloseTo(paper.width, 9);
    const beside = turn === "landscape";
    expect(beside ? map.width + GAP + panel.width : map.height + GAP + panel.height).toBeCloseTo(
      beside ? sheet.width : sheet.height,
      9,
    );
    expect(Math.min(map.width, map.height)).toBeGreaterThan(120);
  },
);

describe("the scale", () => {
  it("is the largest round one at which the site fits, in both systems", () => {
    const map = { width: 190, height: 212 };
    for (const system of SYSTEMS)
      for (const ground of [
        { width: 30, height: 20 },
        { width: 178, height: 60 },
        { width: 179, height: 60 },
        { width: 90, height: 700 },
        { width: 4000, height: 2500 },
      ]) {
        const scale = largestScale(ground, map, system);
        expect(SCALES[system]).toContain(scale);
        expect(paperLength(ground.width, scale)).toBeLessThanOrEqual(map.width);
        expect(paperLength(ground.height, scale)).toBeLessThanOrEqual(map.height);
        const larger = SCALES[system][SCALES[system].indexOf(scale) - 1];
        if (larger === undefined) continue;
        const tooBig =
          paperLength(ground.width, larger) > map.width - 12 ||
          paperLength(ground.height, larger) > map.height - 12;
        expect(tooBig).toBe(true);
      }
    expect(largestScale({ width: 178, height: 60 }, map, "metric")).toBe(1000);
    expect(largestScale({ width: 179, height: 60 }, map, "metric")).toBe(1250);
  });

  it("puts 100 m at 1:1250 on 80 mm of paper, and 100 ft at 1 in = 40 ft on 2.5 inches", () => {
    expect(paperLength(100, 1250)).toBe(80);
    expect(paperLength(30.48, 480)).toBeCloseTo(2.5 * 25.4, 12);
  });

  it("is read as people write it", () => {
    expect(["1:1250", "1 250", "1:500 ", "1 in = 40 ft", `1" = 20'`].map(readScale)).toEqual([
      1250, 1250, 500, 480, 240,
    ]);
    expect(["", "big", "1:0", "1:10", "2:1000", "1:9999999", "-500"].map(readScale)).toEqual(
      Array(7).fill(null),
    );
    expect(scaleWords(480, "us")).toBe("1 in = 40 ft (1:480)");
    expect(scaleWords(1000, "us")).toBe("1:1000");
    expect(scaleWords(480, "metric")).toBe("1:480");
  });
});

test("bar and grid are round, and as long as they say", () => {
  for (const system of SYSTEMS)
    for (const scale of SCALES[system]) {
      const unit = system === "us" ? 0.3048 : 1;
      const bar = scaleBar(scale, system, 55);
      expect(String(bar.units)).toMatch(/^(0\.)?[125]0*$/);
      expect(bar.length).toBeCloseTo(paperLength(bar.units * unit, scale), 9);
      expect(bar.length).toBeLessThanOrEqual(55 + 1e-9);
      expect(bar.length).toBeGreaterThan(55 / 2.51);
      expect(Number.isInteger((bar.units * 10) / bar.parts)).toBe(true);
      const grid = gridStep(scale, system);
      expect(grid.metres).toBeCloseTo(grid.units * unit, 9);
      expect(paperLength(grid.metres, scale)).toBeGreaterThan(20);
    }
});
