/** The calculator's form and drawing, apart from the browser. */
import { describe, expect, it } from "vitest";
import { drawnMachine } from "@/app/_ui/machine-form/drawing/drawn";
import { KINDS, tablesOf } from "@/app/_ui/machine-form/form/fields";
import { formToHash, readLink } from "@/app/_ui/machine-form/form/link";
import { formFromDeclaration, formFromText, formToText } from "@/app/_ui/machine-form/form/memory";
import { problemErrors, readForm } from "@/app/_ui/machine-form/form/request";
import { changeForm, type FormState, quantityAt, startingForm } from "@/app/_ui/machine-form/form/state";
import { toleranceWords } from "@/app/_ui/machine-form/form/tolerance-words";
import { machineKind, type Part, type Point, preview } from "@/lib/throw";
import { type Dimension, parseQuantity } from "@/lib/units";

/** What QuantityField does with typed text. */
function type(form: FormState, path: string, text: string, dimension?: Dimension): FormState {
  const spec = dimension ?? (path.endsWith("Mass") || path.endsWith(".mass") ? "mass" : "length");
  const read = parseQuantity(text, spec, form.system);
  return changeForm(form, { type: "quantity", path, quantity: { text, value: read.ok ? read.value : null } });
}

const requestOf = (form: FormState) => {
  const reading = readForm(form);
  if (!reading.ok) throw new Error(JSON.stringify(reading.errors));
  return reading.request;
};

/** As it comes to a reader of the other unit system. */
const throughLink = (form: FormState): FormState => {
  const read = readLink(`#${formToHash(form)}`, form.system === "us" ? "metric" : "us");
  if (read.state !== "open") throw new Error(JSON.stringify(read));
  return read.form;
};

const errorsOf = (form: FormState) => {
  const reading = readForm(form);
  return reading.ok ? {} : reading.errors;
};

