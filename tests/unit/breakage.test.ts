/** The quick reckoning of what may break, against the hazard sheet's own loads and faults, and its help against itself. */
import { describe, expect, it } from "vitest";
import {
  type Breakage,
  breakage,
  type HazardRequest,
  type Help,
  hazardRequestSchema,
  MACHINE_KINDS,
  type PartLoad,
  whatWouldHelp,
} from "@/lib/throw";
import { valueFor } from "@/lib/throw/breakage/seek";
import { workOut } from "@/lib/throw/case";
import { harm } from "@/lib/throw/faults/faults";
import { machineEnergy } from "@/lib/throw/loads/unloaded";
import { setupOf } from "@/lib/throw/setup";
import { stopGap } from "@/lib/throw/swing/carrier";
import { LOOSE, Motion } from "@/lib/throw/swing/motion";

const STRENGTHS = {
  sling: { ropeRating: 6000, legs: 2, stretch: 0.15 },
  arm: {
    material: { wood: "douglas-fir" },
    sections: {
      pivot: { shape: "rectangular", depth: 0.12, width: 0.1 },
      tip: { shape: "rectangular", depth: 0.07, width: 0.06 },
    },
  },
  pivot: 20_000,
  hanger: 15_000,
  stop: { stroke: 0.2, force: 20_000 },
  frame: { mass: 200, footprint: 3, friction: 0.4 },
};

function example(kind: string, strengths: object | null = STRENGTHS, machine: object = {}): HazardRequest {
  const found = MACHINE_KINDS.find((each) => each.kind === kind);
  if (!found) throw new Error(kind);
  return hazardRequestSchema.parse({
    machine: { ...found.example, ...machine },
    projectile: found.exampleProjectile,
    ...(strengths ? { strengths } : {}),
  });
}

const ARMS = ["hinged-counterweight", "fixed-counterweight", "floating-arm", "torsion"];
const WITH_STOP = ["floating-arm", "torsion"];
const rowsOf = ({ parts }: Breakage, part: PartLoad["part"]) => parts.filter((row) => row.part === part);
const rowOf = (found: Breakage, part: PartLoad["part"], life: PartLoad["life"]) =>
  rowsOf(found, part).find((row) => row.life === life);

describe.each(ARMS)("%s", (kind) => {
  const request = example(kind);
  const found = breakage(request);
  const { loads, faults } = harm(request, workOut(request));

  it("says what the sheet says", () => {
    expect(found.loads).toEqual(loads);
    const least = (rows: PartLoad[]) => Math.min(...rows.map(({ reserve }) => reserve.reserve as number));
    const meant = rowsOf(found, "arm").filter(({ life }) => life === "throw" || life === "after");
    expect(least(meant)).toBeCloseTo(loads.arm?.reserve.reserve as number, 9);
    expect(rowOf(found, "arm", "hang-up")?.reserve.reserve).toBeCloseTo(
      loads.arm?.hangUpReserve?.reserve as number,
      9,
    );
    expect(rowOf(found, "sling", "throw")?.reserve).toEqual(loads.sling?.reserve);
    const figure = (code: string, name: string) =>
      faults.find((fault) => fault.code === code)?.figures.find((each) => each.code === name)?.value;
    expect(found.arrivals["dry-fire"]?.energy ?? null).toBe(figure("dry-fire", "arrival-energy") ?? null);
    expect(found.arrivals.torn?.energy ?? null).toBe(figure("sling-tears", "arrival-energy") ?? null);
    const speed = figure("sling-tears", "carriage-speed") ?? null;
    if (speed !== null) expect(found.arrivals.torn?.speed).toBeCloseTo(speed, 9);
    expect(found.energies?.dryFire).toBeCloseTo(figure("dry-fire", "machine-energy") as number, 6);
  });

  it("every instant lies where its life does", () => {
    const slips = found.slips as number;
    for (const { life, time, part } of found.parts) {
      if (part === "stop") continue;
      if (life === "throw") expect(time).toBeLessThanOrEqual(slips + 1e-9);
      if (life === "after") expect(time).toBeGreaterThanOrEqual(slips - 1e-9);
    }
  });

  const help = whatWouldHelp(request, found);
  const told = (part: Help["part"], code: Help["code"], scope: Help["scope"] = "meant") =>
    help.find((each) => each.part === part && each.code === code && each.scope === scope)?.value ?? null;
  const meets = (again: Breakage, part: PartLoad["part"], scope: Help["scope"]) =>
    rowsOf(again, part)
      .filter(({ life }) => scope === "all" || life === "throw" || life === "after")
      .map(({ reserve }) => reserve.verdict);
  const scopes = ["meant", "all"] as const;

  it("what is said to help does, and a little less does not", () => {
    let tried = 0;
    const check = (strengths: (share: number) => object, part: PartLoad["part"], scope: Help["scope"]) => {
      tried++;
      const at = (share: number) =>
        meets(breakage(example(kind, { ...STRENGTHS, ...strengths(share) })), part, scope);
      expect(
        at(1).every((verdict) => verdict === "meets-design-factor"),
        `${part} ${scope}`,
      ).toBe(true);
      expect(
        at(0.98).every((verdict) => verdict === "meets-design-factor"),
        `${part} ${scope}`,
      ).toBe(false);
    };
    for (const scope of scopes) {
      const rating = told("sling", "rope-rating", scope);
      if (rating !== null)
        check((by) => ({ sling: { ...STRENGTHS.sling, ropeRating: by * rating } }), "sling", scope);
      const depth = told("arm", "section-depth", scope);
      if (depth !== null)
        check(
          (by) => {
            const { pivot, tip } = STRENGTHS.arm.sections;
            const grown = (by * depth) / pivot.depth;
            const sections = {
              pivot: { ...pivot, depth: pivot.depth * grown },
              tip: { ...tip, depth: tip.depth * grown },
            };
            return { arm: { ...STRENGTHS.arm, sections } };
          },
          "arm",
          scope,
        );
      const pivot = told("pivot", "holds", scope);
      if (pivot !== null) check((by) => ({ pivot: by * pivot * 1.000001 }), "pivot", scope);
      const stroke = told("stop", "stop-stroke-spring", scope);
      if (stroke !== null)
        check((by) => ({ stop: { ...STRENGTHS.stop, stroke: by * stroke * 1.000001 } }), "stop", scope);
    }
    expect(tried).toBeGreaterThan(0);
  });

  it("the lighter drive that is told keeps the factor and throws as far as told", () => {
    const lighter = help.filter(({ code }) => code === "counterweight" || code === "springs");
    for (const { part, scope, value, distance } of lighter) {
      if (value === null || part === "frame") continue;
      const { machine } = request;
      const changed =
        machine.kind === "torsion"
          ? { preloadTorque: value * machine.preloadTorque, stiffness: value * machine.stiffness }
          : { counterweightMass: value };
      const again = breakage(example(kind, STRENGTHS, changed));
      expect(meets(again, part, scope).every((verdict) => verdict === "meets-design-factor")).toBe(true);
      expect(again.distance).toBe(distance);
    }
    expect(lighter.length).toBeGreaterThan(0);
  });
});

