"use client";
/** One number under a thumb: a slider for feeling, a field for what is meant exactly. */
import { useMemo } from "react";
import { Button } from "@/app/_ui/button";
import { type Quantity, QuantityField, quantityOf } from "@/app/_ui/quantity-field";
import type { tuning } from "@/lib/throw";
import type { UnitSystem } from "@/lib/units";
import styles from "./tuning.module.css";
import { trackOf } from "./turned";
import { knobText } from "./words";

export function KnobSlider({
  knob,
  quantity,
  onChange,
  system,
}: {
  knob: tuning.Knob;
  /** Undefined while it stands unchanged. */
  quantity: Quantity | undefined;
  /** Null puts it back. */
  onChange: (quantity: Quantity | null) => void;
  system: UnitSystem;
}) {
  const { name, label, dimension, present } = knob;
  const track = useMemo(() => trackOf(knob, system), [knob, system]);
  const asBuilt = quantityOf(present, dimension, system);
  const shown = quantity ?? asBuilt;
  const value = shown.value ?? present;
  return (
    <div className={styles.knob} role="group" aria-label={label}>
      <QuantityField
        id={`tune-${name}`}
        label={label}
        fieldName={label}
        dimension={dimension}
        quantity={shown}
        // Other units rewrite the field: that turns nothing.
        onChange={(next) =>
          onChange(next.value === asBuilt.value && next.text === asBuilt.text ? null : next)
        }
      />
      <input
        type="range"
        className={styles.slider}
        aria-label={`${label}, slider`}
        aria-valuetext={knobText(value, dimension, system)}
        min={track.low}
        max={track.high}
        step={track.step}
        value={value}
        onChange={(event) => onChange(quantityOf(Number(event.target.value), dimension, system))}
      />
      <p className={styles.ends}>
        <span>{knobText(track.low, dimension, system)}</span>
        {quantity ? (
          <Button look="quiet" onClick={() => onChange(null)}>
            Back to {knobText(present, dimension, system)}
          </Button>
        ) : (
          <span>unchanged</span>
        )}
        <span>{knobText(track.high, dimension, system)}</span>
      </p>
    </div>
  );
}