describe("the form", () => {
  it("starts with a complete example of every kind", () => {
    for (const kind of KINDS) expect(readForm(startingForm("metric", kind)).ok, kind).toBe(true);
  });

  it("keeps the value, not the digits shown, when the units change to and fro", () => {
    let form = type(startingForm("metric"), "machine.longArm", "4.2345678");
    form = changeForm(form, { type: "units", system: "us" });
    expect(quantityAt(form, "machine.longArm").text).toBe("13' 10.7\"");
    form = changeForm(form, { type: "units", system: "metric" });
    expect(requestOf(form).machine).toMatchObject({ longArm: 4.2345678 });
  });

  it("keeps what each kind was given when another is looked at", () => {
    let form = type(startingForm("metric"), "machine.longArm", "3,5 m");
    form = changeForm(form, { type: "kind", kind: "floating-arm" });
    form = changeForm(form, { type: "kind", kind: "hinged-counterweight" });
    expect(requestOf(form).machine).toMatchObject({ longArm: 3.5 });
  });

  it("comes back from its kept text with half-typed fields as they stood", () => {
    const form = type(startingForm("us"), "machine.longArm", "twelve");
    expect(formFromText(formToText(form))).toEqual(form);
    for (const broken of [null, "", "{", "{}", '{"version":1,"kind":"none","system":"us"}']) {
      expect(formFromText(broken)).toBeNull();
    }
  });

  it("asks the same from a shared link, whatever units the reader has", () => {
    let form = type(startingForm("metric", "floating-arm"), "projectile.mass", "1.234 kg");
    form = changeForm(form, {
      type: "option",
      option: { shape: "pumpkin", hangUp: false, hangUpReason: "A net & <post>" },
    });
    expect(requestOf(throughLink(form))).toEqual(requestOf(form));
  });

  it("names the field and what to do, in the reader's units", () => {
    const form = startingForm("us");
    expect(errorsOf(type(form, "machine.longArm", "abc"))["machine.longArm"]).toMatch(/^Long arm: .*abc.*ft/);
    expect(errorsOf(type(form, "machine.longArm", ""))["machine.longArm"]).toMatch(/^Long arm: enter/);
    expect(errorsOf(type(form, "machine.longArm", "0"))["machine.longArm"]).toBe(
      "Long arm: enter at least 0.0394 in.",
    );
    expect(errorsOf(type(form, "machine.longArm", "999 m"))["machine.longArm"]).toMatch(
      /at most 328 ft 1 in/,
    );
    expect(errorsOf(type(form, "machine.slingLength", "1 in"))["machine.slingLength"]).toMatch(
      /too short to reach/,
    );
    expect(errorsOf(type(form, "machine.armCentre", ""))).toEqual({});
    expect(errorsOf(type(form, "machine.longArm", "90 m"))["machine.cockedAngle"]).toMatch(
      /below the ground/,
    );
    const metric = startingForm("metric");
    expect(errorsOf(type(metric, "projectile.mass", "0"))["projectile.mass"]).toBe(
      "Projectile mass: enter at least 0.001 kg.",
    );
    // 50 K is no air temperature, though the API would read a bare 50 as degrees Celsius.
    const cold = {
      type: "quantity",
      path: "air.temperature",
      quantity: { text: "50 K", value: 50 },
    } as const;
    expect(errorsOf(changeForm(metric, cold))["air.temperature"]).toBe(
      "Air temperature: enter at least −90 °C.",
    );
    const thin = {
      type: "quantity",
      path: "air.pressure",
      quantity: { text: "1013 Pa", value: 1013 },
    } as const;
    expect(errorsOf(changeForm(metric, thin))["air.pressure"]).toMatch(/at least 300 hPa, or 0 for no air/);
  });

  it("asks only for what the choices call for, and sends nothing else", () => {
    const choose = (form: FormState, path: string, value: string) =>
      changeForm(form, { type: "choice", path, value });
    const sling = startingForm("metric", "torsion");
    const cup = choose(sling, "machine.holder", "cup");
    expect(requestOf(sling).machine).toHaveProperty("slingLength");
    expect(requestOf(cup).machine).not.toHaveProperty("slingLength");
    expect(requestOf(cup).machine).not.toHaveProperty("releaseAngle");
    // What was entered comes back with the choice.
    expect(requestOf(choose(cup, "machine.holder", "sling"))).toEqual(requestOf(sling));

    const cannon = startingForm("metric", "air-cannon");
    expect(requestOf(cannon).machine).toHaveProperty("valve.flowCoefficient");
    expect(requestOf(choose(cannon, "machine.valve", "ideal")).machine).toMatchObject({ valve: "ideal" });

    const rolling = choose(startingForm("metric"), "machine.base", "wheels");
    expect(errorsOf(rolling)["machine.base.frameMass"]).toMatch(/^Frame mass: enter a mass/);
    const weighed = type(type(rolling, "machine.base.frameMass", "150"), "machine.base.footprint", "2");
    expect(requestOf(weighed).machine).toMatchObject({ base: { frameMass: 150, footprint: 2 } });

    const level = choose(startingForm("metric", "spinning-arm"), "machine.plane", "horizontal");
    expect(requestOf(throughLink(level))).toEqual(requestOf(level));
  });

  it("takes a draw curve point by point", () => {
    const [table] = tablesOf("tension");
    if (!table) throw new Error("The tension kind has lost its table.");
    let form = changeForm(startingForm("metric", "tension"), { type: "remove-row", table, row: 1 });
    form = changeForm(form, { type: "add-row", table });
    expect(errorsOf(form)["machine.draw.3.force"]).toMatch(/point 4, draw force: enter a force/);
    form = type(type(form, "machine.draw.3.length", "2.5 m"), "machine.draw.3.force", "900 N", "force");
    const points = [
      { length: 0, force: 0 },
      { length: 1.4, force: 520 },
      { length: 2.2, force: 830 },
      { length: 2.5, force: 900 },
    ];
    expect(requestOf(form).machine).toMatchObject({ draw: points });
    expect(formFromText(formToText(form))).toEqual(form);
    expect(requestOf(throughLink(form)).machine).toMatchObject({ draw: points });
    const backwards = type(form, "machine.draw.3.length", "2 m");
    expect(errorsOf(backwards)["machine.draw.3.length"]).toMatch(/must exceed the one before/);
  });

  it("starts the next revision from a declaration of every kind", () => {
    for (const kind of KINDS) {
      const { machine, projectile } = requestOf(startingForm("metric", kind));
      const again = requestOf(formFromDeclaration({ machine, projectile }, "us"));
      expect({ machine: again.machine, projectile: again.projectile }, kind).toEqual({
        machine,
        projectile,
      });
    }
  });

  it("reads what version 1 of this program kept", () => {
    const { choices: _, ...form } = startingForm("us");
    expect(formFromText(JSON.stringify({ version: 1, ...form }))).toEqual(startingForm("us"));
  });

  it("says what an empty tolerance stands for", () => {
    const share = { dimension: "length", tolerance: { share: 0.01 } } as const;
    expect(toleranceWords(share, 4.2, "metric")).toBe("± 1 % if left empty: ± 42 mm.");
    expect(toleranceWords(share, null, "metric")).toBe("± 1 % if left empty.");
    expect(toleranceWords({ dimension: "angle", tolerance: { plus: 2 } }, 40, "us")).toBe(
      "± 2.0° if left empty.",
    );
    expect(toleranceWords({ dimension: "mass" }, 40, "us")).toBe("Exact if left empty.");
  });

  it("asks for a reason before hang-ups are left out", () => {
    const form = changeForm(startingForm("metric"), { type: "option", option: { hangUp: false } });
    expect(errorsOf(form)["policy.hangUpReason"]).toMatch(/reason/);
  });

  it("brings a problem document's errors back to their fields", () => {
    const form = startingForm("metric");
    const errors = [{ field: "machine.longArm", message: "Give a length above 0." }];
    expect(problemErrors(form, { detail: "2 fields", errors })).toEqual({
      "machine.longArm": "Long arm: Give a length above 0.",
    });
    expect(problemErrors(form, { detail: "Busy: ask again in a minute." })).toEqual({
      "": "Busy: ask again in a minute.",
    });
  });
});

