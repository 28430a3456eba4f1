"use client";
import { useCallback } from "react";
import { type Quantity, QuantityField } from "@/app/_ui/quantity-field";
import styles from "../organise.module.css";
import type { Asked } from "./quantities";

export function QuantityList({
  asked,
  under,
  quantities,
  change,
  errorFor,
}: {
  asked: readonly Asked[];
  /** Where the request has them: "policy". */
  under: string;
  quantities: Readonly<Record<string, Quantity>>;
  change: (path: string, quantity: Quantity) => void;
  errorFor: (field: string) => string | null;
}) {
  return (
    <div className={styles.two}>
      {asked.map((one) => (
        <One
          key={one.path}
          asked={one}
          id={`${under}-${one.path.replaceAll(".", "-")}`}
          quantity={quantities[one.path] ?? { text: "", value: null }}
          change={change}
          error={errorFor(`${under}.${one.path}`)}
        />
      ))}
    </div>
  );
}

function One({
  asked,
  id,
  quantity,
  change,
  error,
}: {
  asked: Asked;
  id: string;
  quantity: Quantity;
  change: (path: string, quantity: Quantity) => void;
  error: string | null;
}) {
  const { path } = asked;
  const onChange = useCallback((next: Quantity) => change(path, next), [change, path]);
  return (
    <QuantityField
      id={id}
      label={asked.label}
      fieldName={asked.label}
      dimension={asked.dimension}
      help={asked.help}
      optional={asked.optional ?? false}
      quantity={quantity}
      onChange={onChange}
      error={error}
    />
  );
}
