/** Before the day, without a browser: ticks that fall, forms that are kept, a machine that leans, the words of a filling. */

import { describe, expect, it } from "vitest";
import { inWords } from "@/app/_ui/hazard-sheet/words";
import { figuresText } from "@/app/_ui/inspection/figures-text";
import { quantityOf } from "@/app/_ui/quantity-field";
import {
  type Finding,
  findingsFromText,
  standingOf,
  withFinding,
} from "@/app/workbench/before/checklist/findings";
import { gapFact } from "@/app/workbench/before/clearances/clearances";
import { cradleFacts } from "@/app/workbench/before/fill/facts";
import { assumedLean, leaning, releaseXOf } from "@/app/workbench/before/ground/leaning";
import type { Asks } from "@/app/workbench/before/numbers/asks";
import { formFromText, startingForm } from "@/app/workbench/before/numbers/form";
import { SECTIONS } from "@/app/workbench/before/sections";
import { ownMasses } from "@/app/workbench/before/transport/load-rows";
import { itemsOf, rowsFromText, unplacedOf } from "@/app/workbench/before/transport/use-items";
import { FILLS, sideOfLean } from "@/lib/inspection";
import {
  type HazardRequestInput,
  hazardRequestSchema,
  MACHINE_KINDS,
  type Machine,
  preview,
} from "@/lib/throw";

const requestOf = (kind: Machine["kind"], more: Partial<HazardRequestInput> = {}) => {
  const found = MACHINE_KINDS.find((each) => each.kind === kind);
  return hazardRequestSchema.parse({
    machine: found?.example,
    projectile: found?.exampleProjectile,
    ...more,
  });
};

describe("findings", () => {
  const looked: Finding = { status: "looked", note: "new bolts", stood: { "machine.longArm": 4.2 } };

  it("stand on their numbers, and keep their note when they fall; what is to do stays to do", () => {
    expect(standingOf(looked, { "machine.longArm": 4.2 })).toMatchObject({ status: "looked", fallen: [] });
    expect(standingOf(looked, { "machine.longArm": 4.3 })).toMatchObject({
      status: null,
      note: "new bolts",
      fallen: ["machine.longArm"],
    });
    expect(standingOf({ ...looked, status: "to-do" }, {})).toMatchObject({ status: "to-do", fallen: [] });
    expect(standingOf(undefined, { a: 1 })).toMatchObject({ status: null, fallen: [] });
  });

  it("are kept by revision, and go with revisions that leave the bench", () => {
    const all = withFinding({ gone: { arm: looked }, a: { arm: looked } }, ["a", "b"], "a", "pin", looked);
    expect(Object.keys(all)).toEqual(["a"]);
    expect(Object.keys(all.a ?? {})).toEqual(["arm", "pin"]);
    expect(findingsFromText(JSON.stringify(all))).toEqual(all);
  });

  it.each(["null", "[1]", "{", '{"a":{"arm":{"status":"fine","note":7,"stood":1}}}', '{"a":null}'])(
    "a text that is none of ours says nothing: %s",
    (text) => {
      const found = findingsFromText(text) ?? {};
      for (const lines of Object.values(found))
        for (const finding of Object.values(lines))
          expect(finding).toEqual({ status: null, note: "", stood: {} });
    },
  );
});

describe("forms", () => {
  const asks: Asks<"height" | "load"> = {
    height: { label: "Height", dimension: "length", help: "", start: 0.3 },
    load: { label: "Load", dimension: "force", help: "" },
  };
  const options = { way: ["up", "down"] } as const;

  it("come back in the reader's units, with what was half typed where the units stayed", () => {
    const start = startingForm<"height" | "load", "way">(asks, options, "metric");
    const form = {
      ...start,
      quantities: { height: quantityOf(2.4384, "length", "metric"), load: { text: "much", value: null } },
      choices: { way: "down" },
    };
    const again = (text: string, system: "metric" | "us") =>
      formFromText<"height" | "load", "way">(text, asks, options, system);
    expect(again(JSON.stringify(form), "metric")).toEqual(form);
    const us = again(JSON.stringify(form), "us");
    expect(us.quantities.height).toEqual({ text: "8'", value: 2.4384 });
    expect(us.quantities.load).toEqual({ text: "", value: null });
    expect(us.choices.way).toBe("down");
    for (const text of ["{", "null", "7", '{"quantities":{"height":3},"choices":{"way":"aside"}}'])
      expect(again(text, "metric")).toEqual(start);
  });

  it("a load's rows count once they have a mass and a place", () => {
    const row = (id: string, mass: number | null, at: number | null) => ({
      id,
      name: `Row ${id}`,
      mass: quantityOf(mass, "mass", "metric"),
      at: quantityOf(at, "length", "metric"),
    });
    const rows = [row("1", 40, 2), row("2", 40, null), row("3", -1, 2)];
    expect(itemsOf(rowsFromText(JSON.stringify({ system: "metric", rows }), "us"))).toEqual([
      { name: "Row 1", mass: 40, at: 2 },
    ]);
    expect(unplacedOf(rows)).toEqual([{ name: "Row 2", mass: 40 }]);
    expect(rowsFromText('{"rows":{}}', "metric")).toEqual([]);
    expect(
      ownMasses(requestOf("floating-arm", { strengths: { frame: { mass: 150, footprint: 2 } } })),
    ).toEqual([
      { name: "Frame", mass: 150 },
      { name: "Arm", mass: 16 },
      { name: "Counterweight", mass: 180 },
      { name: "Carriage", mass: 7 },
      { name: "Ten projectiles", mass: 20 },
    ]);
  });
});

