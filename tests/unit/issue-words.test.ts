/** Whatever is typed into whatever field, what is wrong is a sentence of ours that names it, in the reader's units. */
import { describe, expect, it } from "vitest";
import { leafIssues } from "@/app/_ui/issue-words";
import { tablesOf } from "@/app/_ui/machine-form/form/fields";
import { readForm, requestProblem } from "@/app/_ui/machine-form/form/request";
import {
  askedChoices,
  changeForm,
  type FormState,
  fieldsOf,
  rowsOf,
  startingForm,
} from "@/app/_ui/machine-form/form/state";
import { fieldsOfLanding, readLanding, startingLanding } from "@/app/_ui/replay/landing-form";
import { QUANTITIES, type QuantityName } from "@/app/workbench/stop/stop-asks";
import { readStop, startingStop } from "@/app/workbench/stop/stop-form";
import { hazardRequestSchema, MACHINE_KINDS, type Machine, tuning } from "@/lib/throw";
import { unitLabel } from "@/lib/units";

const SYSTEMS = ["metric", "us"] as const;
const KINDS = MACHINE_KINDS.map(({ kind }) => kind);
/** What a validation library says, in any of its ways. */
const FOREIGN =
  /\b(too (small|big)|invalid|received|unrecognized|NaN|undefined|null|string|regex)\b|expected [a-z]+,|[<>]=/i;
const NUMBERS = [-1e13, -1, 0, 0.37, 1e13];
const typed = [
  { text: "", value: null },
  { text: "plenty", value: null },
  ...NUMBERS.map((value) => ({ text: String(value), value })),
];

const extremes = typed.filter(({ value }) => value === null || Math.abs(value) > 1e12);

/** The form with every choice standing every way, so that each field is asked for in one of them. */
function everyForm(kind: Machine["kind"], system: "metric" | "us"): FormState[] {
  const seen = new Set<string>();
  const walk = (form: FormState): FormState[] =>
    askedChoices(form).flatMap((spec) =>
      spec.options.flatMap(({ value }) => {
        const key = `${spec.path} ${value}`;
        if (seen.has(key)) return [];
        seen.add(key);
        const next = changeForm(form, { type: "choice", path: spec.path, value });
        return [next, ...walk(next)];
      }),
    );
  const form = startingForm(system, kind);
  return [form, ...walk(form)];
}

function plain(sentence: string): void {
  expect(sentence).not.toMatch(FOREIGN);
  expect(sentence).toMatch(/^[A-Z“].*[.?]$/s);
}

