/** A stop against closed forms, and against the work done along its way added up in small steps. */
import { describe, expect, it } from "vitest";
import {
  BOLT_STRENGTH,
  designStop,
  STOP_KINDS,
  STRESS_AREA,
  type StopInput,
  stopInputSchema,
} from "@/lib/throw";
import { boltsFor } from "@/lib/throw/stop/bolts";

const G = 9.80665;
const input = (more: object = {}): StopInput =>
  stopInputSchema.parse({ energy: 1200, limit: { by: "stroke", stroke: 0.4 }, ...more });
const kindOf = (more: object, kind: string) => {
  const found = designStop(input(more)).kinds.find((each) => each.kind === kind);
  if (!found) throw new Error(kind);
  return found;
};

describe("way and force", () => {
  it("a spring peaks at 2E/s, what crushes evenly at E/s (closed forms)", () => {
    expect(kindOf({}, "spring").force).toBeCloseTo((2 * 1200) / 0.4, 9);
    expect(kindOf({ kind: "crush", efficiency: 1 }, "crush").force).toBeCloseTo(1200 / 0.4, 9);
  });

  it("a weight caught by a spring on its way down: k·s²/2 = m·g·(h + s) (closed form)", () => {
    const [mass, height, stiffness] = [40, 1.2, 9000];
    const weight = mass * G;
    const stroke = (weight + Math.sqrt(weight ** 2 + 2 * stiffness * weight * height)) / stiffness;
    const found = kindOf(
      { energy: weight * height, drive: weight, limit: { by: "force", force: stiffness * stroke } },
      "spring",
    );
    expect(found.stroke).toBeCloseTo(stroke, 9);
    expect(found.energy).toBeCloseTo((stiffness * stroke ** 2) / 2, 6);
  });

  it("stroke, force and deceleration ask for the same stop", () => {
    const more = { movingMass: 150, drive: 300 };
    const by = kindOf(more, "rubber");
    for (const limit of [
      { by: "force", force: by.force },
      { by: "deceleration", deceleration: by.deceleration },
    ]) {
      const again = kindOf({ ...more, limit }, "rubber");
      expect(again.stroke).toBeCloseTo(0.4, 9);
      expect(again.force).toBeCloseTo(by.force as number, 6);
    }
  });

  it("nothing brakes what is driven on harder than it may push back", () => {
    const design = designStop(input({ kind: "spring", drive: 6000, limit: { by: "force", force: 10_000 } }));
    expect(design.chosen).toMatchObject({ stroke: null, force: null });
    expect([design.bolts, design.anchors, design.drop]).toEqual([null, null, null]);
  });

  it("along a measured curve the work adds up to what arrives and is driven in (brute force)", () => {
    const curve = [
      { stroke: 0, force: 500 },
      { stroke: 0.1, force: 6000 },
      { stroke: 0.2, force: 3000 },
      { stroke: 0.6, force: 9000 },
    ];
    const found = kindOf({ kind: "curve", curve, drive: 700, limit: { by: "stroke", stroke: 0.6 } }, "curve");
    const forceAt = (x: number) => {
      const i = curve.findIndex(({ stroke }) => stroke > x);
      const [a, b] = [curve[i - 1], curve[i]] as [(typeof curve)[0], (typeof curve)[0]];
      return a.force + ((b.force - a.force) * (x - a.stroke)) / (b.stroke - a.stroke);
    };
    const step = 1e-6;
    let [work, x, peak] = [0, 0, 0];
    while (work < 1200) {
      const force = forceAt(x + step / 2);
      peak = Math.max(peak, force);
      work += (force - 700) * step;
      x += step;
    }
    expect(found.stroke).toBeCloseTo(x, 5);
    expect(found.force).toBeCloseTo(peak, 0);
    const short = kindOf({ kind: "curve", curve: curve.slice(0, 2) }, "curve");
    expect(short.stroke).toBeNull();
  });

  it("a longer way never asks for more force, whatever the kind", () => {
    for (const kind of STOP_KINDS.filter((each) => each !== "curve")) {
      const force = (stroke: number) =>
        kindOf({ drive: 400, limit: { by: "stroke", stroke } }, kind).force as number;
      expect(force(0.5)).toBeLessThan(force(0.25));
    }
  });
});

