/** The log of practice throws: what it keeps, what it refuses, and its way through CSV. */
import { describe, expect, test } from "vitest";
import { thrownRequest } from "@/app/workbench/trials/broke/ask";
import { draftFrom, meaning, withDraft } from "@/app/workbench/trials/entry/draft";
import { formOf, proposedForm, readThrow } from "@/app/workbench/trials/entry/throw-form";
import {
  calibrating,
  emptyLog,
  groupsOf,
  type Log,
  logFromText,
  logToText,
  mainSetting,
  type Throw,
  without,
  withThrow,
} from "@/app/workbench/trials/log/log";
import { csvIntoLog, logToCsv } from "@/app/workbench/trials/log/log-csv";
import { measuredOf, thrownWith } from "@/app/workbench/trials/log/measured";
import { type HazardRequest, hazardRequestSchema, MACHINE_KINDS, tuning } from "@/lib/throw";

const example = (kind: string): HazardRequest => {
  const found = MACHINE_KINDS.find((each) => each.kind === kind) as (typeof MACHINE_KINDS)[number];
  return hazardRequestSchema.parse({ machine: found.example, projectile: found.exampleProjectile });
};
const request = example("hinged-counterweight");
const made = (id: string, more: Partial<Throw> = {}): Omit<Throw, "machine"> => ({
  id,
  at: "2031-05-03T14:20",
  settings: { releaseAngle: 36 },
  wind: { speed: 2, direction: 180, height: 2, by: "post 2" },
  mass: 4.1,
  result: "landed",
  distance: 92,
  aside: -3,
  uncertainty: 0.3,
  note: 'said "high", then, later',
  pieces: [],
  film: null,
  ...more,
});
let count = 0;
const newId = () => `id-${count++}`;
const logOf = (...throws: Omit<Throw, "machine">[]): Log =>
  throws.reduce((log, each) => withThrow(log, each, { name: "As built", request }, newId()), emptyLog);

describe("the log", () => {
  test("comes back from its text as it was, numbers of the machine and all", () => {
    const log = logOf(made("a"), made("b", { result: "misfire", distance: null, wind: null, mass: null }));
    expect(logFromText(logToText(log))).toEqual(log);
    expect(log.machines).toHaveLength(1);
    expect(logFromText(null)).toEqual(emptyLog);
  });

  test("refuses what is no log, and says what is wrong", () => {
    const log = logOf(made("a"));
    const wrong = (text: string) => {
      const found = logFromText(text);
      return "wrong" in found ? found.wrong : "taken";
    };
    expect(wrong("{cut")).toMatch(/cut off/);
    expect(wrong(JSON.stringify({ ...log, version: 2 }))).toMatch(/version/);
    expect(wrong(JSON.stringify({ ...log, machines: [] }))).toMatch(/does not hold/);
    expect(wrong(JSON.stringify({ ...log, throws: [{ ...log.throws[0], distance: "far" }] }))).toMatch(
      /throws\.0\.distance/,
    );
  });

  test("keeps throws with the numbers that they were thrown with; another pin is the same machine", () => {
    const longer = tuning.withValues(request, { slingLength: 3 });
    const turned = tuning.withValues(request, { releaseAngle: 30 });
    let log = logOf(made("a"));
    log = withThrow(
      log,
      made("b", { settings: { releaseAngle: 30 } }),
      { name: "Pin", request: turned },
      newId(),
    );
    log = withThrow(log, made("c"), { name: "Longer", request: longer }, newId());
    const groups = groupsOf(log);
    expect(groups.map(({ throws }) => throws.map(({ id }) => id))).toEqual([["a", "b"], ["c"]]);
    expect(groups[0]?.request).toEqual(request);
    const left = without(log, "c");
    expect(left.machines.map(({ name }) => name)).toEqual(["As built", "Pin"]);
  });

  test("gives the calibration what landed, over the ground and with its own setting", () => {
    const log = logOf(
      made("a", { distance: 4, aside: 3 }),
      made("b", { result: "broke" }),
      made("c", { result: "backwards", distance: 20 }),
      made("d", { result: "no-release", distance: null }),
    );
    const { forward, backward } = calibrating(log.throws);
    expect([forward, backward].map((list) => list.map(({ id }) => id))).toEqual([["a"], ["c"]]);
    expect(measuredOf(forward[0] as Throw, request)).toEqual({
      distance: 5,
      uncertainty: 0.3,
      wind: { speed: 2, direction: 180, height: 2 },
      air: {},
      terrain: { below: 0, slope: 0, crossSlope: 0 },
      mass: 4.1,
      settings: { releaseAngle: 36 },
    });
  });
});