/** Kinds whose swing the engine draws, and so can be compared. */
const swung = KINDS.filter((kind) => machineKind(kind).motion.by === "swing");

describe("the drawing", () => {
  const points = (parts: readonly Part[], type: string) =>
    (parts.filter((part) => part.type === type).at(-1) as { points: readonly Point[] } | undefined)?.points;
  const centre = (parts: readonly Part[], type: string) =>
    (parts.find((part) => part.type === type) as { centre: Point } | undefined)?.centre;

  // The drawing works its places out by itself: the engine's first frame is the check from outside.
  it.each(swung)("stands as the engine cocks it: %s", (kind) => {
    const form = startingForm("metric", kind);
    const { parts } = machineKind(kind).drawing(drawnMachine(form));
    const first = preview(requestOf(form)).swing?.frames[0];
    const close = (drawn: Point | undefined, engine: readonly number[] | undefined) => {
      expect(drawn?.[0]).toBeCloseTo(engine?.[0] ?? Number.NaN, 6);
      expect(drawn?.[1]).toBeCloseTo(engine?.[1] ?? Number.NaN, 6);
    };
    close(points(parts, "beam")?.[0], first?.tip);
    close(centre(parts, "projectile"), first?.projectile);
    const weight = centre(parts, "weight");
    if (!weight) return;
    close(points(parts, "beam")?.[1], first?.shortEnd);
    close(weight, first?.counterweight);
  });

  it.each(KINDS)("points at what it asks for, and only at that: %s", (kind) => {
    const { drawing, parameters, tables = [] } = machineKind(kind);
    const { marks, extent } = drawing(drawnMachine(startingForm("metric", kind)));
    const named = marks.map(({ parameter }) => parameter);
    const known = [...parameters, ...tables].map(({ name }) => name);
    expect(new Set(named).size).toBe(named.length);
    expect(known).toEqual(expect.arrayContaining(named));
    for (const point of extent) for (const number of point) expect(number).toSatisfy(Number.isFinite);
  });
});
