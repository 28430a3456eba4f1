"use client";
/** Fields, choices and folds as every part of the form shows them. */
import { type ReactNode, useCallback } from "react";
import { SelectField } from "@/app/_ui/field";
import { inWords } from "@/app/_ui/hazard-sheet/words";
import { type Quantity, QuantityField } from "@/app/_ui/quantity-field";
import { type ChoiceSpec, type FieldSpec, fieldId } from "../form/fields";
import type { FieldErrors } from "../form/request";
import { choiceAt, type FormAction, type FormState, isAsked, quantityAt } from "../form/state";

export interface SectionProps {
  form: FormState;
  change: (action: FormAction) => void;
  errors: FieldErrors;
  onVisited: (path: string) => void;
}

export function FieldOf({
  spec,
  label = spec.label,
  onFocus,
  onBlur,
  form,
  change,
  errors,
  onVisited,
}: SectionProps & { spec: FieldSpec; label?: ReactNode; onFocus?: () => void; onBlur?: () => void }) {
  const { path } = spec;
  const set = useCallback(
    (quantity: Quantity) => change({ type: "quantity", path, quantity }),
    [change, path],
  );
  return (
    <QuantityField
      id={fieldId(path)}
      label={label}
      fieldName={spec.label}
      dimension={spec.dimension}
      quantity={quantityAt(form, path)}
      onChange={set}
      help={inWords(spec.help, form.kind, form.system) || undefined}
      optional={spec.optional}
      error={errors[path] ?? null}
      {...(onFocus ? { onFocus } : {})}
      onBlur={() => {
        onBlur?.();
        onVisited(path);
      }}
    />
  );
}

export const Fields = ({ specs, ...props }: SectionProps & { specs: readonly FieldSpec[] }) => (
  <>
    {specs
      .filter((spec) => isAsked(props.form, spec))
      .map((spec) => (
        <FieldOf key={spec.path} spec={spec} {...props} />
      ))}
  </>
);

export const Choices = ({ specs, form, change, errors }: SectionProps & { specs: readonly ChoiceSpec[] }) => (
  <>
    {specs
      .filter((spec) => isAsked(form, spec))
      .map((spec) => (
        <SelectField
          key={spec.path}
          id={fieldId(spec.path)}
          label={spec.label}
          help={spec.help}
          choices={spec.options}
          value={choiceAt(form, spec)}
          error={errors[spec.path] ?? null}
          onChange={(event) => change({ type: "choice", path: spec.path, value: event.target.value })}
        />
      ))}
  </>
);

/** A part that most people leave as it is, opened when something in it needs them. */
export function Fold({
  title,
  onToggle,
  children,
}: {
  title: string;
  onToggle?: (open: boolean) => void;
  children: ReactNode;
}) {
  return (
    <details className="fold" onToggle={(event) => onToggle?.(event.currentTarget.open)}>
      <summary>{title}</summary>
      {children}
    </details>
  );
}