test("what nobody wrote down of a throw is what its machine was declared with then, not what is on the bench", () => {
  const bare = made("a", { settings: {}, mass: null, wind: null, uncertainty: null, aside: null });
  const asThen = tuning.withValues(request, { releaseAngle: 31, mass: 3.5 });
  const windy = {
    ...asThen,
    air: { temperature: 303, pressure: 91_000, wind: { speed: 4, direction: 20, height: 6 } },
    terrain: { below: 3, slope: 0, crossSlope: 0 },
  };
  const log = withThrow(emptyLog, bare, { name: "Then", request: windy }, newId());
  const [only] = log.throws as [Throw];
  const declared = log.machines[0]?.request as HazardRequest;
  expect(measuredOf(only, declared)).toEqual({
    distance: 92,
    uncertainty: 0,
    wind: { speed: 4, direction: 20, height: 6 },
    air: { temperature: 303, pressure: 91_000 },
    terrain: { below: 3, slope: 0, crossSlope: 0 },
    mass: 3.5,
    settings: { releaseAngle: 31 },
  });
  const cold = { ...only, air: { temperature: 263, pressure: null } };
  expect(measuredOf(cold, declared)?.air).toEqual({ temperature: 263, pressure: 91_000 });
  expect(thrownWith(only, declared).assumed).toEqual({ setting: true, mass: true });
  expect(measuredOf({ ...only, means: "paces" }, declared)?.uncertainty).toBeCloseTo(Math.hypot(0.5, 4.6), 9);
  expect(measuredOf({ ...only, means: "paces", uncertainty: 1 }, declared)?.uncertainty).toBe(1);
});

test("a gust of the declared height is as strong at the height at which the wind was read", () => {
  const gusty = { ...request, air: { wind: { speed: 2, gust: 12, direction: 0, height: 10 } } };
  const { air } = thrownRequest(gusty, made("a") as Throw);
  expect(air?.wind?.gust).toBeCloseTo(12 * (2 / 10) ** (1 / 7), 9);
});

