/** The example of a kind with everything declared that its form can ask for: strengths, tolerances, wheels, air, terrain. */
import { choicesOf, type Kind } from "@/app/_ui/machine-form/form/fields";
import { readForm } from "@/app/_ui/machine-form/form/request";
import {
  changeForm,
  type FormState,
  fieldsOf,
  quantityAt,
  startingForm,
} from "@/app/_ui/machine-form/form/state";
import { quantityOf } from "@/app/_ui/quantity-field";
import type { UnitSystem } from "@/app/_ui/units-cookie";

/** The options that ask for most. */
const CHOSEN: Readonly<Record<string, string>> = {
  "machine.base": "wheels",
  "strengths.sling": "rope",
  "strengths.arm.material": "wood",
  "strengths.arm.section": "laminated",
  "strengths.arm.taper": "yes",
};

/** SI, by what a path ends with; what is not here is filled in by its kind of field. */
const VALUES: Readonly<Record<string, number>> = {
  "base.frameMass": 300,
  "base.footprint": 3,
  "sling.ropeRating": 12_000,
  "sling.legs": 2,
  "sling.stretch": 0.15,
  "pivot.depth": 0.2,
  "pivot.width": 0.12,
  "pivot.layers": 5,
  "tip.depth": 0.1,
  "tip.width": 0.08,
  "tip.layers": 4,
  glueFactor: 0.6,
  clothLayers: 2,
  moisture: 19,
  "strengths.pivot": 45_000,
  "strengths.hanger": 38_000,
  "stop.stroke": 0.25,
  "stop.force": 12_000,
  "frame.mass": 420,
  "frame.footprint": 3.2,
  "frame.friction": 0.35,
  "drag.nominal": 0.45,
  "drag.low": 0.4,
  "drag.high": 0.5,
  "projectile.lift": 0.1,
  "air.temperature": 291.15,
  "air.pressure": 98_000,
  "air.altitude": 240,
  "wind.height": 2,
  "wind.speed": 6,
  "wind.gust": 11,
  "wind.direction": 200,
  "terrain.below": 1.5,
  "terrain.slope": 2,
  "terrain.crossSlope": 1,
};

export function fullyDeclared(system: UnitSystem, kind: Kind): FormState {
  let form = startingForm(system, kind);
  for (const { path } of choicesOf(kind)) {
    const value = CHOSEN[path];
    if (value) form = changeForm(form, { type: "choice", path, value });
  }
  for (const { path, dimension } of fieldsOf(form)) {
    const value = path.startsWith("tolerances.")
      ? 0.01
      : Object.entries(VALUES).find(([end]) => path.endsWith(end))?.[1];
    if (value === undefined || quantityAt(form, path).value !== null) continue;
    form = changeForm(form, { type: "quantity", path, quantity: quantityOf(value, dimension, system) });
  }
  const reading = readForm(form);
  if (!reading.ok) throw new Error(`${kind}: ${JSON.stringify(reading.errors)}`);
  return form;
}
