/** Files that the workbench opens: whole machines, small forms, and everything that is none, said field by field. */
import { describe, expect, it } from "vitest";
import { KINDS } from "@/app/_ui/machine-form/form/fields";
import { requestBody } from "@/app/_ui/machine-form/form/request";
import { type FormState, startingForm } from "@/app/_ui/machine-form/form/state";
import type { Carried } from "@/app/workbench/alarm/carried";
import {
  type Bench,
  type BenchAction,
  benchToText,
  changeBench,
  MOST_REVISIONS,
  newBench,
} from "@/app/workbench/bench/bench";
import { formInFile, formToFile } from "@/app/workbench/kept/form-file";
import { BENCH_KEY } from "@/app/workbench/kept/names";
import { savedAs } from "@/app/workbench/kept/saved-as";
import { benchToFile, fileNameOf, LARGEST } from "@/app/workbench/share/machine-file";
import { readFile } from "@/app/workbench/share/read-file";
import { benchFromFile } from "@/app/workbench/share/read-machine";
import { fullyDeclared } from "./fully-declared";

const done = (bench: Bench, ...actions: BenchAction[]) => actions.reduce(changeBench, bench);
const benchOf = (form: FormState): Bench => ({
  name: "Loud Uncle",
  revisions: [{ id: "1", name: "As built", note: "Tuesday", form }],
  chosen: "1",
});
const opened = (text: string) => {
  const read = benchFromFile(text, "metric");
  if (!read.ok) throw new Error(read.message);
  return read;
};
const refused = (text: string) => {
  const read = benchFromFile(text, "metric");
  return read.ok ? "opened" : read.message;
};
type Tree = Record<string, unknown>;
/** A file of one revision whose request was changed by hand. */
const spoilt = (
  change: (request: Record<string, Tree>) => void,
  kind: FormState["kind"] = "hinged-counterweight",
) => {
  const file = JSON.parse(benchToFile(benchOf(startingForm("metric", kind)), []));
  change(file.revisions[0].request);
  return JSON.stringify(file);
};
const remarksOf = (text: string) => opened(text).revisions.flatMap(({ remarks }) => remarks);
const becomes = (text: string, field: string) =>
  remarksOf(text).find((each) => each.field === field)?.becomes;

const STOP: Carried = {
  ...{ rank: "hold", way: "forward", distance: 610, limit: 215.4, at: "2031-05-03T14:20", number: 5 },
  ...{ throw: "a1", machine: "Loud Uncle, As built" },
};

describe("STOP of practice throws in a machine file", () => {
  const bench = benchOf(startingForm("metric"));

  it("goes along, also out of a browser that keeps nothing, and comes in with the machine", async () => {
    const saved = await savedAs(BENCH_KEY, benchToText(bench), [STOP]);
    expect(saved.text).toBe(benchToFile(bench, [STOP]));
    expect(opened(saved.text)).toMatchObject({ stops: [STOP], notes: [] });
  });

  it("is not lost where it cannot be understood, and a file that says nothing of it says so", () => {
    const file = JSON.parse(benchToFile(bench, [STOP]));
    for (const stops of [[{ ...STOP, rank: "gale" }], { of: "old" }])
      expect(opened(JSON.stringify({ ...file, stops })).stops).toMatchObject([{ rank: "not-judged" }]);
    const { stops: _, ...older } = { ...file, version: 1 };
    expect(opened(JSON.stringify(older))).toMatchObject({
      stops: [],
      notes: [expect.stringContaining("says nothing of practice throws")],
    });
  });
});

