/** The team's bench: revisions that are copied, changed and removed, what a browser keeps of them, how they differ. */
import { describe, expect, it } from "vitest";
import { differences } from "@/app/_ui/machine-form/form/differences";
import { KINDS } from "@/app/_ui/machine-form/form/fields";
import { requestBody } from "@/app/_ui/machine-form/form/request";
import { type FormState, quantityAt } from "@/app/_ui/machine-form/form/state";
import { quantityOf } from "@/app/_ui/quantity-field";
import {
  type Bench,
  type BenchAction,
  benchFromText,
  benchToText,
  changeBench,
  chosenOf,
  MOST_REVISIONS,
  newBench,
} from "@/app/workbench/bench/bench";
import { benchFromFile, benchToFile, fileNameOf, LARGEST } from "@/app/workbench/share/machine-file";

const done = (bench: Bench, ...actions: BenchAction[]) => actions.reduce(changeBench, bench);
const sling = (metres: number): BenchAction => ({
  do: "form",
  change: {
    type: "quantity",
    path: "machine.slingLength",
    quantity: quantityOf(metres, "length", "metric"),
  },
});
const slingOf = (bench: Bench) => quantityAt(chosenOf(bench).form, "machine.slingLength").value;
const two = done(newBench("metric"), { do: "copy", id: "2", name: "Longer sling" }, sling(4.5));

describe("revisions", () => {
  it("a copy is worked on from then on, and the first stays as it was", () => {
    expect([two.chosen, slingOf(two)]).toEqual(["2", 4.5]);
    expect(slingOf(done(two, { do: "choose", id: "1" }))).not.toBe(4.5);
  });

  it("the last one is not taken off, and whoever takes off the chosen one works on another", () => {
    const one = done(two, { do: "remove", id: "2" });
    expect([one.revisions.length, one.chosen]).toEqual([1, "1"]);
    expect(done(one, { do: "remove", id: "1" })).toBe(one);
  });

  it("are no more than the bench holds", () => {
    let bench = two;
    for (let index = 0; index < 2 * MOST_REVISIONS; index++)
      bench = changeBench(bench, { do: "copy", id: `more ${index}`, name: "" });
    expect(bench.revisions).toHaveLength(MOST_REVISIONS);
  });

  it("all change their units and none its values", () => {
    const us = done(two, { do: "units", system: "us" });
    expect(us.revisions.map(({ form }) => form.system)).toEqual(["us", "us"]);
    expect(slingOf(us)).toBe(4.5);
    expect(quantityAt(chosenOf(us).form, "machine.slingLength").text).toBe("14' 9.165\"");
  });
});

describe("what a browser keeps", () => {
  it("comes back whole", () => {
    expect(benchFromText(benchToText(two))).toEqual(two);
  });

  it.each([
    null,
    "",
    "{",
    "[]",
    '{"version":1}',
    '{"version":1,"revisions":[]}',
    '{"version":9,"revisions":[{}]}',
  ])("is not read from %s", (text) => {
    expect(benchFromText(text)).toBeNull();
  });

  it("leaves behind a revision that cannot be read, not the others", () => {
    const broken = JSON.parse(benchToText(two));
    broken.revisions[1].form = "broken";
    const read = benchFromText(JSON.stringify(broken)) as Bench;
    expect(read.revisions.map(({ name }) => name)).toEqual(["As built"]);
    expect(chosenOf(read).name).toBe("As built");
  });
});

it("forms differ in what is told, and in nothing else", () => {
  const forms = two.revisions.map(({ form }) => form);
  expect(differences(forms, "metric")).toEqual([
    { label: "Sling length", texts: [expect.stringMatching(/ m$/), expect.stringMatching(/^4\.5\d* m$/)] },
  ]);
  const spinning = done(two, { do: "form", change: { type: "kind", kind: "spinning-arm" } });
  const rows = differences(
    spinning.revisions.map(({ form }) => form),
    "metric",
  );
  expect(rows[0]).toMatchObject({ label: "Kind" });
  expect(rows.find(({ label }) => label === "Sling length")?.texts[1]).toBe("–");
});

describe("a machine file", () => {
  const us = (bench: Bench) => done(bench, { do: "units", system: "us" });
  const opened = (text: string) => {
    const read = benchFromFile(text, "metric");
    if (!read.ok) throw new Error(read.message);
    return read;
  };

  it("carries every revision to another browser, in its own units", () => {
    const sent = done(two, { do: "name", name: "Loud Uncle" }, { do: "describe", id: "2", note: "Tuesday" });
    const read = opened(benchToFile(us(sent)));
    expect(read).toMatchObject({ name: "Loud Uncle", chosen: 1, notes: [] });
    expect(read.revisions.map(({ name, note }) => [name, note])).toEqual([
      ["As built", ""],
      ["Longer sling", "Tuesday"],
    ]);
    const before = sent.revisions.map(({ form }) => requestBody(form));
    expect(read.revisions.map(({ form }) => requestBody(form))).toEqual(before);
  });

  it.each(KINDS)("loses nothing of a machine of kind %s, its policy and air included", (kind) => {
    const bench = done(
      newBench("metric"),
      { do: "form", change: { type: "kind", kind } },
      {
        do: "form",
        change: { type: "option", option: { hangUp: false, hangUpReason: "A net hangs there" } },
      },
      {
        do: "form",
        change: { type: "quantity", path: "air.wind.gust", quantity: quantityOf(7, "speed", "metric") },
      },
    );
    const [revision] = opened(benchToFile(bench)).revisions;
    expect(requestBody((revision as { form: FormState }).form)).toEqual(requestBody(chosenOf(bench).form));
  });

  it.each([
    ["", /empty/],
    ["{", /no JSON/],
    ["null", /no machine file/],
    ['{"format":"another"}', /no machine file/],
    ['{"format":"fairthrow-machine","version":2,"revisions":[{}]}', /version 2/],
    ['{"format":"fairthrow-machine","version":1,"revisions":[]}', /no revision/],
    [
      '{"format":"fairthrow-machine","version":1,"revisions":[{"request":{"machine":{"kind":"cannon ball"}}}]}',
      /kind of machine that is known/,
    ],
    ["x".repeat(LARGEST + 1), /larger than 1 MB/],
  ])("that cannot be read is refused with a sentence: %#", (text, words) => {
    expect(benchFromFile(text, "metric")).toEqual({ ok: false, message: expect.stringMatching(words) });
  });

  it("is named after its machine", () => {
    expect([fileNameOf("Loud Uncle II!"), fileNameOf("…")]).toEqual([
      "loud-uncle-ii.fairthrow.json",
      "machine.fairthrow.json",
    ]);
  });
});