describe.each(KINDS)("the form of a %s", (kind) => {
  it.each(SYSTEMS)("refuses each number in words, %s", (system) => {
    const done = new Set<string>();
    const told = new Set<string>();
    for (const form of everyForm(kind, system)) {
      for (const { path, label, dimension } of fieldsOf(form)) {
        if (done.has(path)) continue;
        done.add(path);
        // What all kinds share is shown once.
        if (kind !== KINDS[0] && /^(air|terrain|policy)\./.test(path)) continue;
        for (const quantity of system === "metric" ? typed : extremes) {
          const reading = readForm(changeForm(form, { type: "quantity", path, quantity }));
          if (reading.ok) continue;
          for (const [field, sentence] of Object.entries(reading.errors)) {
            plain(sentence);
            expect(field, sentence).not.toBe("");
          }
          const own = reading.errors[path];
          if (!own) continue;
          told.add(path);
          expect(own.toLowerCase()).toContain(label.toLowerCase());
          const range = /enter (?:at least|at most|more than|less than) (-?[\d.,′″'" ⁄/½¼¾]+)(.*)\.$/.exec(
            own,
          );
          const unit = unitLabel(dimension, system);
          if (range && unit && !/['"′″]/.test(range[1] ?? "")) expect(range[2]?.trim()).not.toBe("");
        }
      }
    }
    // Enough was refused for this to have shown something.
    expect(told.size).toBeGreaterThan(10);
    expect([...done].filter((path) => path.startsWith("machine.")).length).toBeGreaterThan(2);
  });

  it.each(SYSTEMS)("tells why a number turned too far throws nothing, %s", (system) => {
    const { example, exampleProjectile } =
      MACHINE_KINDS.find((each) => each.kind === kind) ?? MACHINE_KINDS[0];
    const request = hazardRequestSchema.parse({ machine: example, projectile: exampleProjectile });
    for (const { name, label } of tuning.knobsOf(request)) {
      for (const value of NUMBERS) {
        const turned = tuning.withValues(request, { [name]: value });
        const problem = requestProblem(turned, system);
        if (problem === null) continue;
        plain(problem);
        if (value === 1e13 && name !== tuning.ARM_RATIO)
          expect(problem.toLowerCase()).toContain(label.toLowerCase());
      }
    }
  });
});

describe.each(SYSTEMS)("other forms, %s", (system) => {
  it("of the stop name the field and its range", () => {
    const kinds = [
      { limit: "stroke" },
      { limit: "force" },
      { limit: "deceleration" },
      { kind: "curve", limit: "stroke" },
    ] as const;
    for (const change of kinds) {
      const form = { ...startingStop(system), ...change };
      for (const name of Object.keys(QUANTITIES) as QuantityName[]) {
        for (const quantity of typed) {
          const read = readStop(
            { ...form, quantities: { ...form.quantities, [name]: quantity } },
            null,
            null,
          );
          if (read.ok) continue;
          for (const sentence of Object.values(read.errors)) plain(sentence);
          if (quantity.value === 1e13 && read.errors[name])
            expect(read.errors[name]).toMatch(
              new RegExp(`^${QUANTITIES[name].label}: enter at most [\\d.,]`),
            );
        }
      }
      for (const quantity of typed) {
        const curve = [{ stroke: quantity, force: quantity }, ...form.curve.slice(1)];
        const read = readStop({ ...form, curve }, null, null);
        if (!read.ok) for (const sentence of Object.values(read.errors)) plain(sentence);
      }
    }
  });

  it("of a landing name the field", () => {
    let refused = 0;
    for (const by of ["polar", "plane"] as const) {
      const form = { ...startingLanding(system), by };
      for (const { name, label } of fieldsOfLanding(form)) {
        for (const quantity of typed) {
          const read = readLanding({ ...form, quantities: { ...form.quantities, [name]: quantity } }, system);
          if (read.ok) continue;
          for (const sentence of Object.values(read.errors)) plain(sentence);
          if (read.errors[name]) expect(read.errors[name].toLowerCase()).toContain(label.toLowerCase());
          refused++;
        }
      }
    }
    expect(refused).toBeGreaterThan(20);
  });
});

it("a table that is too short says how many points it needs", () => {
  const tabled = KINDS.flatMap((kind) => tablesOf(kind).map((table) => ({ kind, table })));
  expect(tabled.length).toBeGreaterThan(0);
  for (const { kind, table } of tabled) {
    let form = startingForm("metric", kind);
    while (rowsOf(form, table) > 1) form = changeForm(form, { type: "remove-row", table, row: 0 });
    const reading = readForm(form);
    const told = reading.ok ? "" : (reading.errors[table.path] ?? "");
    plain(told);
    expect(told).toContain(`${table.label}: give at least ${table.fewest} points`);
  }
});

it("numbers far out of range are refused, never reckoned with", () => {
  const [{ example, exampleProjectile }] = MACHINE_KINDS;
  const request = { machine: example, projectile: exampleProjectile };
  for (const temperature of [-1e13, -100, 0.5 - 91, 1e13]) {
    const parsed = hazardRequestSchema.safeParse({ ...request, air: { temperature } });
    expect(parsed.error?.issues[0]?.path).toEqual(["air", "temperature"]);
  }
});

it("of several shapes the one that was meant is spoken of", () => {
  const [{ example, exampleProjectile }] = MACHINE_KINDS;
  const strengths = { sling: { ropeRating: 5000, stretch: 20 } };
  const parsed = hazardRequestSchema.safeParse({
    machine: example,
    projectile: exampleProjectile,
    strengths,
  });
  const leaves = leafIssues(parsed.error?.issues ?? []);
  expect(leaves).toMatchObject([{ code: "too_big", path: ["strengths", "sling", "stretch"] }]);
});