describe("CSV", () => {
  const told = { value: 21.5, uncertainty: 0.4 };
  const full = logOf(
    made("a", { film: { speed: told, launchAngle: told, slingAngle: null } }),
    made("b", {
      air: { temperature: 291, pressure: null },
      trace: [
        { at: "2031-05-03T14:30", did: "corrected", reason: "", was: { distance: 920 } },
        { at: "2031-05-03T14:31", did: "struck", reason: "the tape was read twice" },
      ],
      note: "=1+1",
      settings: { releaseAngle: 40, counterweightMass: 120 },
      pieces: [
        {
          part: "arm",
          found: "machine",
          place: "rest",
          distance: 12,
          direction: 200,
          uncertainty: 1,
          note: "",
        },
      ],
    }),
  );

  test("carries everything there and back, on a device that knows no machine", () => {
    const text = logToCsv(full);
    expect(text.split("\r\n")[0]).toContain("setting counterweightMass [kg]");
    // A spreadsheet runs nothing.
    expect(text).toContain("'=1+1");
    // What was changed can be read without a program.
    expect(text).toContain("before: distance 920 m. Struck out 3 May 2031, 14:31: the tape was read twice");
    expect(text).toContain("no: struck out");
    const read = csvIntoLog(text, emptyLog, null, newId);
    if (!read.ok) throw new Error(read.message);
    expect(read.added).toBe(2);
    const bare = ({ machine: _, ...rest }: Throw) => rest;
    expect(read.log.throws.map(bare)).toEqual(full.throws.map(bare));
    expect(read.log.machines[0]?.request).toEqual(request);
    expect(csvIntoLog(text, full, null, newId)).toMatchObject({ ok: true, added: 0, known: 2, log: full });
  });

  test("of a spreadsheet's own making takes the bench's numbers; one bad row, and nothing is taken", () => {
    const head = "date and time,result,distance [m],setting releaseAngle [°]";
    const one = `${head}\n2031-05-03 10:00,landed,81.5,38\n`;
    expect(csvIntoLog(one, emptyLog, { name: "Bench", request }, newId)).toMatchObject({
      ok: true,
      added: 1,
      borrowed: 1,
      log: { throws: [{ distance: 81.5, settings: { releaseAngle: 38 }, at: "2031-05-03T10:00" }] },
    });
    const wrong = (text: string, otherwise = true) => {
      const read = csvIntoLog(text, full, otherwise ? { name: "Bench", request } : null, newId);
      return read.ok ? "taken" : read.message;
    };
    expect(wrong(one, false)).toMatch(/Row 2 brings no numbers/);
    expect(wrong(`${one}2031-05-03 11:00,flew off,80,38\n`)).toMatch(/Row 3: result/);
    expect(wrong(`${one}yesterday,landed,80,38\n`)).toMatch(/Row 3: Give date and time as 2031/);
    expect(wrong(`${one}2031-13-45 10:00,landed,80,38\n`)).toMatch(/Row 3: .*There is no such date/);
    expect(wrong(`${one}2031-05-03 11:00,landed,"1,234",38\n`)).toMatch(/Row 3: .*may mean two numbers/);
    expect(wrong(one.replace("[°]", "[rad]"))).toMatch(/in a unit that is not read here/);
    expect(wrong(one.replace("distance [m]", "distance [ft]"))).toMatch(/must be “distance \[m\]”|no column/);
    expect(wrong(`${head},projectile mass [lb]\n2031-05-03 10:00,landed,80,38,9\n`)).toMatch(
      /must be “projectile mass \[kg\]”/,
    );
    expect(wrong("name,lat,lon\n")).toMatch(/no column “date and time”/);
  });

  test("takes a throw once that stands twice in the file", () => {
    const [head, first] = logToCsv(full).split("\r\n");
    expect(csvIntoLog([head, first, first].join("\r\n"), emptyLog, null, newId)).toMatchObject({
      added: 1,
      known: 1,
    });
  });
});

describe("CSV without ids", () => {
  const bench = { name: "Bench", request };
  const head = "date and time,result,distance [m],setting releaseAngle [°]";
  const row = "2031-05-03 10:00,landed,81.5,38";
  const file = [head, row, row, "2031-05-03 10:00,landed,82,38"].join("\n");

  test("read twice adds nothing; true repeats within it stay", () => {
    const once = csvIntoLog(file, emptyLog, bench, newId);
    if (!once.ok) throw new Error(once.message);
    expect([once.added, once.known]).toEqual([3, 0]);
    expect(csvIntoLog(file, once.log, bench, newId)).toMatchObject({ added: 0, known: 3 });
    expect(csvIntoLog(`${file}\n${row}`, once.log, bench, newId)).toMatchObject({ added: 1, known: 3 });
  });

  test("is refused by row and name where the machine cannot be set so; a wind without height was read by hand", () => {
    const wrong = csvIntoLog(`${head}\n${row}0`, emptyLog, bench, newId);
    expect(wrong).toMatchObject({
      ok: false,
      message: expect.stringMatching(/Row 2: Release angle: .* at most 180°/),
    });
    const windy = csvIntoLog(`${head},wind speed [m/s]\n${row},3`, emptyLog, bench, newId);
    expect(windy).toMatchObject({ log: { throws: [{ wind: { speed: 3, height: 2 } }] } });
  });
});

