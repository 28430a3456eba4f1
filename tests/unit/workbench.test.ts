/** The team's bench: revisions that are copied, changed and removed, what a browser keeps of them, how they differ. */
import { describe, expect, it } from "vitest";
import { differences } from "@/app/_ui/machine-form/form/differences";
import { quantityAt } from "@/app/_ui/machine-form/form/state";
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
    expect(quantityAt(chosenOf(us).form, "machine.slingLength").text).toBe("14' 9.2\"");
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
