/** What the form of an accident replay holds, and the question it asks. */

import { issueSentence } from "@/app/_ui/issue-words";
import type { FieldErrors } from "@/app/_ui/machine-form/form/request";
import { type Quantity, quantityOf, quantityProblem } from "@/app/_ui/quantity-field";
import type { UnitSystem } from "@/app/_ui/units-cookie";
import { FOUND_PLACES, FOUND_THINGS, landingSchema } from "@/lib/throw";

export const PLACE_FIELDS = {
  polar: [
    {
      name: "distance",
      label: "Distance from the firing point",
      dimension: "distance",
      help: "Straight over the ground, by tape or wheel.",
    },
    {
      name: "direction",
      label: "Direction off the bearing",
      dimension: "angle",
      help: "Clockwise seen from above: 0° straight ahead, 90° to the right, 180° behind, −90° to the left.",
    },
  ],
  plane: [
    {
      name: "downrange",
      label: "Downrange",
      dimension: "distance",
      help: "Along the bearing; negative behind the firing point.",
    },
    {
      name: "aside",
      label: "To the right of the bearing",
      dimension: "distance",
      help: "Square to it; negative to the left.",
    },
  ],
} as const;

export const UNCERTAINTY = {
  name: "uncertainty",
  label: "How far the place may be off",
  dimension: "distance",
  help: "At most, either way. A guess across a field is ten metres, a tape to a crater half a metre.",
} as const;

export type PlaceName = "distance" | "direction" | "downrange" | "aside" | "uncertainty";

export interface LandingForm {
  by: keyof typeof PLACE_FIELDS;
  found: (typeof FOUND_THINGS)[number];
  place: (typeof FOUND_PLACES)[number];
  quantities: Partial<Record<PlaceName, Quantity>>;
}

export const startingLanding = (system: UnitSystem): LandingForm => ({
  by: "polar",
  found: "unknown",
  place: "impact",
  quantities: { uncertainty: quantityOf(system === "us" ? 1.524 : 2, "distance", system) },
});

const EMPTY: Quantity = { text: "", value: null };
export const quantityIn = (form: LandingForm, name: PlaceName): Quantity => form.quantities[name] ?? EMPTY;

export const fieldsOfLanding = ({ by }: LandingForm) => [...PLACE_FIELDS[by], UNCERTAINTY];

type Read = { ok: true; landing: Record<string, number> } | { ok: false; errors: FieldErrors };

/** The place as the API takes it, or what is wrong, by field. */
export function readLanding(form: LandingForm, system: UnitSystem): Read {
  const errors: Record<string, string> = {};
  const landing: Record<string, number> = {};
  for (const { name, label, dimension } of fieldsOfLanding(form)) {
    const quantity = quantityIn(form, name);
    const problem = quantityProblem(label, quantity, dimension, system);
    if (problem) errors[name] = problem;
    else if (quantity.value !== null) landing[name] = quantity.value;
  }
  if (Object.keys(errors).length > 0) return { ok: false, errors };
  const parsed = landingSchema.safeParse(landing);
  if (parsed.success) return { ok: true, landing };
  for (const issue of parsed.error.issues) {
    const name = String(issue.path[0] ?? "distance");
    const field = fieldsOfLanding(form).find((each) => each.name === name);
    errors[name] ??= issueSentence(issue, field ?? { label: "The place" }, system);
  }
  return { ok: false, errors };
}

/** A form kept earlier; null when the text is not one of ours. */
export function landingFromText(text: string | null, system: UnitSystem): LandingForm | null {
  try {
    const kept = JSON.parse(text ?? "null");
    if (
      !(kept?.by in PLACE_FIELDS) ||
      !FOUND_THINGS.includes(kept.found) ||
      !FOUND_PLACES.includes(kept.place)
    )
      return null;
    const form = startingLanding(system);
    const dimensions = [...PLACE_FIELDS.polar, ...PLACE_FIELDS.plane, UNCERTAINTY];
    const quantities: LandingForm["quantities"] = { ...form.quantities };
    for (const { name, dimension } of dimensions) {
      const value = kept.quantities?.[name]?.value;
      if (typeof value === "number" && Number.isFinite(value))
        quantities[name] = quantityOf(value, dimension, system);
    }
    return { by: kept.by, found: kept.found, place: kept.place, quantities };
  } catch {
    return null;
  }
}
