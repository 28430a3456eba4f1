/** What the engine refuses, assumes and keeps clear, on machines small enough to reason about. */
import { describe, expect, it } from "vitest";
import {
  defaultPolicy,
  hazardRequestSchema,
  hazardSheet,
  hazardSheetSchema,
  MACHINE_KINDS,
  type Machine,
  machineKind,
  preview,
} from "@/lib/throw";
import { runOut } from "@/lib/throw/flight/runout";

const [hinged, fixed, floating] = MACHINE_KINDS;
const measured = machineKind("measured");
const ball = hinged.exampleProjectile;

const refusal = (request: unknown) => {
  const parsed = hazardRequestSchema.safeParse(request);
  return parsed.success ? [] : parsed.error.issues.map(({ path }) => path.join("."));
};

describe("the gate", () => {
  it("lets every kind's example through", () => {
    for (const { example, exampleProjectile } of MACHINE_KINDS) {
      expect(refusal({ machine: example, projectile: exampleProjectile })).toEqual([]);
    }
  });

  it.each([
    ["a sling too short to reach the trough", { slingLength: 0.1 }, "machine.slingLength"],
    ["a cocked tip below the ground", { pivotHeight: 1 }, "machine.cockedAngle"],
    ["an arm that cannot fall", { counterweightMass: 30 }, "machine.counterweightMass"],
    ["a release angle at or above the start", { releaseAngle: 150 }, "machine.releaseAngle"],
    ["a centre of mass beyond the arm", { armCentre: 9 }, "machine.armCentre"],
    ["a size that is not positive", { longArm: -4 }, "machine.longArm"],
    ["a size that is not finite", { longArm: Number.POSITIVE_INFINITY }, "machine.longArm"],
    ["a lean that puts the cocked tip below the ground", { leanAlong: -8 }, "machine.cockedAngle"],
  ])("refuses %s and names the field", (_what, change, field) => {
    expect(refusal({ machine: { ...hinged.example, ...change }, projectile: ball })).toContain(field);
  });

  it("refuses a carriage that starts past its stop, an unknown parameter, and a gust below the mean", () => {
    expect(refusal({ machine: { ...floating.example, endStop: -1.2 }, projectile: ball })).toContain(
      "machine.endStop",
    );
    const tolerances = { hangerLength: 0.1 };
    expect(refusal({ machine: fixed.example, projectile: ball, tolerances })).toContain(
      "tolerances.hangerLength",
    );
    const air = { wind: { speed: 9, gust: 5 } };
    expect(refusal({ machine: fixed.example, projectile: ball, air })).toContain("air.wind.gust");
  });

  it("asks for a reason before hang-ups are left out", () => {
    const policy = { hangUp: false };
    expect(refusal({ machine: fixed.example, projectile: ball, policy })).toContain("policy.hangUpReason");
  });
});

