/** Practice throws: the calibrated machine over several settings, and the next setting. */
import { describe, expect, test } from "vitest";
import {
  type HazardRequest,
  hazardRequestSchema,
  hazardSheet,
  MACHINE_KINDS,
  type MeasuredThrow,
  trials,
  tuning,
} from "@/lib/throw";
import { calibrate } from "@/lib/throw/spread/calibration";
import { Draws } from "@/lib/throw/spread/philox";
import { fitOffset } from "@/lib/throw/trials/offset";
import { Thrower } from "@/lib/throw/tuning/evaluate";

const example = (kind: string, more: object = {}): HazardRequest => {
  const found = MACHINE_KINDS.find((each) => each.kind === kind) as (typeof MACHINE_KINDS)[number];
  return hazardRequestSchema.parse({ machine: found.example, projectile: found.exampleProjectile, ...more });
};

/** What must be there for the test to mean anything. */
function there<T>(value: T | null | undefined): T {
  if (value === null || value === undefined) throw new Error("It is not there.");
  return value;
}

/** Standard normal numbers, two a draw, by Box and Muller. */
function normals(seed: number) {
  const draws = new Draws(seed);
  const pair = new Float64Array(2);
  let index = 0;
  return () => {
    draws.fill(index++, pair);
    const [a, b] = [0.5 + 0.5 * (pair[0] as number), pair[1] as number];
    return Math.sqrt(-2 * Math.log(a)) * Math.cos(Math.PI * b);
  };
}

/** Without air and from the ground: v² sin 2θ / g, η times that for a machine that gives η of its energy. */
const SPEED = 30;
const airless = hazardRequestSchema.parse({
  machine: { kind: "measured", releaseSpeed: SPEED, launchAngle: 45, launchHeight: 0 },
  projectile: { mass: 4, diameter: 0.2 },
  tolerances: { releaseSpeed: 0 },
  air: { pressure: 0 },
});
const G = 9.80665;
const reach = (degrees: number) => (SPEED ** 2 * Math.sin((2 * degrees * Math.PI) / 180)) / G;
const at = (launchAngle: number, distance: number): MeasuredThrow => ({
  distance,
  uncertainty: 0,
  settings: { launchAngle },
});

const fallen = (below: number) => ({ below, slope: 0, crossSlope: 0 });

