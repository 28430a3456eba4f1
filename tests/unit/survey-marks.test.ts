import { describe, expect, it } from "vitest";
import { inverse } from "@/lib/earth";
import { combine, type FixInput, type MarkRule, markOf, markRuleSchema, type Site } from "@/lib/survey";
import { apart, at, FIRING, measured, PEGS, peg, SITE, seen } from "./survey-site";

const RULE: MarkRule = { from: "firing-point", landing: "rest", sector: null, unit: "1cm" };
const taped = (distance: number, more: object = {}): FixInput => ({
  outcome: "landed",
  method: "bearing-distance",
  bearing: 10,
  distance,
  ...more,
});
const mark = (entry: FixInput, rule: Partial<MarkRule> = {}, site: Site = SITE) =>
  markOf(measured(entry, site).located, { ...RULE, ...rule } as MarkRule, site);

describe("the mark by the contest's rule", () => {
  it.each([
    [8.41, "1cm", 8.41],
    [8.419_999, "1cm", 8.41],
    [8.41, "0.1m", 8.4],
    [8.4, "0.1m", 8.4],
    [27 * 0.3048, "1ft", 8.2296],
    [27 * 0.3048 - 0.001, "1ft", 26 * 0.3048],
    [331 * 0.0254, "1in", 331 * 0.0254],
    [331.99 * 0.0254, "1in", 331 * 0.0254],
  ] as const)("%d m in units of %s is %d m", (distance, unit, expected) =>
    expect(mark(taped(distance), { unit }).mark).toBeCloseTo(expected, 12),
  );

  it("counts from a measuring arc", () => {
    const rule = { from: "arc", centre: "a", radius: 40 } as const;
    const found = mark(taped(110), rule);
    const { distance, bearing } = seen(SITE, "a", measured(taped(110)).located.point);
    expect(found.distance).toBeCloseTo(distance - 40, 4);
    expect(found.bearing).toBeCloseTo(bearing, 4);
    const inside = mark(taped(30), { ...rule, radius: 100 });
    expect(inside.mark).toBe(0);
    expect(inside.warnings.map(({ code }) => code)).toEqual(["inside-arc"]);
    expect(() => mark(taped(110), { ...rule, centre: "x" })).toThrow(RangeError);
  });

  it("leaves out the error of an arc's centre that was measured from, and not of another", () => {
    const site = {
      ...SITE,
      firingPoint: { ...FIRING, uncertainty: 0.5 },
      pegs: {
        ...PEGS,
        a: { ...peg("Ash", -45, 25), uncertainty: 0.5 },
        b: { ...peg("Birch", 80, 60), uncertainty: 0.5 },
      },
    };
    const entry = taped(100, { from: "a", distanceUncertainty: 0.02 });
    const from = (rule: object) => mark(entry, rule, site).uncertainty;
    expect(from({ from: "arc", centre: "a", radius: 40 })).toBeCloseTo(0.04, 6);
    expect(from({ from: "arc", centre: "b", radius: 40 })).toBeGreaterThan(1.4);
    expect(from({})).toBeGreaterThan(1.4);
  });

  it("gives none for the place that the rule does not ask for", () => {
    const found = mark(taped(100, { landing: "first-impact" }));
    expect(found.mark).toBeNull();
    expect(found.warnings.map(({ code }) => code)).toEqual(["other-landing"]);
    expect(mark(taped(100, { landing: "rest" })).mark).toBe(100);
    expect(mark(taped(100, { landing: "first-impact" }), { landing: "first-impact" }).mark).toBe(100);
  });

  it("is a rule that can be stored and refused with the field", () => {
    const rule = {
      from: "arc",
      centre: "a",
      radius: 40,
      landing: "rest",
      sector: { bearing: 10, halfAngle: 20 },
      unit: "1ft",
    };
    expect(markRuleSchema.parse(rule)).toEqual(rule);
    const wrong = markRuleSchema.safeParse({ ...rule, radius: 0 });
    expect(wrong.error?.issues.map(({ path, message }) => [path.join("."), message])).toEqual([
      ["radius", "The arc's radius is above zero."],
    ]);
  });
});

