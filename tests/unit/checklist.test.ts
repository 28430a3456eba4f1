/** The checklist and the spares: which lines a kind gets, with which numbers, and when a finding falls. */
import { describe, expect, it } from "vitest";
import {
  changedSince,
  cocking,
  knownOf,
  LINES,
  linesFor,
  sparesFor,
  stoodOn,
  type Turning,
  turn,
} from "@/lib/inspection";
import {
  breakage,
  type HazardRequestInput,
  hazardRequestSchema,
  MACHINE_KINDS,
  type Machine,
} from "@/lib/throw";

const requestOf = (kind: Machine["kind"], more: Partial<HazardRequestInput> = {}) => {
  const found = MACHINE_KINDS.find((each) => each.kind === kind);
  return hazardRequestSchema.parse({
    machine: found?.example,
    projectile: found?.exampleProjectile,
    ...more,
  });
};
const idsOf = (kind: Machine["kind"]) => linesFor(requestOf(kind).machine).map(({ id }) => id);

describe("checklist", () => {
  it("every line applies to some kind, has its own name and says why", () => {
    const seen = new Set(MACHINE_KINDS.flatMap(({ kind }) => idsOf(kind)));
    expect([...seen].sort()).toEqual(LINES.map(({ id }) => id).sort());
    expect(new Set(LINES.map(({ id }) => id)).size).toBe(LINES.length);
    for (const { look, reason } of LINES) expect(`${look}${reason}`).not.toMatch(/\bsafe\b/i);
  });

  it("only what a kind has is asked for", () => {
    expect(idsOf("air-cannon")).toEqual(expect.arrayContaining(["chamber", "relief-valve", "valve"]));
    for (const id of ["sling", "arm", "counterweight", "pin", "winch"])
      expect(idsOf("air-cannon")).not.toContain(id);
    expect(idsOf("hinged-counterweight")).toEqual(
      expect.arrayContaining([
        "arm",
        "sling",
        "pin",
        "counterweight",
        "end-stops",
        "winch",
        "lanyard",
        "level",
      ]),
    );
    expect(idsOf("hinged-counterweight")).not.toContain("chamber");
    expect(idsOf("torsion")).toContain("springs");
    const { slingLength, releaseAngle, ...cup } = requestOf("torsion").machine as Extract<
      Machine,
      { kind: "torsion" }
    >;
    expect([slingLength, releaseAngle]).toEqual([1.1, 35]);
    expect(linesFor(cup).map(({ id }) => id)).not.toContain("sling");
    expect(idsOf("spinning-arm")).toContain("hub");
  });

  it("a line's numbers are those of the loads card; what is not declared is told as missing", () => {
    const request = requestOf("hinged-counterweight", {
      strengths: { sling: { breakingStrength: 9000 }, frame: { mass: 200, footprint: 3 } },
    });
    const found = breakage(request);
    const known = knownOf(request, found);
    const figures = (id: string) =>
      Object.fromEntries(
        (LINES.find((line) => line.id === id)?.figures(known) ?? []).map(({ label, value }) => [
          label,
          value,
        ]),
      );
    expect(figures("sling")).toMatchObject({
      "peak tension of the throw": found.loads.sling?.reserve.load,
      "what it bears": 9000,
      reserve: 9000 / (found.loads.sling?.reserve.load ?? 0),
    });
    expect(figures("arm")["what it bears"]).toBeNull();
    const { throw: meant, after, hangUp } = found.loads.pivot?.force ?? {};
    const pushes = [meant, after].flatMap((push) => (push ? [push.downrange, push.uprange] : []));
    expect(figures("anchoring")["peak level push of a hang-up"]).toBe(
      Math.max(hangUp?.downrange ?? 0, hangUp?.uprange ?? 0),
    );
    expect(figures("anchoring")["peak level push"]).toBe(Math.max(...pushes));
    // 2.9 m up, 4.2 m long, cocked 40° down: a winch on the ground right below that tip.
    const winch = { x: -4.2 * Math.cos((40 * Math.PI) / 180), y: -2.9 };
    const drawn = turn(cocking(request.machine, found.gravity) as Turning, winch);
    expect(figures("winch")["largest pull at the tip"]).toBeCloseTo(
      drawn.ok ? drawn.worst.pull : Number.NaN,
      6,
    );
    expect(figures("guards")["swept from the pivot"]).toBeCloseTo(4.2 + 3.6, 12);
    // Before anything is computed the declared numbers stand alone.
    expect(LINES.find(({ id }) => id === "sling")?.figures(knownOf(request, null))).toEqual([]);
  });

  it("a finding falls when a number it stood on changes, and by no other", () => {
    const request = requestOf("hinged-counterweight");
    const pin = LINES.find(({ id }) => id === "pin")?.standsOn ?? [];
    const sling = LINES.find(({ id }) => id === "sling")?.standsOn ?? [];
    const heavier = requestOf("hinged-counterweight", {
      machine: { ...(request.machine as object), counterweightMass: 450 } as HazardRequestInput["machine"],
    });
    const roped = { ...request, strengths: { sling: { breakingStrength: 9000 } } };
    expect(changedSince(stoodOn(request, pin), stoodOn(heavier, pin))).toEqual([]);
    expect(changedSince(stoodOn(request, sling), stoodOn(heavier, sling))).toEqual([
      "machine.counterweightMass",
    ]);
    expect(changedSince(stoodOn(request, sling), stoodOn(roped, sling))).toEqual([
      "strengths.sling.breakingStrength",
    ]);
    expect(changedSince(stoodOn(roped, sling), stoodOn(request, sling))).toEqual([
      "strengths.sling.breakingStrength",
    ]);
  });

  it("what was measured within a tolerance falls with the tolerance, and what is carried with its mass", () => {
    const request = requestOf("hinged-counterweight");
    const standing = (more: Partial<HazardRequestInput>) => {
      const now = requestOf("hinged-counterweight", more);
      return LINES.filter(
        ({ standsOn }) => changedSince(stoodOn(request, standsOn), stoodOn(now, standsOn)).length > 0,
      ).map(({ id }) => id);
    };
    expect(standing({ tolerances: { mass: 0.01 } })).toEqual(["projectiles"]);
    expect(standing({ tolerances: { leanAcross: 0.2 } })).toEqual(["level"]);
    expect(standing({ tolerances: { releaseAngle: 1 } })).toEqual(["pin"]);
    expect(standing({ tolerances: { counterweightMass: 2 } })).toEqual(["counterweight"]);
    expect(standing({ strengths: { frame: { mass: 400, footprint: 3 } } })).toEqual([
      "anchoring",
      "transport",
    ]);
  });
});

describe("spares", () => {
  it("the smallest reserve comes first, then what wears; each kind its own", () => {
    const request = requestOf("floating-arm", {
      strengths: { sling: { breakingStrength: 60_000 }, hanger: 3000 },
    });
    const found = breakage(request);
    const spares = sparesFor(request.machine, found);
    expect(spares.slice(0, 2).map(({ id }) => id)).toEqual(["hanger", "sling"]);
    const least = Math.min(
      ...found.parts.flatMap(({ part, reserve }) =>
        part === "hanger" && reserve.reserve !== null ? [reserve.reserve] : [],
      ),
    );
    expect(spares[0]?.reserve).toBe(least);
    expect(spares.map(({ id }) => id)).toEqual(expect.arrayContaining(["wheels", "stop", "pegs"]));
    const cannon = sparesFor(requestOf("air-cannon").machine, null).map(({ id }) => id);
    expect(cannon).toEqual(expect.arrayContaining(["seals", "gauge"]));
    expect(cannon).not.toContain("sling");
    for (const { kind } of MACHINE_KINDS)
      expect(sparesFor(requestOf(kind).machine, null).length).toBeGreaterThan(2);
  });
});
