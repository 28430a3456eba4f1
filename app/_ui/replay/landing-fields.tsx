"use client";
/** Where something landed, what it was and which place that is. */
import { ChoiceTiles } from "../choice-tiles";
import type { FieldErrors } from "../machine-form/form/request";
import { QuantityField } from "../quantity-field";
import { fieldsOfLanding, type LandingForm, quantityIn } from "./landing-form";

export function LandingFields({
  landing,
  onChange,
  errors,
}: {
  landing: LandingForm;
  onChange: (change: (before: LandingForm) => LandingForm) => void;
  errors: FieldErrors;
}) {
  const set = (change: Partial<LandingForm>) => onChange((before) => ({ ...before, ...change }));
  return (
    <>
      <ChoiceTiles
        id="landing-by"
        legend="How the place is given"
        choices={[
          { value: "polar", label: "Distance and direction" },
          { value: "plane", label: "Ahead and aside" },
        ]}
        value={landing.by}
        onChange={(by) => set({ by })}
      />
      <div className="field-grid">
        {fieldsOfLanding(landing).map(({ name, label, dimension, help }) => (
          <QuantityField
            key={name}
            id={`landing-${name}`}
            label={label}
            fieldName={label}
            dimension={dimension}
            help={help}
            quantity={quantityIn(landing, name)}
            onChange={(quantity) =>
              onChange((before) => ({
                ...before,
                quantities: { ...before.quantities, [name]: quantity },
              }))
            }
            error={errors[name] ?? null}
          />
        ))}
      </div>
      <ChoiceTiles
        id="landing-found"
        legend="What was found"
        choices={[
          { value: "projectile", label: "The projectile, whole" },
          { value: "piece", label: "A piece of the projectile" },
          { value: "machine", label: "A part of the machine" },
          { value: "unknown", label: "Nobody can tell" },
        ]}
        value={landing.found}
        onChange={(found) => set({ found })}
      />
      <ChoiceTiles
        id="landing-place"
        legend="Which place it is"
        choices={[
          { value: "impact", label: "First impact", note: "a crater, a mark, a witness" },
          { value: "rest", label: "Where it came to rest", note: "after bounce and roll" },
        ]}
        value={landing.place}
        onChange={(place) => set({ place })}
      />
    </>
  );
}
