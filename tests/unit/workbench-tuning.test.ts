/** The tuning page's own thinking: sliders' tracks, sentences, ranges and limits as typed, a revision of what was found. */
import { describe, expect, it } from "vitest";
import { readForm } from "@/app/_ui/machine-form/form/request";
import { quantityOf } from "@/app/_ui/quantity-field";
import { changeBench, chosenOf, newBench } from "@/app/workbench/bench/bench";
import { limitsIn } from "@/app/workbench/tuning/limit-fields";
import { answerTo } from "@/app/workbench/tuning/questions";
import { rangesIn } from "@/app/workbench/tuning/range-fields";
import { asRevision, trackOf } from "@/app/workbench/tuning/turned";
import { stepSentence } from "@/app/workbench/tuning/words";
import { tuning } from "@/lib/throw";

const bench = newBench("metric");
const request = (() => {
  const reading = readForm(chosenOf(bench).form);
  if (!reading.ok) throw new Error("The example is complete.");
  return reading.request;
})();
const knobs = tuning.knobsOf(request);
const knob = (name: string) => knobs.find((each) => each.name === name) as tuning.Knob;
const metres = (value: number) => quantityOf(value, "length", "metric");

describe("a slider", () => {
  it("runs between plain numbers, in plain steps, in either system", () => {
    expect(trackOf(knob("releaseAngle"), "metric")).toEqual({ low: 13, high: 63, step: 0.5 });
    expect(trackOf(knob("slingLength"), "metric")).toEqual({ low: 2.16, high: 5.04, step: 0.01 });
    const inches = trackOf(knob("slingLength"), "us");
    expect(inches.step).toBeCloseTo(0.0254, 12);
    expect(inches.low / 0.0254).toBeCloseTo(Math.ceil(2.16 / 0.0254), 6);
  });

  it.each(knobs.filter(({ tunes }) => tunes).map(({ name }) => name))("of %s can be felt", (name) => {
    const { low, high, step } = trackOf(knob(name), "metric");
    const positions = (high - low) / step;
    expect(positions).toBeGreaterThan(15);
    expect(positions).toBeLessThanOrEqual(501);
    expect(knob(name).present).toBeGreaterThanOrEqual(low);
    expect(knob(name).present).toBeLessThanOrEqual(high);
  });
});

describe("a sentence", () => {
  const step = {
    name: "releaseAngle",
    label: "Release angle",
    dimension: "angle",
    step: 1,
    steps: 1,
    unit: "°",
    change: -4,
    up: -4.1,
    down: 3.9,
    end: null,
    course: "smooth",
  } as const satisfies tuning.Sensitivity;

  it.each<[Partial<tuning.Sensitivity>, string]>([
    [{}, "1° of release angle is 4.0 m: more throws shorter."],
    [{ label: "Sling length", unit: "cm", change: 12 }, "1 cm of sling length is 12 m: more throws farther."],
    [
      { course: "turns", up: -0.2, down: -0.3 },
      "1° of release angle more throws 0.2 m shorter, less 0.3 m shorter: it stands at its best.",
    ],
    [
      { course: "jumps", up: -30, down: 0.4 },
      "Within 1° of release angle the throw jumps: more throws 30 m shorter, less 0.4 m farther. Stay away from it.",
    ],
    [{ up: null, down: -2 }, "1° of release angle more, and nothing is thrown; less throws 2.0 m shorter."],
  ])("says %j plainly", (change, said) => {
    expect(stepSentence({ ...step, ...change }, "metric")).toBe(said);
  });

  it("counts in feet for those who do", () => {
    expect(stepSentence(step, "us")).toBe("1° of release angle is 13 ft: more throws shorter.");
  });
});

describe("what is typed", () => {
  it("is refused by the name of its field", () => {
    const range = (low: number, high: number) => ({ slingLength: { low: metres(low), high: metres(high) } });
    expect(rangesIn(request, knobs, range(3, 4), "metric").ranges).toEqual([
      { name: "slingLength", low: 3, high: 4 },
    ]);
    expect(rangesIn(request, knobs, range(4, 3), "metric").problems[0]).toMatch(/^Sling length: .*above/);
    expect(rangesIn(request, knobs, range(3, 4000), "us").problems[0]).toMatch(
      /^Sling length: .*declared.*at most .* ft/,
    );
    expect(rangesIn(request, knobs, {}, "metric").problems).toHaveLength(1);
  });

  it("sets a limit in place of what the declared strengths make it, or none", () => {
    const usual = { slingPull: 900 };
    const typed = (text: string, value: number | null) => ({ slingPull: { text, value } });
    expect(limitsIn({}, usual, "metric").limits).toEqual(usual);
    expect(limitsIn(typed("1200", 1200), usual, "metric").limits).toEqual({ slingPull: 1200 });
    expect(limitsIn(typed("", null), usual, "metric")).toEqual({ limits: {}, problems: [] });
    expect(limitsIn(typed("much", null), usual, "metric").problems[0]).toMatch(/^Pull in the sling/);
    expect(limitsIn(typed("0", 0), usual, "metric").problems[0]).toMatch(/more than 0/);
  });
});

it("makes a revision that throws what was found, and leaves the others alone", () => {
  const to = tuning.withValues(request, { armRatio: 4.7, releaseAngle: 33.25, counterweightMass: 431.5 });
  const actions = asRevision(request, to, { id: "2", name: "Tuned", note: "Tuning: by hand." }, "us");
  const made = actions.reduce(changeBench, changeBench(bench, { do: "units", system: "us" }));
  expect(chosenOf(made)).toMatchObject({ id: "2", name: "Tuned", note: "Tuning: by hand." });
  const reading = readForm(chosenOf(made).form);
  const machine = (reading.ok ? reading.request.machine : {}) as Record<string, number>;
  const wanted = to.machine as unknown as Record<string, number>;
  for (const name of ["longArm", "shortArm", "releaseAngle", "counterweightMass"]) {
    expect(machine[name]).toBeCloseTo(wanted[name] as number, 4);
  }
  const first = made.revisions[0];
  expect(first && readForm(first.form)).toMatchObject({ request: { machine: request.machine } });
});

it("answers why a machine that nobody can build throws nothing", () => {
  const trial = (values: Record<string, number>) =>
    answerTo({ ask: "trial", request: tuning.withValues(request, values) });
  expect(trial({ slingLength: 0.05 })).toMatchObject({
    nominal: null,
    refused: true,
  });
  expect(answerTo({ ask: "trial", request: { ...request, horizon: 0.5 } })).toMatchObject({
    nominal: null,
    reason: expect.stringMatching(/never/),
    forward: expect.any(Number),
  });
  expect(trial({ slingLength: 5000 })).toMatchObject({ refused: true });
});