describe.each(WITH_STOP)("the stop of a %s", (kind) => {
  const request = example(kind);
  const found = breakage(request);

  it("is loaded as a spring by what arrives and what drives on (closed form)", () => {
    const { energy } = found.arrivals["dry-fire"] as { energy: number };
    const drive = kind === "floating-arm" ? Math.max(0, found.stop?.drive ?? 0) : 0;
    expect(rowOf(found, "stop", "dry-fire")?.reserve.load).toBeCloseTo(2 * (energy / 0.2 + drive), 6);
    expect(rowOf(breakage(example(kind, {})), "stop", "dry-fire")?.quantity).toBe("energy");
  });

  it("is driven on by what a small step of the arm gives (difference quotient)", () => {
    const motion = new Motion(setupOf(request));
    const { carrier } = motion.setup;
    // Where the arm meets its stop: halved in on.
    let [before, past] = [
      carrier.startAngle,
      carrier.endStop?.of === "arm" ? carrier.endStop.at - 0.1 : 0.01,
    ];
    for (let i = 0; i < 60; i++) {
      const middle = (before + past) / 2;
      if (stopGap(carrier, middle) > 0) before = middle;
      else past = middle;
    }
    const potential = (phi: number) =>
      machineEnergy(
        motion,
        LOOSE,
        Float64Array.from({ length: 16 }, (_, i) => (i === 0 ? phi : 0)),
      );
    const step = 1e-5;
    const torque = (potential(before + 2 * step) - potential(before)) / (2 * step);
    const lever = carrier.endStop?.of === "carriage" ? carrier.shortArm * Math.sin(before) : 1;
    expect((found.stop?.drive ?? 0) / (torque / lever)).toBeCloseTo(1, 3);
  });
});

it("what is not declared has no reserve, and the help says what to look for", () => {
  const request = example("hinged-counterweight", null);
  const found = breakage(request);
  for (const { reserve } of found.parts) expect(reserve).toMatchObject({ reserve: null, verdict: "unknown" });
  const codes = whatWouldHelp(request, found).map(({ code }) => code);
  expect(new Set(codes)).toEqual(new Set(["sling-strength", "rope-rating", "holds"]));
});

it("a square of the declared timber bears the moment: W = a³/6", () => {
  const request = example("fixed-counterweight", { arm: { material: { wood: "douglas-fir" } } });
  const side = whatWouldHelp(request, breakage(request)).find(({ code }) => code === "square-side")?.value;
  const section = { shape: "rectangular", depth: side, width: side };
  const again = breakage(
    example("fixed-counterweight", {
      arm: { material: { wood: "douglas-fir" }, sections: { pivot: section } },
    }),
  );
  const { reserve, designFactor } = rowOf(again, "arm", "throw")?.reserve ?? {};
  expect((reserve as number) / (designFactor as number)).toBeCloseTo(1, 6);
});

it.each(["tension", "spinning-arm", "air-cannon", "measured"])(
  "%s has no arm, and says what it has",
  (kind) => {
    const found = breakage(example(kind, {}));
    expect([found.stop, found.energies, found.slips]).toEqual([null, null, null]);
    expect(found.parts.map(({ part }) => part)).toEqual(kind === "air-cannon" ? ["chamber"] : []);
    const { spin, draw, chamber } = found.loads;
    expect([spin, draw, chamber].filter((each) => each !== null)).toHaveLength(kind === "measured" ? 0 : 1);
  },
);

describe("a value is sought by trying", () => {
  it.each([
    ["x²", (x: number) => x * x, 2],
    ["√x", (x: number) => Math.sqrt(x), 1],
    ["1/x", (x: number) => 1 / x, -1],
    ["a bend in the middle", (x: number) => Math.min(x, 2 * Math.sqrt(x)), 1],
  ] as const)("%s", (_, of, power) => {
    const found = valueFor(of, [1, of(1)], 3, power, [1e-3, 1e3]) as number;
    expect(of(found)).toBeGreaterThanOrEqual(3);
    expect(of(found)).toBeLessThan(3.004);
  });

  it("and none is told where none is enough", () => {
    expect(valueFor((x) => Math.min(x, 2), [1, 1], 3, 1, [0.01, 100])).toBeNull();
    expect(valueFor(() => null, [1, 1], 3, 1, [0.01, 100])).toBeNull();
  });
});