describe("one efficiency over several settings", () => {
  test("is that of least squares in closed form where distance is proportional to it", () => {
    const angles = [25, 30, 40, 45, 60];
    const marks = angles.map((angle, i) =>
      at(angle, 0.8 * reach(angle) + there([0.9, -0.4, 0.3, -1.1, 0.6][i])),
    );
    const found = calibrate(airless, marks, 1e4);
    // d = η m: η = Σ d m / Σ m², u = s / √Σ m².
    const m = angles.map(reach);
    const squares = m.reduce((sum, each) => sum + each * each, 0);
    const eta = m.reduce((sum, each, i) => sum + each * marks[i]?.distance, 0) / squares;
    const s = Math.sqrt(m.reduce((sum, each, i) => sum + (marks[i]?.distance - eta * each) ** 2, 0) / 4);
    expect(found.efficiency).toBeCloseTo(eta, 8);
    expect(found.scatter).toBeCloseTo(s, 6);
    expect(found.standardError).toBeCloseTo(s / Math.sqrt(squares), 8);
    expect(found.marks.map(({ modelled }) => modelled?.toFixed(3))).toEqual(m.map((each) => each.toFixed(3)));
  });

  test("its 95 % interval holds the truth in 95 of 100 seeded sets of throws, and so does the next one", () => {
    const normal = normals(5);
    const angles = [28, 35, 35, 42];
    let [held, foretold] = [0, 0];
    const sets = 400;
    for (let set = 0; set < sets; set++) {
      const marks = angles.map((angle) => at(angle, 0.75 * reach(angle) + 1.5 * normal()));
      const machine = { calibration: calibrate(airless, marks, 1e4), thrown: {}, offset: null };
      const { efficiency, standardError, degreesOfFreedom } = machine.calibration;
      const k = trials.coverageFactor(degreesOfFreedom);
      if (Math.abs(there(efficiency) - 0.75) <= k * there(standardError)) held++;
      if (set % 4 > 0) continue;
      const next = trials.nextSetting({
        request: airless,
        throws: marks,
        machine,
        vary: { name: "launchAngle", low: 20, high: 40 },
        goal: { kind: "mark", distance: 60 },
        withOffset: false,
      });
      if (!next.found) throw new Error(next.why);
      const lands = 0.75 * reach(next.value) + 1.5 * normal();
      if (lands >= there(next.between)[0] && lands <= there(next.between)[1]) foretold++;
    }
    // 95.45 % within four standard errors of so many sets.
    expect(held / sets).toBeGreaterThan(0.913);
    expect(held / sets).toBeLessThan(0.996);
    expect(foretold).toBeGreaterThan(86);
  });

  test("each throw is flown in its own air and over its own ground, whatever the request has", () => {
    const airy = { ...airless, air: { pressure: 101_325, temperature: 288.15 } };
    const [here, vacuum, below] = calibrate(
      airy,
      [at(45, 70), { ...at(45, 70), air: { pressure: 0 } }, { ...at(45, 70), terrain: fallen(20) }],
      1e4,
    ).marks.map(({ modelled }) => there(modelled));
    expect(vacuum).toBeCloseTo(reach(45), 3);
    expect(here).toBeLessThan(reach(45) - 1);
    expect(below).toBeGreaterThan(there(here) + 10);
  });

  test("Student's factors of the GUM's table G.2 (from memory): 95.45 %", () => {
    const factors = [1, 2, 4, 10, 300].map((degrees) => trials.coverageFactor(degrees).toFixed(2));
    expect(factors).toEqual(["13.97", "4.53", "2.87", "2.28", "2.00"]);
  });

  test("a pin of a real machine: marks made by the model at another efficiency are explained by it", () => {
    const request = example("hinged-counterweight");
    const thrower = new Thrower(request, 0.82);
    const marks = [30, 36, 42].map((releaseAngle) => ({
      distance: thrower.distance(tuning.withValues(request, { releaseAngle })) as number,
      uncertainty: 0.2,
      settings: { releaseAngle },
    }));
    const machine = trials.calibratedMachine(request, marks, [], "releaseAngle", trials.quickWorst);
    expect(machine.calibration.efficiency).toBeCloseTo(0.82, 3);
    for (const [i, mark] of marks.entries()) expect(machine.fitted[i]).toBeCloseTo(mark.distance, 1);
    expect(machine.thrown).toEqual({ releaseAngle: [30, 42] });
    expect([machine.calibration.alarm, machine.calibration.hold]).toEqual([false, false]);
  });

  test("beyond the declared machine's worst throw the model is wrong, ahead and behind, whatever wind was read", () => {
    const request = example("measured");
    const { worst } = hazardSheet(request);
    const [forward, backward] = [worst.forward.distance, worst.backward.distance];
    const far = { distance: forward + 1, uncertainty: 100, settings: { launchAngle: 30 } };
    const behind = { distance: backward + 1, uncertainty: 0, settings: {} };
    const wrong = trials.calibratedMachine(request, [far], [behind], null);
    expect(wrong.calibration.hold).toBe(true);
    // The angle decides only the throw as meant: the worst are the sheet's own.
    expect(wrong.worst).toEqual({ forward, backward });
    expect(wrong.behindWorst).toEqual([0]);
    const light = { ...far, wind: { speed: 60, direction: 0, height: 10 }, mass: 0.01 };
    expect(trials.calibratedMachine(request, [light], [], null, () => wrong.worst).calibration.hold).toBe(
      true,
    );
    // What the page says at once holds sooner than what the search finds.
    const quick = trials.quickWorst(request);
    expect(quick.forward).toBeLessThanOrEqual(forward);
    expect(quick.forward).toBeGreaterThan(0.8 * forward);
  });

  test("a throw written down wrong hides neither an alarm nor the hold of the others", () => {
    const request = example("hinged-counterweight");
    const judged = (...throws: MeasuredThrow[]) =>
      trials.calibratedMachine(request, throws, [], null, trials.quickWorst).calibration;
    const verdicts = (...throws: MeasuredThrow[]) => judged(...throws).marks.map(({ verdict }) => verdict);
    const pin = { releaseAngle: 38 };
    const of = (distance: number, more: Partial<MeasuredThrow> = {}): MeasuredThrow => ({
      ...{ distance, uncertainty: 0.3, settings: pin, ...more },
    });
    const usual = [of(90), of(91), of(90.5)];
    const wrong = [
      of(90, { settings: { ...pin, counterweightMass: -5 } }),
      of(90, { mass: 5000 }),
      of(90, { settings: { releaseAngle: 500 } }),
    ];
    const said = judged(...usual, of(120), ...wrong);
    expect(said.marks[3]?.verdict).toBe("alarm");
    expect(said.marks.slice(4).map(({ modelled }) => modelled)).toEqual([null, null, null]);
    // Each with its own reason, and it does not go free for it.
    expect(said.marks[6]?.remark).toMatch(/no number of such a machine/);
    expect(verdicts(...usual, of(120, { settings: { releaseAngle: 500 } })).at(-1)).toBe("alarm");
    expect(verdicts(of(400), ...wrong)[0]).toBe("model-wrong");
    // One that was made with half of the counterweight is held against the worst of that.
    const half = {
      ...pin,
      counterweightMass: (request.machine as { counterweightMass: number }).counterweightMass / 2,
    };
    const { forward } = trials.quickWorst(tuning.withValues(request, half));
    expect(verdicts(of(forward + 1, { settings: half }))[0]).toBe("model-wrong");
    expect(forward).toBeLessThan(0.8 * trials.quickWorst(request).forward);
  });

  test("a throw that falls far short does not widen what the next ones may do, and is told", () => {
    const marks = [0.8, 0.81, 0.805, 0.4, 1].map((share) => at(45, share * reach(45)));
    const { marks: judged, notes } = calibrate(airless, marks, 1e4);
    expect(judged.map(({ verdict }) => verdict)).toEqual([
      ...["expected", "expected", "expected"],
      ...["short", "alarm"],
    ]);
    expect(notes.join(" ")).toMatch(/fell far short/);
  });

  test("a machine that throws backwards as meant explains no mark ahead", () => {
    const request = example("hinged-counterweight");
    const settings = { releaseAngle: 120 };
    const { marks, efficiency } = calibrate(request, [{ distance: 20, uncertainty: 0.3, settings }], 1e4);
    expect(new Thrower(request).distance(tuning.withValues(request, settings))).toBeLessThan(0);
    expect(marks[0]?.modelled).toBeLessThan(0);
    expect(efficiency).toBeNull();
  });

  test("the API's request takes the settings that leave the worst throws alone, and no others", () => {
    const { machine, projectile } = example("hinged-counterweight");
    const with_ = (settings: object) =>
      hazardRequestSchema.safeParse({ machine, projectile, throws: [{ distance: 50, settings }] });
    expect(with_({ releaseAngle: 30 }).success).toBe(true);
    const refused = with_({ counterweightMass: 90 });
    expect(refused.error?.issues[0]).toMatchObject({
      path: ["throws", 0, "settings", "counterweightMass"],
      message: expect.stringContaining("is another revision"),
    });
    expect(with_({ releaseAngle: 179 }).error?.issues[0]?.message).toMatch(/slip at once/);
  });
});