describe("a machine file", () => {
  it("carries every revision to another browser, in its own units", () => {
    const sent = done(
      benchOf(startingForm("us")),
      { do: "copy", id: "2", name: "Longer sling" },
      { do: "choose", id: "2" },
    );
    const read = opened(benchToFile(sent, []));
    expect(read).toMatchObject({ name: "Loud Uncle", chosen: 1, notes: [] });
    expect(read.revisions).toMatchObject([
      { name: "As built", note: "Tuesday", remarks: [], form: { system: "metric" } },
      { name: "Longer sling", note: "", remarks: [] },
    ]);
  });

  it.each(KINDS)(
    "loses nothing of a machine of kind %s with everything declared, and has nothing to remark",
    (kind) => {
      for (const form of [fullyDeclared("us", kind), startingForm("us", kind)]) {
        const told = {
          ...form,
          options: { ...form.options, hangUp: false, hangUpReason: "A net hangs there" },
        };
        const [revision] = opened(benchToFile(benchOf(told), [])).revisions;
        expect(revision?.remarks).toEqual([]);
        expect(requestBody(revision?.form as FormState)).toEqual(requestBody(told));
      }
    },
  );

  it("names each field that is not understood, and what becomes of it", () => {
    const text = spoilt(({ machine, projectile, air, policy }) => {
      Object.assign(machine as Tree, { wings: 2, longArm: "long", slingLength: 400 });
      Object.assign(projectile as Tree, { shape: "cube", mass: Number.POSITIVE_INFINITY });
      Object.assign(policy as Tree, { hangUp: "sometimes" });
      expect(air).toBeUndefined();
    });
    expect(becomes(text, "machine.wings")).toBe("not known to this program; left out.");
    expect(becomes(text, "Long arm")).toBe("“long” is no number: the field stays empty.");
    expect(becomes(text, "Sling length")).toBe(
      "comes in as it stands, 400 m. To be put right on the page Machine: enter at most 100 m.",
    );
    expect(becomes(text, "Projectile shape")).toBe(
      "“cube” is not understood; “smooth-sphere” is taken instead.",
    );
    expect(becomes(text, "Projectile mass")).toMatch(/is no number/);
    expect(becomes(text, "Hang-ups")).toMatch(/“sometimes” is not understood; “true” is taken/);
    expect(remarksOf(text)).toHaveLength(6);
  });

  it("says what it lacks and what its choices leave no place for", () => {
    const bare = spoilt((request) => {
      delete request.policy;
      delete (request.projectile as Tree).shape;
    });
    expect(becomes(bare, "Policy")).toBe("not in the file; the usual one is taken.");
    expect(becomes(bare, "Projectile shape")).toBe("not in the file; “smooth-sphere” is taken.");
    const cup = spoilt(({ machine }) => delete machine?.slingLength, "torsion");
    expect(becomes(cup, "Release angle")).toMatch(
      /is left out: it is not asked for as the machine's choices stand/,
    );
    const tilted = spoilt(
      ({ machine }) => Object.assign(machine as Tree, { plane: "tilted" }),
      "spinning-arm",
    );
    expect(remarksOf(tilted)).toEqual([
      { field: expect.any(String), becomes: "“tilted” is not understood; “vertical” is taken instead." },
    ]);
  });

  it("says which revisions and which other members are left out", () => {
    const file = JSON.parse(benchToFile(benchOf(startingForm("metric")), []));
    const [whole] = file.revisions;
    const read = opened(
      JSON.stringify({
        ...file,
        colour: "red",
        chosen: 1,
        revisions: [
          { request: { machine: { kind: "winch" } } },
          { ...whole, name: 7, note: "n".repeat(600), by: "hand" },
          ...Array.from({ length: MOST_REVISIONS }, () => whole),
        ],
      }),
    );
    expect(read.notes).toEqual([
      "The file says “colour”: not known to this program, left out.",
      `It holds 22 revisions: a bench holds ${MOST_REVISIONS}, so those after the first ${MOST_REVISIONS} are left out.`,
      "Revision 1 is left out: its kind “winch” is not known.",
      "Revision 2 says “by”: not known to this program, left out.",
    ]);
    expect(read.revisions).toHaveLength(MOST_REVISIONS - 1);
    expect(read.chosen).toBe(0);
    expect(read.revisions[0]?.remarks.map(({ field }) => field)).toEqual(["Its name", "Its note"]);
  });

  it("changed by hand beyond all measure is refused or remarked, and breaks nothing", () => {
    const deep = `${'{"a":'.repeat(20_000)}1${"}".repeat(20_000)}`;
    const text = JSON.stringify(
      JSON.parse(spoilt(({ machine }) => Object.assign(machine as Tree, { deep: 0 }))),
    ).replace('"deep":0', `"deep":${deep},"longArm":[1],"__proto__":{"polluted":1}`);
    expect(remarksOf(text).length).toBeGreaterThan(1);
    expect(({} as Tree).polluted).toBeUndefined();
    expect(
      refused(
        `{"format":"fairthrow-machine","version":1,"revisions":[{"request":{"machine":{"kind":${deep}}}}]}`,
      ),
    ).toMatch(/kind a group of values is not known/);
  });

  it.each([
    ["", /is empty/],
    ["{", /cut off/],
    [benchToFile(newBench("metric"), []).slice(0, 900), /cut off: its end is missing/],
    ['{"format":"fairthrow-machine",,}', /is broken/],
    ["null", /no machine file/],
    ["[1]", /a list or a single value/],
    ["PK\u0003\u0004", /packed file/],
    ["<?xml version='1.0'?><kml/>", /Practice yard/],
    ["thrown;distance\n2031-05-01;71", /Practice throws/],
    ['{"type":"FeatureCollection","features":[]}', /Practice yard/],
    ['{"machine":{"kind":"measured"},"projectile":{}}', /a request to the calculator/],
    ['{"format":"another"}', /its format is “another”/],
    [
      '{"format":"fairthrow-machine","version":3,"revisions":[{}]}',
      /version “3”, and this program reads versions 1 and 2/,
    ],
    ['{"format":"fairthrow-machine","revisions":[{}]}', /it names none/],
    ['{"format":"fairthrow-machine","version":1,"revisions":[]}', /no revision/],
    ['{"format":"fairthrow-machine","version":1,"revisions":[null]}', /names no kind of machine/],
    ["x".repeat(LARGEST + 1), /larger than 1 MB/],
  ])("that cannot be read is refused with a sentence: %#", (text, words) => {
    expect(refused(text)).toMatch(words);
  });

  it("is named after its machine", () => {
    expect([fileNameOf("Loud Uncle II!"), fileNameOf("…")]).toEqual([
      "loud-uncle-ii.fairthrow.json",
      "machine.fairthrow.json",
    ]);
  });
});

