"use client";
/** A choice of a few, each as big as a thumb in a glove; native radio buttons underneath. */
import type { ReactNode } from "react";
import styles from "./choice-tiles.module.css";
import { FieldError } from "./field";

export function ChoiceTiles<Value extends string>({
  id,
  legend,
  choices,
  value,
  onChange,
  error,
}: {
  id: string;
  legend: ReactNode;
  choices: readonly { value: Value; label: string; note?: string }[];
  value: Value | null;
  onChange: (value: Value) => void;
  error?: string | null;
}) {
  return (
    <div
      className={styles.tiles}
      role="radiogroup"
      aria-labelledby={`${id}-legend`}
      aria-describedby={error ? `${id}-error` : undefined}
      aria-invalid={error ? true : undefined}
    >
      <div className={styles.legend} id={`${id}-legend`}>
        {legend}
      </div>
      <div className={styles.grid}>
        {choices.map((choice) => (
          <label key={choice.value} className={styles.tile}>
            <input
              type="radio"
              name={id}
              value={choice.value}
              checked={value === choice.value}
              onChange={() => onChange(choice.value)}
            />
            <span>
              {choice.label}
              {choice.note && <small>{choice.note}</small>}
            </span>
          </label>
        ))}
      </div>
      <FieldError id={id} error={error ?? null} />
    </div>
  );
}
