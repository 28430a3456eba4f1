/** What an inspection measures and comes to, and how wide a permit may be: the pure rules, by machines of three kinds. */
import { describe, expect, test } from "vitest";
import {
  asMeasured,
  bestOutcome,
  dimensionsOf,
  offDeclared,
  tooWide,
  whatIsMissing,
  widestLimits,
} from "@/lib/inspection";
import { declarationSchema, defaultPolicy } from "@/lib/throw";

const hinged = declarationSchema.parse({
  machine: {
    kind: "hinged-counterweight",
    longArm: 4.2,
    shortArm: 1.05,
    pivotHeight: 2.9,
    cockedAngle: 40,
    armMass: 42,
    counterweightMass: 340,
    hangerLength: 0.8,
    slingLength: 3.6,
    releaseAngle: 38,
  },
  projectile: { mass: 4, diameter: 0.22 },
  tolerances: { counterweightMass: 3 },
});
const cannon = declarationSchema.parse({
  machine: {
    kind: "air-cannon",
    chamberPressure: 4e5,
    chamberVolume: 0.02,
    barrelLength: 2,
    boreDiameter: 0.1,
    elevation: 40,
    muzzleHeight: 1.2,
    ratedPressure: 1e6,
    valve: "ideal",
  },
  projectile: { mass: 1, diameter: 0.098 },
});

describe("what can be measured", () => {
  const of = (path: string) => dimensionsOf(hinged).find((each) => each.path === path);

  test("has the declared tolerance, or the usual one of its number", () => {
    expect(of("machine.counterweightMass")).toMatchObject({ declared: 340, tolerance: 3 });
    expect(of("projectile.mass")?.tolerance).toBeCloseTo(0.08, 12);
    expect(of("machine.longArm")?.tolerance).toBeGreaterThan(0);
  });

  test("is off beyond it alone; the pin's angle decides no zone and never is", () => {
    const off = (path: string, value: number) =>
      offDeclared(hinged, [{ path, value }]).map(({ label }) => label);
    expect(off("machine.counterweightMass", 343)).toEqual([]);
    expect(off("machine.counterweightMass", 343.01)).toEqual(["Counterweight"]);
    expect(off("machine.counterweightMass", 336.9)).toEqual(["Counterweight"]);
    expect(of("machine.releaseAngle")?.tolerance).toBeNull();
    expect(off("machine.releaseAngle", 20)).toEqual([]);
  });

  test("is put into the declaration where it is off, and nothing else is touched", () => {
    const measured = [
      { path: "machine.counterweightMass", value: 350 },
      { path: "projectile.mass", value: 4.01 },
    ];
    expect(asMeasured(hinged, measured)).toEqual({
      ...hinged,
      machine: { ...hinged.machine, counterweightMass: 350 },
    });
  });
});

describe("what an inspection comes to", () => {
  const line = (finding: "meets" | "limit" | "fails" | "not-applicable") => ({
    id: "arm",
    finding,
    note: "Seen",
  });
  const [dimension] = dimensionsOf(hinged);

  test.each([
    [["meets", "not-applicable"], [], "meets"],
    [["meets", "limit"], [], "meets-with-limits"],
    [["limit", "fails"], [], "refused"],
    [["meets"], [dimension], "refused"],
  ] as const)("%o with %o off: %s at best", (findings, off, best) => {
    expect(bestOutcome(findings.map(line), off as never)).toBe(best);
  });

  test("a stricter outcome than the lines ask for needs only its words", () => {
    const missing = (limits: string) =>
      whatIsMissing(hinged.machine, { lines: [], outcome: "refused", limits }, []).map(({ field }) => field);
    expect(missing("It sways")).toEqual(["lines"]);
    expect(missing("")).toEqual(["lines", "limits"]);
  });
});

describe("how wide a permit may be", () => {
  const WIND = { speed: 4, gust: 8, height: 10 };
  const widest = widestLimits(hinged, defaultPolicy, WIND);
  const fields = (limits: object, of = widest) => tooWide({ ...of, ...limits }, of).map(({ field }) => field);

  test("as wide as the sheet: the box of the declaration, the policy's aim, the contest's wind", () => {
    expect(widest).toEqual({
      wind: WIND,
      bearing: 5,
      projectileMass: { least: 3.92, most: 4.08 },
      counterweightMass: 343,
      pressure: null,
    });
    expect(fields({})).toEqual([]);
    const ofCannon = widestLimits(cannon, defaultPolicy, WIND);
    expect(ofCannon.counterweightMass).toBeNull();
    expect(ofCannon.pressure).toBeGreaterThan(4e5);
    expect(fields({ pressure: null }, ofCannon)).toEqual(["limits.pressure"]);
  });

  test("the contest's rule for projectiles counts on the sheet, so a permit may allow it", () => {
    const policy = { ...defaultPolicy, projectiles: { mass: { min: 3, max: 5 } } };
    expect(widestLimits(hinged, policy, WIND).projectileMass).toEqual({ least: 3, most: 5 });
  });

  test.each([
    ["a stronger gust", { wind: { speed: 4, gust: 8.1, height: 10 } }, "limits.wind"],
    ["the same gust read lower", { wind: { speed: 3, gust: 8, height: 2 } }, "limits.wind"],
    ["a mean above the gust", { wind: { speed: 4, gust: 3, height: 10 } }, "limits.wind.speed"],
    ["more aim", { bearing: 5.1 }, "limits.bearing"],
    ["a lighter projectile", { projectileMass: { least: 3.9, most: 4 } }, "limits.projectileMass"],
    ["a heavier projectile", { projectileMass: { least: 4, most: 4.1 } }, "limits.projectileMass"],
    ["a heavier counterweight", { counterweightMass: 344 }, "limits.counterweightMass"],
    ["no counterweight", { counterweightMass: null }, "limits.counterweightMass"],
    ["a chamber that it has not", { pressure: 1e5 }, "limits.pressure"],
  ])("not wider: %s", (_, limits, field) => {
    expect(fields(limits)).toEqual([field]);
  });
});