describe("the landing sector", () => {
  const sector = { bearing: 0, halfAngle: 20 };
  const at100 = (bearing: number, more: object = {}) =>
    mark(taped(100, { bearing, distanceUncertainty: 0.05, bearingUncertainty: 0.1, ...more }), { sector })
      .sector;

  it("has an inside, an outside, and a strip between that is too close to call", () => {
    expect(at100(5)).toMatchObject({ verdict: "inside" });
    expect(at100(350)).toMatchObject({ verdict: "inside" });
    expect(at100(25)).toMatchObject({ verdict: "outside" });
    expect(at100(180)?.verdict).toBe("outside");
    expect(at100(180)?.aside).toBeCloseTo(-100, 6);
    const close = at100(20.1);
    expect(close?.verdict).toBe("too-close");
    expect(close?.aside).toBeCloseTo(-100 * Math.sin(0.1 * (Math.PI / 180)), 3);
  });

  it("has its own uncertainty: across the side line, not along it", () => {
    const { uncertainty } = at100(20.1) ?? { uncertainty: 0 };
    expect(uncertainty).toBeCloseTo(2 * 100 * 0.1 * (Math.PI / 180), 3);
    expect(at100(20.3)?.verdict).toBe("outside");
    expect(at100(20.3, { bearingUncertainty: 1 })?.verdict).toBe("too-close");
    expect(at100(20.3, { distanceUncertainty: 5 })?.verdict).toBe("outside");
  });

  it("may be all around, or open backwards", () => {
    const wide = (halfAngle: number, bearing: number) =>
      mark(taped(100, { bearing }), { sector: { bearing: 0, halfAngle } }).sector?.verdict;
    expect(wide(180, 180)).toBe("inside");
    expect(wide(135, 120)).toBe("inside");
    expect(wide(135, 180)).toBe("outside");
  });

  it("leaves the mark: the ruling is a person's", () => {
    expect(mark(taped(100, { bearing: 90 }), { sector }).mark).toBe(100);
  });
});

describe("several fixes of one shot", () => {
  const fix = (entry: FixInput) => measured(entry).located;

  it("weigh by their uncertainties", () => {
    const exact = fix(taped(100, { distanceUncertainty: 0.02, bearingUncertainty: 0.02 }));
    const rough = fix({ outcome: "landed", method: "position", ...at(20, 99), accuracy: 8 });
    const { located, warnings } = combine([exact, rough], SITE);
    expect(warnings).toEqual([]);
    expect(apart(located?.point ?? rough.point, exact.point)).toBeLessThan(0.01);
    expect(located?.uncertainty).toBeLessThanOrEqual(exact.uncertainty);
  });

  it("alike meet in the middle, each with half the variance", () => {
    const one = fix(taped(100));
    const other = fix(taped(100.06));
    const { located } = combine([one, other], SITE);
    expect(located?.mark).toBeCloseTo(100.03, 3);
    expect((located?.uncertainty ?? 0) / one.uncertainty).toBeCloseTo(Math.SQRT1_2, 3);
  });

  it("that disagree are shown and not averaged", () => {
    const { located, warnings, chiSquare, limit, probability } = combine(
      [fix(taped(100)), fix(taped(101))],
      SITE,
    );
    expect(located).toBeNull();
    expect(chiSquare).toBeGreaterThan(limit);
    expect(probability).toBeLessThan(0.05);
    expect(warnings.map(({ code }) => code)).toEqual(["fixes-disagree"]);
    expect(warnings[0]?.text).toContain("100.00 m ± 0.11 m");
    expect(warnings[0]?.text).toContain("not averaged");
  });

  it("of the first impact and of the place of rest are two places", () => {
    const { located, warnings } = combine(
      [fix(taped(100, { landing: "rest" })), fix(taped(100, { landing: "first-impact" }))],
      SITE,
    );
    expect(located).toBeNull();
    expect(warnings[0]?.text).toContain("not averaged");
    expect(combine([fix(taped(100)), fix(taped(100, { landing: "rest" }))], SITE).located?.landing).toBe(
      "rest",
    );
  });

  it("of the same peg keep its error", () => {
    const pegs = { a: peg("Ash", -45, 25, 0.3) };
    const site = { firingPoint: FIRING, pegs };
    const entry = taped(100, { from: "a", bearingUncertainty: 0.01, distanceUncertainty: 0.01 });
    const one = measured(entry, site).located;
    const { located } = combine([one, one, one], site);
    expect((located?.covariance[0] ?? 0) / 0.09).toBeCloseTo(1, 2);
  });

  it("one is itself, none is a mistake", () => {
    const one = fix(taped(50));
    expect(combine([one], SITE).located).toBe(one);
    expect(() => combine([], SITE)).toThrow(RangeError);
  });

  it("on the firing point itself, without any error across", () => {
    const { located } = combine([fix(taped(0)), fix(taped(0.01))], SITE);
    expect(inverse(FIRING, located?.point ?? at(9, 9)).distance).toBeLessThan(0.011);
  });
});