describe("a machine that leans", () => {
  it("is computed with the lean that was measured; its declared lean has the tolerance of the sheet", () => {
    const request = requestOf("hinged-counterweight");
    expect(leaning(request, { along: 2, across: -3 })?.machine).toMatchObject({
      leanAlong: 2,
      leanAcross: -3,
    });
    expect(leaning(request, { along: 44, across: 0 })).toBeNull();
    expect(assumedLean(request)).toEqual({ along: 0, across: 0, within: { along: 1, across: 1 } });
    const told = requestOf("hinged-counterweight", { tolerances: { leanAcross: 0.2 } });
    expect(assumedLean(told)?.within).toEqual({ along: 1, across: 0.2 });
  });

  it("through the angle at which it throws where a kind has no lean, and not at all where it turns", () => {
    const cannon = requestOf("air-cannon");
    const { elevation } = cannon.machine as Extract<Machine, { kind: "air-cannon" }>;
    expect(leaning(cannon, { along: 3, across: 1 })?.machine).toMatchObject({ elevation: elevation - 3 });
    expect(assumedLean(cannon)).toBeNull();
    expect(leaning(requestOf("spinning-arm"), { along: 1, across: 1 })).toBeNull();
  });

  it("lands aside by the share of its height over the ground that the lean takes (a flight without air)", () => {
    const request = requestOf("hinged-counterweight", { air: { pressure: 0 } });
    const leaned = leaning(request, { along: 0, across: 2 });
    const seen = preview(leaned as NonNullable<typeof leaned>);
    const { distance, releaseHeight, launchAngle, releaseSpeed, flightTime } = seen.nominal ?? expect.fail();
    const releaseX = releaseXOf(seen) ?? expect.fail();
    const rise = releaseSpeed * Math.sin((launchAngle * Math.PI) / 180);
    const sine = Math.sin((2 * Math.PI) / 180);
    const side = sideOfLean({ distance, releaseHeight, launchAngle, releaseX }, 2);
    expect(side / (sine * (releaseHeight + rise * flightTime))).toBeCloseTo(1, 4);
  });
});

describe("words", () => {
  it("a drum too large for its cradle is told with how much, each way by itself", () => {
    const values: Record<string, number> = {
      cradleWidth: 0.6,
      outerDiameter: 0.59,
      cradleLength: 1.7,
      outerLength: 0.88,
      gap: 0.01,
    };
    const numbers = { value: (name: string) => values[name], form: { choices: { count: "2" } } };
    const facts = cradleFacts(numbers as never, "metric");
    expect(facts.map(({ text }) => text)).toEqual([
      "goes in with 5 mm to either side, 10 mm wanted",
      "does not go in: 60 mm too large",
    ]);
    expect(facts.every(({ short }) => short)).toBe(true);
  });

  it("what is not declared is said, never left out", () => {
    expect(figuresText([{ label: "bears", value: null, dimension: "force" }], "us")).toBe(
      "Bears: not declared.",
    );
  });

  it("every machine has its sections, and only one with a counterweight fills it", () => {
    for (const { kind } of MACHINE_KINDS) {
      const { machine } = requestOf(kind);
      const ids = SECTIONS.filter(({ applies }) => applies(machine)).map(({ id }) => id);
      expect(ids).toEqual(
        expect.arrayContaining(["checklist", "spares", "height", "weight", "raising", "anchoring", "ground"]),
      );
      expect(ids.includes("filling")).toBe("counterweightMass" in machine);
    }
    expect(FILLS).toHaveLength(6);
  });
});

describe("a gap", () => {
  it.each([
    [-0.2, "strikes, 0.20 m too low", true],
    [0, "touches: nothing is left between", true],
    [0.004, "touches: nothing is left between", true],
    [0.06, /^0\.06 m: little, /, true],
    [0.4, "0.40 m", undefined],
  ] as const)("of %f m is said as what it is", (metres, text, short) => {
    const fact = gapFact("Tip to ground, cocked", metres, "metric", "too low");
    expect(fact.text).toEqual(typeof text === "string" ? text : expect.stringMatching(text));
    expect(fact.short).toBe(short);
  });
});

it("helps say their defaults in the reader's units", () => {
  expect(inWords("15 °C if left empty.", "", "us")).toBe("59 °F if left empty.");
  expect(inWords("15 °C if left empty.", "", "metric")).toBe("15 °C if left empty.");
  expect(inWords("10 m if left empty.", "", "us")).toBe("32.8 ft if left empty.");
});