describe("the offset of the setting's scale", () => {
  const made = (angles: readonly number[], offset: number, noise: readonly number[] = []) =>
    angles.map((angle, i) => at(angle, 0.8 * reach(angle + offset) + (noise[i] ?? 0)));

  test("is found with the efficiency, exactly where the marks are exact", () => {
    const marks = made([20, 30, 45, 60], 4);
    const { offset } = trials.calibratedMachine(airless, marks, [], "launchAngle");
    if (!offset?.told) throw new Error("not told");
    expect(offset.offset).toBeCloseTo(4, 3);
    expect(offset.efficiency).toBeCloseTo(0.8, 5);
    expect(offset.matters).toBe(true);
  });

  test("its 95 % interval holds the truth in 95 of 100 seeded sets", () => {
    const normal = normals(9);
    let held = 0;
    for (let set = 0; set < 150; set++) {
      const marks = made([20, 28, 36, 50, 60], 3, [0, 1, 2, 3, 4].map(normal));
      const offset = fitOffset(airless, marks, "launchAngle", 0.8);
      if (offset.told && Math.abs(offset.offset - 3) <= offset.uncertainty) held++;
    }
    expect(held).toBeGreaterThan(132);
  });

  test("is refused where it cannot be told apart from the efficiency", () => {
    const told = (angles: readonly number[]) => {
      const offset = fitOffset(airless, made(angles, 2, [0.1, -0.1, 0.1, 0]), "launchAngle", 0.8);
      return offset.told ? "told" : offset.why;
    };
    expect(told([30, 40])).toBe("few-settings");
    expect(told([30, 35, 40])).toBe("few-throws");
    // One degree apart the slopes are alike: less speed looks like a lower angle.
    expect(told([15, 15.3, 15.6, 15.9])).toBe("alike");
  });
});