describe("the form of a throw", () => {
  const setting = mainSetting(request);
  const knobs = tuning.knobsOf(request);

  test("proposes what stayed as it was, and reads back in feet what it was in metres", () => {
    const before = { ...made("a"), machine: "m" } as Throw;
    const form = proposedForm(before, setting, knobs, 4, "2031-05-03T15:00", "us");
    expect(form.quantities.distance.text).toBe("");
    const typed = { ...form, quantities: { ...form.quantities, distance: { text: "300 ft", value: 91.44 } } };
    const read = readThrow(typed, "b", setting, knobs, "us", request);
    if (!read.ok) throw new Error(JSON.stringify(read.errors));
    expect(read.made).toMatchObject({
      mass: 4.1,
      settings: { releaseAngle: 36 },
      wind: before.wind,
      distance: 91.44,
    });
    const again = readThrow(formOf(before, setting, knobs, "us"), "a", setting, knobs, "us", request);
    expect(again.ok && again.made.distance).toBe(92);
  });

  test("names the field that is missing, and asks for no mark where nothing landed", () => {
    const form = proposedForm(undefined, setting, knobs, 4, "2031-05-03T15:00", "metric");
    const read = readThrow(form, "b", setting, knobs, "metric", request);
    expect(read.ok ? {} : read.errors).toMatchObject({ distance: expect.stringContaining("Distance: ") });
    expect(readThrow({ ...form, result: "no-release" }, "b", setting, knobs, "metric", request).ok).toBe(
      true,
    );
  });
});

describe("a throw that is typed and not written down", () => {
  const setting = mainSetting(request);
  const knobs = tuning.knobsOf(request);
  const form = proposedForm(undefined, setting, knobs, 4, "", "metric");
  const typed = {
    ...form,
    note: "gusty",
    quantities: {
      ...form.quantities,
      distance: { text: "92 m", value: 92 },
      aside: { text: "3 or", value: null },
    },
  };

  test("comes back for its own machine, in the units of now, with what is no number yet", () => {
    const text = withDraft(withDraft(null, "other", form), "own", typed);
    const back = draftFrom(text, "own", setting, knobs, "us");
    expect(back?.quantities.distance).toEqual({ text: "301.84", value: 92 });
    expect(back?.quantities.aside.text).toBe("3 or");
    expect(back?.note).toBe("gusty");
    expect(draftFrom(text, "none", setting, knobs, "us")).toBeNull();
    expect(draftFrom("{cut", "own", setting, knobs, "us")).toBeNull();
    expect(withDraft(withDraft(text, "own", null), "other", null)).toBeNull();
  });

  test("is one by what it means: other units are no draft", () => {
    const feet = { ...form, quantities: { ...form.quantities, mass: { text: "8.82 lb", value: 4 } } };
    const metres = { ...form, quantities: { ...form.quantities, mass: { text: "4", value: 4 } } };
    expect(meaning(feet)).toBe(meaning(metres));
    expect(meaning(typed)).not.toBe(meaning(form));
  });
});

test("the form refuses by name what the machine cannot be set to, and an uncertainty that says nothing", () => {
  const setting = mainSetting(request);
  const knobs = tuning.knobsOf(request);
  const form = proposedForm(undefined, setting, knobs, 4, "2031-05-03T15:00", "metric");
  const number = (value: number) => ({ text: String(value), value });
  const wrong = (quantities: object, more: Partial<typeof form> = {}) => {
    const typed = {
      ...form,
      ...more,
      quantities: { ...form.quantities, distance: number(92), ...quantities },
    };
    const read = readThrow(typed, "a", setting, knobs, "metric", request);
    return read.ok ? {} : read.errors;
  };
  expect(wrong({})).toEqual({});
  expect(wrong({}, { setting: number(500) }).setting).toBe("Release angle: the machine takes at most 180°.");
  expect(wrong({}, { setting: number(179) }).setting).toMatch(/^Release angle: .*slip at once/);
  expect(wrong({ mass: number(92) }).mass).toMatch(/^Projectile, weighed: .*more than 4 times as heavy/);
  expect(wrong({ uncertainty: number(0) }).uncertainty).toMatch(/^How well the distance is known: nobody/);
  expect(wrong({ uncertainty: number(40) }).uncertainty).toMatch(/more than a fifth/);
  const other = { other: "counterweightMass", otherValue: number(-5) };
  expect(wrong({}, other).otherValue).toMatch(/^Counterweight: the machine takes at least/);
});

test("every kind of machine has a setting to write down", () => {
  for (const { kind } of MACHINE_KINDS) expect(mainSetting(example(kind))?.tunes, kind).toBe(true);
});
