"use client";
/**
 * A number with its unit, as people write it: feet and inches, a decimal comma, a unit of the other system.
 * What was typed stays as it was typed; what it means (SI) goes up with it. Ambiguous text is asked about.
 */
import { type CSSProperties, type ReactNode, useEffect, useRef, useState } from "react";
import { type Dimension, formatNumber, parseQuantity, unitLabel } from "@/lib/units";
import { Button } from "./button";
import { describing, FieldFrame } from "./field";
import { useUnits } from "./units";
import type { UnitSystem } from "./units-cookie";

/** What stands in the field and what it means; value null when it means nothing yet. */
export interface Quantity {
  text: string;
  /** SI; angles in degrees. */
  value: number | null;
}

/** A quantity as a field shows it in these units. */
export const quantityOf = (
  value: number | null | undefined,
  dimension: Dimension,
  system: UnitSystem,
): Quantity =>
  value === null || value === undefined
    ? { text: "", value: null }
    : { text: formatNumber(value, dimension, system), value };

/** What is wrong with how a quantity is written, in a sentence that names its field; null when nothing is. */
export function quantityProblem(
  fieldName: string,
  quantity: Quantity,
  dimension: Dimension,
  system: UnitSystem,
  optional = false,
): string | null {
  if (quantity.value !== null) return null;
  const read = parseQuantity(quantity.text, dimension, system);
  if (read.ok || (read.reason === "empty" && optional)) return null;
  return `${fieldName}: ${read.message.charAt(0).toLowerCase()}${read.message.slice(1)}`;
}

export interface QuantityFieldProps {
  id: string;
  name?: string;
  label: ReactNode;
  /** How an error names the field: "Long arm". */
  fieldName: string;
  dimension: Dimension;
  quantity: Quantity;
  onChange: (quantity: Quantity) => void;
  help?: ReactNode;
  optional?: boolean;
  /** Wrong for another reason than how it is written: from a schema or the server. */
  error?: string | null;
  autoFocus?: boolean;
  /** The page has keys of its own: the phone's need not come up. */
  ownKeys?: boolean;
  onFocus?: () => void;
  onBlur?: () => void;
}

export function QuantityField(props: QuantityFieldProps) {
  const { id, fieldName, dimension, quantity, onChange } = props;
  const system = useUnits();
  const [visited, setVisited] = useState(false);
  const shownIn = useRef(system);

  // The switch rewrites what is shown, never the value: switching to and fro loses nothing.
  useEffect(() => {
    if (shownIn.current === system) return;
    shownIn.current = system;
    if (quantity.value !== null) onChange(quantityOf(quantity.value, dimension, system));
  }, [system, quantity, dimension, onChange]);

  const read = quantity.value === null ? parseQuantity(quantity.text, dimension, system) : null;
  const choices = read && !read.ok ? read.choices : undefined;
  const wrong = quantityProblem(fieldName, quantity, dimension, system, props.optional);
  // A field half typed is not an error yet; one that must be asked about is.
  const error = (visited || choices ? wrong : null) ?? props.error ?? null;
  const words = { id, label: props.label, help: props.help, optional: props.optional, error };

  const change = (text: string) => {
    const read = parseQuantity(text, dimension, system);
    onChange({ text, value: read.ok ? read.value : null });
  };

  return (
    <FieldFrame
      {...words}
      after={
        choices?.length ? (
          <div className="field-choices" role="group" aria-label={`${fieldName}: which is meant?`}>
            {choices.map((choice) => (
              <Button
                key={choice.label}
                onClick={() => {
                  onChange({ text: choice.label, value: choice.value });
                  // The question goes with its answers.
                  document.getElementById(id)?.focus();
                }}
              >
                {choice.label}
              </Button>
            ))}
          </div>
        ) : null
      }
    >
      {/* As much room as its unit takes: two fields stand side by side on a phone. */}
      <div
        className="field-with-unit"
        style={{ "--unit-signs": unitLabel(dimension, system).length } as CSSProperties}
      >
        <input
          {...describing(words)}
          name={props.name}
          type="text"
          // Feet and inches need signs that a bare number pad does not have.
          inputMode={props.ownKeys ? "none" : system === "us" && dimension === "length" ? "text" : "decimal"}
          autoComplete="off"
          autoCapitalize="off"
          spellCheck={false}
          autoFocus={props.autoFocus}
          required={!props.optional}
          value={quantity.text}
          onChange={(event) => change(event.target.value)}
          onFocus={props.onFocus}
          onBlur={() => {
            setVisited(true);
            props.onBlur?.();
          }}
        />
        <span className="field-unit" aria-hidden="true">
          {unitLabel(dimension, system)}
        </span>
      </div>
    </FieldFrame>
  );
}
