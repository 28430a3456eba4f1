/** The calculator's form and drawing, apart from the browser. */
import { describe, expect, it } from "vitest";
import { drawMachine, type Point, type Shape } from "@/app/calculator/drawing/geometry";
import { KINDS, startingValues } from "@/app/calculator/form/fields";
import { problemErrors, readForm } from "@/app/calculator/form/request";
import {
  changeForm,
  type FormState,
  formFromHash,
  formFromText,
  formToHash,
  formToText,
  quantityAt,
  startingForm,
} from "@/app/calculator/form/state";
import { preview } from "@/lib/throw";
import { parseQuantity } from "@/lib/units";

/** What QuantityField does with typed text. */
function type(form: FormState, path: string, text: string): FormState {
  const spec = path.endsWith("Mass") || path.endsWith(".mass") ? "mass" : "length";
  const read = parseQuantity(text, spec, form.system);
  return changeForm(form, { type: "quantity", path, quantity: { text, value: read.ok ? read.value : null } });
}

const requestOf = (form: FormState) => {
  const reading = readForm(form);
  if (!reading.ok) throw new Error(JSON.stringify(reading.errors));
  return reading.request;
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
    expect(quantityAt(form, "machine.longArm").text).toMatch(/^13' 10\.7\d+"$/);
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
    const opened = formFromHash(`#${formToHash(form)}`, "us");
    expect(opened && requestOf(opened)).toEqual(requestOf(form));
    expect(formFromHash("#kind=none", "metric")).toBeNull();
  });

  it("names the field and what to do, in the reader's units", () => {
    const form = startingForm("us");
    expect(errorsOf(type(form, "machine.longArm", "abc"))["machine.longArm"]).toMatch(/^Long arm: .*abc.*ft/);
    expect(errorsOf(type(form, "machine.longArm", ""))["machine.longArm"]).toMatch(/^Long arm: enter/);
    expect(errorsOf(type(form, "machine.longArm", "0"))["machine.longArm"]).toBe(
      "Long arm: enter more than 0 in.",
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

describe("the drawing", () => {
  const line = (shapes: readonly Shape[], look: string) =>
    shapes.find((shape) => shape.type === "line" && shape.look === look) as { points: readonly Point[] };

  // The drawing works its places out by itself: the engine's first frame is the check from outside.
  it.each(KINDS.filter((kind) => kind !== "measured"))("stands as the engine cocks it: %s", (kind) => {
    const values = startingValues(kind);
    const numbers = Object.fromEntries(
      Object.entries(values).map(([path, value]) => [path.split(".").pop(), value]),
    );
    const { shapes } = drawMachine(kind, numbers);
    const first = preview(requestOf(startingForm("metric", kind))).swing?.frames[0];
    const close = (drawn: Point | undefined, engine: readonly number[] | undefined) => {
      expect(drawn?.[0]).toBeCloseTo(engine?.[0] ?? Number.NaN, 6);
      expect(drawn?.[1]).toBeCloseTo(engine?.[1] ?? Number.NaN, 6);
    };
    const arm = shapes
      .filter((shape) => shape.type === "line" && shape.look === "arm")
      .at(-1) as (typeof shapes)[0] & { points: readonly Point[] };
    close(arm.points[0], first?.tip);
    close(arm.points[1], first?.shortEnd);
    close(line(shapes, "sling").points[1], first?.projectile);
    const weight = shapes.find((shape) => shape.type === "disc" && shape.look === "counterweight");
    close(weight?.type === "disc" ? weight.centre : undefined, first?.counterweight);
  });
});
