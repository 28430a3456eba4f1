"use client";
/** The parts of the form beside the machine itself: projectile, air, tolerances, policy. */
import { type ReactNode, useCallback } from "react";
import { Caution } from "@/app/_ui/caution";
import { CheckField, SelectField, TextField } from "@/app/_ui/field";
import { type Quantity, QuantityField } from "@/app/_ui/quantity-field";
import { GROUND_FIRMNESS, PROJECTILE_SHAPES } from "@/lib/throw";
import {
  airFields,
  dragFields,
  type FieldSpec,
  fieldId,
  policyFields,
  projectileFields,
  toleranceFields,
  windFields,
} from "./form/fields";
import type { FieldErrors } from "./form/request";
import { type FormAction, type FormState, type Options, quantityAt } from "./form/state";

export interface SectionProps {
  form: FormState;
  change: (action: FormAction) => void;
  errors: FieldErrors;
  onVisited: (path: string) => void;
}

const shapeLabels: Record<Options["shape"], string> = {
  "smooth-sphere": "Smooth ball",
  "rough-sphere": "Rough ball",
  pumpkin: "Pumpkin",
  irregular: "Irregular",
};

const groundLabels: Record<Options["ground"], string> = { soft: "Soft", firm: "Firm", hard: "Hard" };

function FieldOf({ spec, form, change, errors, onVisited }: SectionProps & { spec: FieldSpec }) {
  const { path } = spec;
  const set = useCallback(
    (quantity: Quantity) => change({ type: "quantity", path, quantity }),
    [change, path],
  );
  return (
    <QuantityField
      id={fieldId(path)}
      label={spec.label}
      fieldName={spec.label}
      dimension={spec.dimension}
      quantity={quantityAt(form, path)}
      onChange={set}
      help={spec.help || undefined}
      optional={spec.optional}
      error={errors[path] ?? null}
      onBlur={() => onVisited(path)}
    />
  );
}

const Fields = ({ specs, ...props }: SectionProps & { specs: readonly FieldSpec[] }) => (
  <>
    {specs.map((spec) => (
      <FieldOf key={spec.path} spec={spec} {...props} />
    ))}
  </>
);

/** A part that most people leave as it is, opened when something in it needs them. */
function Fold({ title, children }: { title: string; children: ReactNode }) {
  return (
    <details className="fold">
      <summary>{title}</summary>
      {children}
    </details>
  );
}

export function ProjectileSection(props: SectionProps) {
  const { form, change } = props;
  return (
    <section>
      <h2>Projectile</h2>
      <div className="field-grid">
        <Fields specs={projectileFields} {...props} />
        <SelectField
          id="field-shape"
          label="Shape"
          help="Sets drag and lift unless they are given."
          choices={PROJECTILE_SHAPES.map((value) => ({ value, label: shapeLabels[value] }))}
          value={form.options.shape}
          onChange={(event) =>
            change({ type: "option", option: { shape: event.target.value as Options["shape"] } })
          }
        />
      </div>
      <Fold title="Drag and lift">
        <div className="field-grid">
          <Fields specs={dragFields} {...props} />
        </div>
      </Fold>
    </section>
  );
}

export function AirSection(props: SectionProps) {
  return (
    <section>
      <h2>Air and wind</h2>
      <p>The strongest wind in which it may be fired counts, not today's.</p>
      <div className="field-grid">
        <Fields specs={windFields} {...props} />
        <Fields specs={airFields} {...props} />
      </div>
    </section>
  );
}

export function ToleranceSection(props: SectionProps) {
  return (
    <Fold title="Tolerances: how well each number is known">
      <p>
        The ± of each number, in its own unit. Empty takes the documented default of the kind, 0 says that it
        is exact.
      </p>
      <div className="field-grid">
        <Fields specs={toleranceFields(props.form.kind)} {...props} />
      </div>
    </Fold>
  );
}

export function PolicySection(props: SectionProps) {
  const { form, change, errors } = props;
  const { options } = form;
  return (
    <Fold title="Policy: margins and angles">
      <Caution kind="mandatory" title="the safety officer's alone">
        <p>
          These are common practice, with no source behind them. At a contest only its safety officer sets
          them; here they show what follows from each.
        </p>
      </Caution>
      <div className="field-grid">
        <Fields specs={policyFields} {...props} />
        <SelectField
          id="field-ground"
          label="Ground"
          help="Sets bounce and roll after the first impact."
          choices={GROUND_FIRMNESS.map((value) => ({ value, label: groundLabels[value] }))}
          value={options.ground}
          onChange={(event) =>
            change({ type: "option", option: { ground: event.target.value as Options["ground"] } })
          }
        />
      </div>
      <CheckField
        id="field-hangUp"
        label="Hang-ups count"
        help="The loop does not slip and the projectile whirls on. Leaving them out takes a reason."
        checked={options.hangUp}
        onChange={(event) => change({ type: "option", option: { hangUp: event.target.checked } })}
      />
      {options.hangUp ? null : (
        <TextField
          id={fieldId("policy.hangUpReason")}
          label="Why hang-ups are left out"
          help="Stands on the sheet."
          maxLength={500}
          value={options.hangUpReason}
          error={errors["policy.hangUpReason"]}
          onChange={(event) => change({ type: "option", option: { hangUpReason: event.target.value } })}
        />
      )}
    </Fold>
  );
}
