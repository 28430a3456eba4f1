"use client";
/** Fields of a section's numbers, and for paper what was typed in them. */
import { QuantityField } from "@/app/_ui/quantity-field";
import { formatQuantity } from "@/lib/units";
import styles from "../before.module.css";
import type { Numbers } from "./use-numbers";

interface Props<Name extends string> {
  /** Unlike any other on the page. */
  id: string;
  numbers: Pick<Numbers<Name, never>, "asks" | "form" | "set" | "problem" | "value">;
  names: readonly Name[];
}

export function NumberFields<Name extends string>({ id, numbers, names }: Props<Name>) {
  return names.map((name) => {
    const { label, dimension, help, needed = false } = numbers.asks[name];
    const quantity = numbers.form.quantities[name];
    return (
      <QuantityField
        key={name}
        id={`${id}-${name}`}
        label={label}
        fieldName={label}
        help={help}
        dimension={dimension}
        optional={!needed}
        quantity={quantity}
        // How it is written the field says itself, once it has been left.
        error={quantity.value === null ? null : numbers.problem(name)}
        onChange={(next) => numbers.set(name, next)}
      />
    );
  });
}

/** On paper alone. */
export function Given<Name extends string>({
  numbers,
  names,
  chosen = [],
}: Omit<Props<Name>, "id"> & { chosen?: readonly string[] }) {
  const typed = names.flatMap((name) => {
    const value = numbers.value(name);
    const { label, dimension } = numbers.asks[name];
    return value === undefined ? [] : `${label}: ${formatQuantity(value, dimension, numbers.form.system)}`;
  });
  const all = [...chosen, ...typed];
  if (all.length === 0) return null;
  return (
    <p className={styles.paper} aria-hidden="true">
      Given: {all.join("; ")}.
    </p>
  );
}
