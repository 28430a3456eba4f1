/** Dispersion and calibration: the draws, what is said of them, and what measured throws say of a model. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  calibrate,
  calibrationSchema,
  dispersionChunk,
  dispersionRequestSchema,
  dispersionSchema,
  type HazardRequest,
  hazardRequestSchema,
  joined,
  MACHINE_KINDS,
  preview,
  summarise,
} from "@/lib/throw";
import { nominalThrow } from "@/lib/throw/case";
import { HELD, IMPOSSIBLE, LANDED } from "@/lib/throw/spread/dispersion";
import { chebyshev } from "@/lib/throw/spread/efficiency";
import { Draws, philox } from "@/lib/throw/spread/philox";
import { studentBelow, studentQuantile } from "@/lib/throw/spread/student";
import { chanceOf, crossingTest, ellipseOf, percentiles } from "@/lib/throw/spread/summary";
import { Variation } from "@/lib/throw/spread/variation";

const example = (kind: string, more: object = {}): HazardRequest => {
  const found = MACHINE_KINDS.find((each) => each.kind === kind) as (typeof MACHINE_KINDS)[number];
  return hazardRequestSchema.parse({ machine: found.example, projectile: found.exampleProjectile, ...more });
};
const WIND = { wind: { speed: 3, gust: 8, direction: 50 } };
const asked = (more: object = {}) => dispersionRequestSchema.parse({ request: example("measured"), ...more });

describe("the generator", () => {
  test("is Philox 4×32-10: the known answers of its authors' Random123 library (from memory)", () => {
    const out = new Uint32Array(4);
    const hex = () => Array.from(out, (word) => word.toString(16).padStart(8, "0")).join(" ");
    philox(new Uint32Array(4), 0, 0, out);
    expect(hex()).toBe("6627e8d5 e169c58d bc57ac4c 9b00dbd8");
    philox(new Uint32Array(4).fill(0xffffffff), 0xffffffff, 0xffffffff, out);
    expect(hex()).toBe("408f276d 41c83b0e a20bc7c6 6d5451fd");
    philox(new Uint32Array([0x243f6a88, 0x85a308d3, 0x13198a2e, 0x03707344]), 0xa4093822, 0x299f31d0, out);
    expect(hex()).toBe("d16cfe09 94fdcceb 5001e420 24126ea1");
  });

  test("is uniform between −1 and 1, and its numbers know nothing of each other", () => {
    const out = new Float64Array(6);
    const draws = new Draws(7);
    const n = 20_000;
    let [sum, squares, products] = [0, 0, 0];
    for (let i = 0; i < n; i++) {
      draws.fill(i, out);
      sum += out[5];
      squares += out[5] ** 2;
      products += out[0] * out[5];
    }
    // Five standard errors of each.
    expect(Math.abs(sum / n)).toBeLessThan(5 * Math.sqrt(1 / 3 / n));
    expect(Math.abs(squares / n - 1 / 3)).toBeLessThan(5 * Math.sqrt(4 / 45 / n));
    expect(Math.abs(products / n)).toBeLessThan((5 * (1 / 3)) / Math.sqrt(n));
  });
});

describe("the draws", () => {
  test.each(MACHINE_KINDS.map(({ kind }) => kind))("of a %s are the same in any chunks", (kind) => {
    const request = example(kind, { air: WIND });
    const spread = { seed: 2 ** 40 + 3, aim: 2, windTurn: 10 };
    const whole = dispersionChunk(request, spread, 0, 60);
    const cut = joined([
      dispersionChunk(request, spread, 0, 7),
      dispersionChunk(request, spread, 7, 8),
      dispersionChunk(request, spread, 8, 60),
    ]);
    expect(cut).toEqual(whole);
    expect(whole.outcomes.filter((outcome) => outcome === LANDED).length).toBeGreaterThan(30);
    expect(dispersionChunk(request, { ...spread, seed: 4 }, 0, 60).points).not.toEqual(whole.points);
  });

  test.each(MACHINE_KINDS.map(({ kind }) => kind))(
    "of a %s land where the careful engine says, to 1e-4 and a centimetre",
    (kind) => {
      const request = example(kind);
      const { points, outcomes } = dispersionChunk(request, { seed: 5 }, 0, 12);
      const variation = new Variation(request);
      const draw = new Float64Array(variation.size);
      for (let i = 0; i < outcomes.length; i++) {
        if (outcomes[i] === IMPOSSIBLE) continue;
        new Draws(5).fill(i, draw);
        const { nominal } = preview(variation.requestAt(draw));
        expect(outcomes[i]).toBe(nominal ? LANDED : HELD);
        if (!nominal) continue;
        expect(Math.abs(points[2 * i] - nominal.distance)).toBeLessThan(0.01 + 1e-4 * nominal.distance);
      }
    },
  );

  test("stay within their limits, and exact numbers stay as they are", () => {
    const request = example("hinged-counterweight", {
      tolerances: { releaseAngle: 4, counterweightMass: 0, armCentre: 0.05 },
    });
    const variation = new Variation(request);
    const draw = new Float64Array(variation.size);
    const machine = request.machine as Extract<HazardRequest["machine"], { kind: "hinged-counterweight" }>;
    const middle = (machine.longArm + machine.shortArm) / 2;
    const angles: number[] = [];
    for (let i = 0; i < 200; i++) {
      new Draws(1).fill(i, draw);
      const drawn = variation.requestAt(draw).machine as typeof machine;
      expect(drawn.counterweightMass).toBe(machine.counterweightMass);
      expect(drawn.armInertia).toBeUndefined();
      expect(Math.abs((drawn.armCentre as number) - middle)).toBeLessThanOrEqual(0.05);
      angles.push(drawn.releaseAngle);
    }
    expect(Math.min(...angles)).toBeGreaterThan(machine.releaseAngle - 4);
    expect(Math.max(...angles)).toBeLessThan(machine.releaseAngle + 4);
    expect(Math.max(...angles) - Math.min(...angles)).toBeGreaterThan(7);
  });

  test("a loop that never slips, and a machine that cannot be, are counted and land nowhere", () => {
    const { machine, projectile } = example("hinged-counterweight");
    const exact = Object.fromEntries(
      MACHINE_KINDS[0].parameters.map(({ name }) => [name, 0] as const).concat([["mass", 0]]),
    );
    const never = hazardRequestSchema.parse({
      machine: { ...machine, releaseAngle: -700 },
      projectile,
      tolerances: exact,
      horizon: 1.2,
    });
    expect([...dispersionChunk(never, { seed: 1 }, 0, 3).outcomes]).toEqual([HELD, HELD, HELD]);
    const loose = hazardRequestSchema.parse({
      machine,
      projectile,
      tolerances: { ...exact, counterweightMass: 410 },
      horizon: 1.2,
    });
    const { outcomes, points } = dispersionChunk(loose, { seed: 1 }, 0, 40);
    const impossible = [...outcomes.keys()].filter((i) => outcomes[i] === IMPOSSIBLE);
    expect(impossible.length).toBeGreaterThan(3);
    for (const i of impossible) expect([points[2 * i], points[2 * i + 1]]).toEqual([0, 0]);
    const { spread, ...counts } = summarise(dispersionChunk(never, { seed: 1 }, 0, 100), asked());
    expect([spread, counts.held, counts.landed]).toEqual([null, 100, 0]);
  });

  test("without any tolerance or wind every draw is the nominal throw", () => {
    const exact = { releaseSpeed: 0, launchAngle: 0, launchHeight: 0, mass: 0, diameter: 0 };
    const request = example("measured", { tolerances: exact });
    const { distance } = preview(request).nominal as { distance: number };
    const { points } = dispersionChunk(request, { seed: 9 }, 0, 5);
    for (let i = 0; i < 5; i++) expect(points[2 * i]).toBeCloseTo(distance, 2);
    // An aim that errs by an angle turns the same throw about the firing point.
    const aimed = dispersionChunk(request, { seed: 9, aim: 10 }, 0, 5);
    for (let i = 0; i < 5; i++) {
      expect(Math.hypot(aimed.points[2 * i], aimed.points[2 * i + 1])).toBeCloseTo(distance, 2);
      expect(Math.abs(Math.atan2(aimed.points[2 * i + 1], aimed.points[2 * i]))).toBeLessThan(Math.PI / 18);
    }
  });
});

describe("the summary", () => {
  test("keeps to its contract", () => {
    const request = asked({
      points: 5,
      draws: 100,
      crossings: [
        { beyond: 140 },
        {
          name: "road",
          line: [
            [0, 9],
            [9, 9],
          ],
        },
      ],
    });
    const answer = summarise(dispersionChunk(request.request, request, 0, request.draws), request);
    expect(dispersionSchema.parse(answer)).toEqual(answer);
    expect(answer.points).toHaveLength(5);
    expect(answer.crossings[1].name).toBe("road");
  });

  test("percentiles of a known set, with errors from the order of its members", () => {
    const values = Array.from({ length: 101 }, (_, i) => (i * 37) % 101);
    const [low, middle, high] = percentiles(values, [0.05, 0.5, 0.95]);
    expect([low.distance, middle.distance, high.distance]).toEqual([5, 50, 95]);
    // On 0 … 100 a share is a distance: its binomial deviation, in hundredths.
    expect(middle.standardError).toBeCloseTo(100 * Math.sqrt(0.25 / 101), 9);
    expect(high.standardError).toBeCloseTo(100 * Math.sqrt((0.05 * 0.95) / 101), 9);
  });

  test("the ellipse of a known covariance", () => {
    // Points at ±a along 30° and ±b across it: variances a²/2 and b²/2 by n, times n/(n − 1) = 4/3.
    const [a, b, turn] = [12, 3, Math.PI / 6];
    const x = [a * Math.cos(turn), -a * Math.cos(turn), -b * Math.sin(turn), b * Math.sin(turn)];
    const z = [a * Math.sin(turn), -a * Math.sin(turn), b * Math.cos(turn), -b * Math.cos(turn)];
    const probability = 1 - Math.exp(-0.5);
    const ellipse = ellipseOf(x, z, probability);
    expect(ellipse.semiMajor).toBeCloseTo(a * Math.sqrt(2 / 3), 12);
    expect(ellipse.semiMinor).toBeCloseTo(b * Math.sqrt(2 / 3), 12);
    expect(ellipse.direction).toBeCloseTo(30, 12);
    expect(ellipse.holds).toBe(0);
    expect(ellipseOf(x, z, 0.99).holds).toBe(1);
    // χ² with two degrees of freedom, 95 %: 5.991 (tables, from memory).
    expect((ellipseOf(x, z, 0.95).semiMajor / ellipse.semiMajor) ** 2).toBeCloseTo(5.991, 3);
  });

  test("turning the landings turns the ellipse with them", () => {
    const cloud = fc.array(fc.tuple(fc.integer({ min: -50, max: 50 }), fc.integer({ min: -50, max: 50 })), {
      minLength: 5,
      maxLength: 30,
    });
    fc.assert(
      fc.property(cloud, fc.double({ min: 0, max: 3.1, noNaN: true }), (points, turn) => {
        const [c, s] = [Math.cos(turn), Math.sin(turn)];
        const before = ellipseOf(
          points.map(([x]) => x),
          points.map(([, z]) => z),
          0.9,
        );
        const after = ellipseOf(
          points.map(([x, z]) => c * x - s * z),
          points.map(([x, z]) => s * x + c * z),
          0.9,
        );
        expect(after.semiMajor).toBeCloseTo(before.semiMajor, 6);
        expect(after.semiMinor).toBeCloseTo(before.semiMinor, 4);
        if (before.semiMajor < 1.01 * before.semiMinor) return;
        const difference = after.direction - before.direction - (turn * 180) / Math.PI;
        expect(Math.abs(Math.sin((difference * Math.PI) / 180))).toBeLessThan(1e-6);
      }),
      { numRuns: 60, seed: 11 },
    );
  });

  test("chances with their errors", () => {
    expect(chanceOf(20, 100).standardError).toBeCloseTo(0.04, 12);
    // Wilson's interval of 20 in 100: 0.133 to 0.289 (worked by hand); of none in 100: up to 3.7 %.
    expect(chanceOf(20, 100).interval[0]).toBeCloseTo(0.1334, 4);
    expect(chanceOf(20, 100).interval[1]).toBeCloseTo(0.2888, 4);
    expect(chanceOf(0, 100)).toMatchObject({ chance: 0, standardError: 0 });
    expect(chanceOf(0, 100).interval[0]).toBe(0);
    expect(chanceOf(0, 100).interval[1]).toBeCloseTo(0.037, 4);
  });

  test("lines and areas", () => {
    expect(crossingTest({ beyond: 10 })(11, -5)).toBe(true);
    expect(crossingTest({ beyond: 10 })(9, 50)).toBe(false);
    expect(crossingTest({ beyond: -10 })(-11, 0)).toBe(true);
    const fence = crossingTest({
      line: [
        [0, 20],
        [10, 20],
      ],
    });
    expect([fence(500, 19), fence(-500, 21)]).toEqual([false, true]);
    const same = crossingTest({
      line: [
        [10, 20],
        [0, 20],
      ],
    });
    expect([same(500, 19), same(-500, 21)]).toEqual([false, true]);
    // An L: its notch is outside.
    const corner = crossingTest({
      polygon: [
        [0, 0],
        [4, 0],
        [4, 2],
        [2, 2],
        [2, 4],
        [0, 4],
      ],
    });
    expect([corner(1, 3), corner(3, 1), corner(3, 3), corner(-1, 1)]).toEqual([true, true, false, false]);
    expect(
      dispersionRequestSchema.safeParse({
        request: example("measured"),
        crossings: [
          {
            line: [
              [1, 1],
              [2, 2],
            ],
          },
        ],
      }).success,
    ).toBe(false);
  });
});

describe("Student's t", () => {
  test.each([
    [1, 31.821],
    [2, 6.965],
    [3, 4.541],
    [4, 3.747],
    [5, 3.365],
    [10, 2.764],
    [30, 2.457],
  ])("for %i degrees of freedom 99 %% lie below %f (tables, from memory)", (degrees, t) => {
    expect(studentQuantile(0.99, degrees)).toBeCloseTo(t, 3);
    expect(studentBelow(-studentQuantile(0.99, degrees), degrees)).toBeCloseTo(0.01, 10);
  });
});

describe("calibration", () => {
  const request = example("hinged-counterweight", { air: { wind: { speed: 2, direction: 0 } } });
  const nominal = preview(request).nominal as NonNullable<ReturnType<typeof preview>["nominal"]>;
  const WORST = 2 * nominal.distance;

  /** What the model throws with a share of its energy, by the careful engine. */
  function withShare(efficiency: number, wind?: { speed: number; direction: number }): number {
    const share = Math.sqrt(efficiency);
    const angle = (nominal.launchAngle * Math.PI) / 180;
    const machine = {
      kind: "measured" as const,
      releaseSpeed: nominal.releaseSpeed * share,
      launchAngle: nominal.launchAngle,
      launchHeight: nominal.releaseHeight,
    };
    const air = wind ? { wind: { ...wind, height: 10 } } : request.air;
    const instant = {
      ...({ time: 0, step: 0, fraction: 0, segment: 0, slingAngle: 0 } as const),
      ...({ hangUp: false, afterSlack: false, stop: "none" } as const),
      x: releaseX,
      y: nominal.releaseHeight,
      vx: machine.releaseSpeed * Math.cos(angle),
      vy: machine.releaseSpeed * Math.sin(angle),
    };
    const { distance, drift } = nominalThrow({ ...request, air } as HazardRequest, instant) as typeof nominal;
    return Math.hypot(distance, drift);
  }
  const releaseX = (() => {
    const { swing } = preview(request);
    const frames = swing?.frames ?? [];
    const at = frames.findIndex(({ time }) => time >= nominal.releaseTime);
    const [a, b] = [frames[at - 1], frames[at]];
    const part = (nominal.releaseTime - a.time) / (b.time - a.time);
    return a.projectile[0] + part * (b.projectile[0] - a.projectile[0]);
  })();

  test("finds the share of the energy that made the marks, whatever the wind was", () => {
    const winds = [
      undefined,
      { speed: 0, direction: 0 },
      { speed: 9, direction: 180 },
      { speed: 6, direction: 70 },
    ];
    const throws = winds.map((wind) => ({
      distance: withShare(0.8, wind),
      uncertainty: 0.001,
      wind: wind && { ...wind, height: 10 },
    }));
    const answer = calibrate(request, throws, WORST);
    expect(calibrationSchema.parse(answer)).toEqual(answer);
    // The release is only known between two frames of the picture: a centimetre.
    expect(answer.efficiency).toBeCloseTo(0.8, 3);
    expect(answer.scatter).toBeLessThan(0.02);
    expect(answer.next?.distance).toBeCloseTo(throws[0].distance, 1);
    expect([answer.alarm, answer.hold]).toEqual([false, false]);
  });

  test("a machine on wheels is judged and drawn by the throw as meant, which rolls", () => {
    const { machine, projectile } = example("hinged-counterweight");
    const base = { frameMass: 150, footprint: 2 };
    const tolerances = Object.fromEntries(
      [...MACHINE_KINDS[0].parameters.map(({ name }) => name), "mass", "diameter"].map((name) => [name, 0]),
    );
    const rolling = hazardRequestSchema.parse({ machine: { ...machine, base }, projectile, tolerances });
    const distance = preview(rolling).nominal?.distance ?? 0;
    expect(calibrate(rolling, [{ distance, uncertainty: 0 }], 1e4).efficiency).toBeCloseTo(1, 6);
    expect(dispersionChunk(rolling, { seed: 1 }, 0, 1).points[0]).toBeCloseTo(distance, 1);
  });

  test("scatter, error and prediction are those of least squares worked by hand", () => {
    const middle = withShare(0.8);
    const marks = [-1.5, 0.5, 1, -0.5, 0.5].map((off) => ({ distance: middle + off, uncertainty: 0 }));
    const answer = calibrate(request, marks, WORST);
    // Residuals about their mean 0: s² = (2.25 + 0.25 + 1 + 0.25 + 0.25)/4 = 1.
    expect(answer.scatter).toBeCloseTo(1, 3);
    expect(answer.degreesOfFreedom).toBe(4);
    const slope = (withShare(0.801) - withShare(0.799)) / 0.002;
    expect(answer.standardError).toBeCloseTo(1 / (slope * Math.sqrt(5)), 5);
    // t 99 %, four degrees of freedom: 3.747 (tables, from memory); √(1 + 1/5) for one more throw.
    const { distance, upper99 } = answer.next as { distance: number; upper99: number };
    expect(upper99 - distance).toBeCloseTo(3.747 * Math.sqrt(1.2), 2);
  });

  test("a mark beyond the 99 % upper prediction is an alarm; it does not hide the next one", () => {
    const middle = withShare(0.8);
    const usual = [0, 0.4, -0.4, 0.2, -0.2].map((off) => ({ distance: middle + off, uncertainty: 0 }));
    const far = { distance: middle + 4, uncertainty: 0 };
    const { marks, alarm, hold } = calibrate(request, [...usual, far, far, usual[0]], WORST);
    expect(marks.map(({ verdict }) => verdict)).toEqual([
      ...["expected", "expected", "expected", "expected", "expected"],
      ...["alarm", "alarm", "expected"],
    ]);
    expect([alarm, hold]).toEqual([true, false]);
  });

  test("beyond the worst throw the model is wrong and the range holds, from the first throw on", () => {
    const answer = calibrate(request, [{ distance: WORST + 1, uncertainty: 0 }], WORST);
    expect(answer.hold).toBe(true);
    expect(answer.marks[0].verdict).toBe("model-wrong");
    expect(answer.notes.join(" ")).toContain("Hold the range");
    expect(calibrate(request, [{ distance: WORST - 1, uncertainty: 0 }], WORST).hold).toBe(false);
  });

  test("marks that agree better than they were measured do not make the prediction narrow", () => {
    const distance = withShare(0.8);
    const answer = calibrate(
      request,
      [0, 0, 0].map(() => ({ distance, uncertainty: 0.5 })),
      WORST,
    );
    expect(answer.scatter).toBeCloseTo(0.5, 9);
    // Of which nobody said how well they are known: a tape's 0.3 m.
    const unstated = calibrate(
      request,
      [
        { distance, uncertainty: 0 },
        { distance, uncertainty: 0 },
      ],
      WORST,
    );
    expect(unstated.scatter).toBeCloseTo(0.3, 9);
  });

  test("says nothing where there is nothing to say", () => {
    const none = calibrate(request, [], WORST);
    expect([none.efficiency, none.next, none.alarm, none.hold]).toEqual([null, null, false, false]);
    const one = calibrate(request, [{ distance: 100, uncertainty: 0 }], WORST);
    expect([one.standardError, one.scatter, one.marks[0]?.verdict]).toEqual([null, null, "unjudged"]);
    // A fifth beyond it, whatever it may scatter.
    expect(one.next?.upper99).toBeCloseTo(120, 3);
  });

  test("the series agrees with its function, value and slope", () => {
    const series = chebyshev((x) => Math.exp(x) * Math.sin(3 * x), 0.2, 1.4);
    for (const x of [0.2, 0.31, 0.8, 1.39]) {
      expect(series.at(x)).toBeCloseTo(Math.exp(x) * Math.sin(3 * x), 9);
      expect(series.slope(x)).toBeCloseTo(Math.exp(x) * (Math.sin(3 * x) + 3 * Math.cos(3 * x)), 7);
    }
  });
});