describe("the next setting", () => {
  const marks = [at(25, 0.8 * reach(25) + 0.5), at(30, 0.8 * reach(30) - 0.5), at(40, 0.8 * reach(40))];
  const machine = trials.calibratedMachine(airless, marks, [], null);
  const ask = (goal: trials.NextAsked["goal"], low: number, high: number) =>
    trials.nextSetting({
      request: airless,
      throws: marks,
      machine,
      vary: { name: "launchAngle", low, high },
      goal,
      withOffset: false,
    });

  test("for a mark is the closed form's angle, the one that was thrown before the steep one", () => {
    const eta = machine.calibration.efficiency as number;
    const next = ask({ kind: "mark", distance: 60 }, 10, 80);
    if (!next.found) throw new Error(next.why);
    const low = (Math.asin(60 / (eta * reach(45))) * 90) / Math.PI;
    expect(next.value).toBeCloseTo(low, 1);
    expect(next.others).toHaveLength(1);
    expect(next.others[0]).toBeCloseTo(90 - low, 1);
    expect(next.extrapolates).toBe(false);
    expect(next.uncertainty).toBeGreaterThan(0);
  });

  test("for distance is 45° without air, within what was asked", () => {
    const free = ask({ kind: "farthest" }, 20, 70);
    if (!free.found) throw new Error(free.why);
    expect(free.value).toBeCloseTo(45, 0);
    expect(free.extrapolates).toBe(true);
    expect(free.flat?.[0]).toBeLessThan(44);
    expect(free.flat?.[1]).toBeGreaterThan(46);
    const bound = ask({ kind: "farthest" }, 20, 38);
    expect(bound).toMatchObject({ found: true, value: 38, extrapolates: false });
  });

  test("beyond what the range reaches there is none, and it says what is reached", () => {
    const none = ask({ kind: "mark", distance: 200 }, 20, 50);
    expect(none).toMatchObject({ found: false, why: "out-of-reach" });
    if (!none.found)
      expect(none.reach?.[1]).toBeCloseTo(there(machine.calibration.efficiency) * reach(45), 0);
  });
});