describe("a form that a full browser did not keep", () => {
  const key = "fairthrow-before-trailer";
  const kept = JSON.stringify({
    system: "us",
    quantities: { axle: { text: "10 ft", value: 3.048 }, emptyMass: { text: "", value: null } },
    choices: { brake: "yes" },
  });

  it("is a file that people can read, and comes back as it was", async () => {
    const file = await savedAs(key, kept, []);
    expect(file).toMatchObject({ name: `${key}.json`, type: "application/json" });
    expect(JSON.parse(file.text).reads).toEqual(["system: us", "axle: 10 ft", "brake: yes"]);
    const read = await readFile(new File([file.text], "given.json"), "metric");
    expect(read).toMatchObject({ kind: "form", read: { key, title: "the trailer's numbers", text: kept } });
  });

  it("is told row by row, and nothing of what only programs use", () => {
    const load = { system: "metric", rows: [{ id: "1", name: "Arm", mass: { text: "90 kg", value: 90 } }] };
    const file = JSON.parse(formToFile("fairthrow-before-load", JSON.stringify(load)) ?? "{}");
    expect(file.reads).toEqual(["system: metric", "rows, 1, name: Arm", "rows, 1, mass: 90 kg"]);
  });

  it("of another program, version or sort is refused", () => {
    expect(formInFile({ version: 2, form: key, kept: {} })).toMatchObject({ ok: false });
    expect(formInFile({ version: 1, form: "fairthrow-yard", kept: {} })).toMatchObject({ ok: false });
    expect(formInFile({ version: 1, form: "toString", kept: {} })).toMatchObject({ ok: false });
    expect(formInFile({ version: 1, form: key, kept: [] })).toMatchObject({ ok: false });
    expect(formToFile(key, "{")).toBeNull();
  });
});