describe("the sheet", () => {
  /** Everything exact, so that no box is searched, unless the extra says otherwise. */
  const sheetOf = (
    extra: { machine?: Machine; [part: string]: unknown } = {},
    kind: (typeof MACHINE_KINDS)[number] = hinged,
  ) => {
    const { parameters } = machineKind(extra.machine?.kind ?? kind.kind);
    const names = [...parameters.map(({ name }) => name), "mass", "diameter"];
    const tolerances = Object.fromEntries(names.map((name) => [name, 0]));
    const request = { machine: kind.example, projectile: kind.exampleProjectile, tolerances, ...extra };
    return hazardSheet(hazardRequestSchema.parse(request));
  };

  it("has the shape of its contract for every kind", () => {
    for (const kind of MACHINE_KINDS)
      expect(hazardSheetSchema.safeParse(sheetOf({}, kind)).success).toBe(true);
  });

  it("keeps clear at least the margin times the worst throw, ahead and behind", () => {
    for (const kind of MACHINE_KINDS) {
      const { exclusion, worst } = sheetOf({}, kind);
      expect(exclusion.forward).toBeGreaterThanOrEqual(defaultPolicy.margin * worst.forward.distance);
      expect(exclusion.backward).toBeGreaterThanOrEqual(defaultPolicy.margin * worst.backward.distance);
      expect(exclusion.reach).toHaveLength(360);
      // The sides of the bearing are alike, and nothing within the aim's angle is shorter than straight ahead.
      for (let i = 1; i < 180; i++) expect(exclusion.reach[i]).toBe(exclusion.reach[360 - i]);
      for (let i = 0; i <= 5; i++)
        expect(exclusion.reach[i]).toBeGreaterThanOrEqual(exclusion.forward * 0.99);
    }
  });

  it("never goes below the policy's least distances, and grows with its angles", () => {
    const minimum = { forward: 500, backward: 400, side: 300 };
    const { exclusion } = sheetOf({ policy: { minimum } });
    expect(exclusion.reach[0]).toBe(500);
    expect(exclusion.reach[180]).toBe(400);
    expect(exclusion.reach[90]).toBe(300);
    const narrow = sheetOf({ policy: { angles: { aim: 2, lean: 1, tornSling: 5 } } }).exclusion;
    const wide = sheetOf({ policy: { angles: { aim: 10, lean: 5, tornSling: 30 } } }).exclusion;
    for (let i = 0; i < 360; i++) expect(wide.reach[i]).toBeGreaterThanOrEqual(narrow.reach[i] - 1e-6);
    expect(wide.side).toBeGreaterThan(1.2 * narrow.side);
  });

  it("names what decides its zone, its height and its hardest impact", () => {
    for (const kind of MACHINE_KINDS) {
      const { exclusion, faults, apexBy, impact } = sheetOf({}, kind);
      for (const cause of Object.values(exclusion.causes ?? {})) {
        if (cause.by === "piece") expect(faults?.map(({ code }) => code)).toContain(cause.fault);
        if (cause.by === "throw") expect(cause.releaseTime).toBeGreaterThanOrEqual(0);
      }
      expect(exclusion.causes?.forward.by, kind.kind).toMatch(/throw|piece/);
      expect(apexBy?.releaseTime).toBeGreaterThanOrEqual(0);
      expect(impact.by?.releaseTime).toBeGreaterThanOrEqual(0);
    }
    const far = { forward: 5000, backward: 5000, side: 5000 };
    const { causes } = sheetOf({ policy: { minimum: far } }).exclusion;
    expect([causes?.forward.by, causes?.backward.by, causes?.side.by]).toEqual(Array(3).fill("minimum"));
  });

  it("shows what hang-ups cost in ground, and leaves them out only with the reason on the sheet", () => {
    const all = sheetOf({}, fixed);
    const reason = "The release pin is a fixed hook; inspected.";
    const first = sheetOf({ policy: { hangUp: false, hangUpReason: reason } }, fixed);
    expect(all.worst.backward.distance).toBeGreaterThan(2 * all.worst.firstPass.backward.distance);
    expect(first.worst.backward.distance).toBe(all.worst.backward.distance);
    expect(first.exclusion.backward).toBeLessThan(0.6 * all.exclusion.backward);
    expect(first.assumptions.join(" ")).toContain(reason);
  });

  it("says why there is no nominal throw", () => {
    const sheet = sheetOf({ machine: { ...fixed.example, releaseAngle: -700 } });
    expect(sheet.nominal).toBeNull();
    expect(sheet.nominalReason).toContain("never slips");
    expect(sheet.worst.forward.distance).toBeGreaterThan(50);
  });

  it("takes a measured machine as exact only when its tolerances are an explicit 0", () => {
    const tolerances = { releaseSpeed: 0, launchAngle: 0, launchHeight: 0 };
    const drag = { nominal: 0.3, low: 0.3, high: 0.3 };
    const projectile = { ...measured.exampleProjectile, drag, lift: 0 };
    const exact = preview(hazardRequestSchema.parse({ machine: measured.example, projectile, tolerances }));
    expect(exact.worst.forward.distance).toBeCloseTo(exact.nominal?.distance ?? 0, 4);
    expect(exact.worst.backward.distance).toBe(0);
    const unknown = preview(hazardRequestSchema.parse({ machine: measured.example, projectile }));
    expect(unknown.worst.backward.distance).toBeCloseTo(unknown.worst.forward.distance, 1);
  });

  it("flies farther in a gust either way, and reads celsius as kelvin", () => {
    const still = sheetOf();
    const gusty = sheetOf({ air: { temperature: 15, wind: { speed: 2, gust: 15, direction: 90 } } });
    expect(gusty.worst.forward.distance).toBeGreaterThan(still.worst.forward.distance + 2);
    expect(gusty.worst.backward.distance).toBeGreaterThan(still.worst.backward.distance + 1);
    expect(sheetOf({ air: { temperature: 288.15 } }).worst).toEqual(
      sheetOf({ air: { temperature: 15 } }).worst,
    );
  });
});

describe("run-out", () => {
  it("is longest for a flat fast throw on hard ground, and nothing straight down", () => {
    expect(runOut(0, 40, "hard", 9.80665)).toBe(0);
    expect(runOut(40, 10, "firm", 9.80665)).toBeGreaterThan(runOut(30, 30, "firm", 9.80665));
    expect(runOut(30, 30, "hard", 9.80665)).toBeGreaterThan(runOut(30, 30, "soft", 9.80665));
    // Firm ground, 16 m/s down: one hop at 4 and 0.6 L, then rolling at 0.36 L against 0.3 g.
    const whole = (2 * 4 * 6 + 3.6 ** 2 / 0.6) / 9.80665;
    expect(runOut(10, 16, "firm", 9.80665)).toBeCloseTo(whole, 9);
    // No jump from throw to throw where one bounce more is counted.
    for (let down = 0; down < 40; down += 0.5)
      expect(runOut(20, down + 1e-4, "firm", 9.80665)).toBeCloseTo(runOut(20, down, "firm", 9.80665), 2);
    // Soft ground keeps 40 % of 10 m/s and slows it by 0.4 g: 16/(0.8·9.80665).
    expect(runOut(10, 5, "soft", 9.80665)).toBeCloseTo(2.0394, 3);
  });
});