describe("bolts", () => {
  // ISO 898-1, tensile stress areas of coarse threads, mm²; ASME B1.1, in². From memory.
  it.each([
    ["M8", 36.6],
    ["M10", 58],
    ["M12", 84.3],
    ["M16", 157],
    ["M20", 245],
    ["M24", 353],
    ["M30", 561],
    ["3/8 in", 0.0775 * 645.16],
    ["1/2 in", 0.1419 * 645.16],
    ["5/8 in", 0.226 * 645.16],
    ["3/4 in", 0.334 * 645.16],
    ["1 in", 0.606 * 645.16],
  ] as const)("%s has its stress area", (size, area) => {
    expect(STRESS_AREA[size] * 1e6).toBeCloseTo(area, area > 100 ? -0.5 : 1);
  });

  it("a class is a hundredth of its tensile strength in MPa (ISO 898-1)", () => {
    for (const name of ["4.6", "5.8", "8.8", "10.9"] as const)
      expect(BOLT_STRENGTH[name].tensile).toBe(Number.parseInt(name, 10) * 1e8);
  });

  it("are the least number that keeps the factor, two at least; a second cut halves them", () => {
    const once = boltsFor(40_000, "M12", 480e6, 1, 3);
    const each = 480e6 * STRESS_AREA.M12;
    expect(once.each).toBeCloseTo(each, 6);
    expect(once.count * each).toBeGreaterThanOrEqual(120_000);
    expect((once.count - 1) * each).toBeLessThan(120_000);
    expect(boltsFor(400_000, "M12", 480e6, 2, 3).count).toBe(
      Math.ceil(boltsFor(400_000, "M12", 480e6, 1, 3).count / 2),
    );
    expect(boltsFor(10, "M30", 480e6, 2, 1).count).toBe(2);
  });
});

it("the drop test gives the stop all that it takes from the machine: m·g·(h + s)", () => {
  const design = designStop(input({ kind: "spring", drive: 500, drop: { mass: 50 } }));
  const whole = design.drop?.steps.find(({ share }) => share === 1);
  expect(50 * G * ((whole?.height ?? 0) + 0.4)).toBeCloseTo(1200 + 500 * 0.4, 6);
  expect(whole?.speed).toBeCloseTo(Math.sqrt(2 * G * (whole?.height ?? 0)), 9);
  // A weight so heavy that it sinks in with more than the energy.
  const heavy = designStop(input({ drop: { mass: 1000 } })).drop;
  expect(heavy?.steps.every(({ height }) => height === null)).toBe(true);
});

it("the frame is held by friction and weight first, and by anchors for what is left", () => {
  const frame = { mass: 200, footprint: 3, friction: 0.4, height: 2 };
  const anchors = designStop(input({ kind: "spring", frame })).anchors;
  const weight = 200 * G;
  expect(anchors?.level).toBeCloseTo(6000 - 0.4 * weight, 6);
  expect((anchors?.down ?? 0) * 3).toBeCloseTo(6000 * 2 - weight * 1.5, 6);
  const slow = designStop(input({ energy: 10, kind: "spring", frame })).anchors;
  expect([slow?.level, slow?.down]).toEqual([0, 0]);
});

it.each([
  [{ kind: "curve" }, "curve"],
  [
    {
      kind: "curve",
      curve: [
        { stroke: 0.2, force: 1 },
        { stroke: 0.1, force: 2 },
      ],
    },
    "curve",
  ],
  [{ limit: { by: "deceleration", deceleration: 20 } }, "movingMass"],
])("asks for what is missing: %j", (more, path) => {
  const read = stopInputSchema.safeParse({ energy: 1, limit: { by: "stroke", stroke: 1 }, ...more });
  expect(read.error?.issues.map((issue) => issue.path[0])).toEqual([path]);
});
