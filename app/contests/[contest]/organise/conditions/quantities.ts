"use client";
import { useCallback, useState } from "react";
import { type Quantity, quantityOf } from "@/app/_ui/quantity-field";
import { useUnits } from "@/app/_ui/units";
import type { Dimension } from "@/lib/units";

export interface Asked {
  /** Dotted path in the request. */
  path: string;
  label: string;
  dimension: Dimension;
  help: string;
  optional?: boolean;
}

/** The fields of a form that is mostly numbers, by their paths. */
export function useQuantities(asked: readonly Asked[], start: Readonly<Record<string, number | undefined>>) {
  const system = useUnits();
  const [quantities, setQuantities] = useState<Readonly<Record<string, Quantity>>>(() =>
    Object.fromEntries(
      asked.map(({ path, dimension }) => [path, quantityOf(start[path], dimension, system)]),
    ),
  );
  const change = useCallback(
    (path: string, quantity: Quantity) => setQuantities((all) => ({ ...all, [path]: quantity })),
    [],
  );

  /** Nested as the request wants it; a sentence instead when something typed is no number yet. */
  const content = (): Record<string, unknown> | string => {
    const root: Record<string, unknown> = {};
    for (const { path, label, optional } of asked) {
      const quantity = quantities[path];
      if (!quantity || quantity.value === null) {
        if (optional && !quantity?.text.trim()) continue;
        return `${label}: enter a number.`;
      }
      const steps = path.split(".");
      let at = root;
      for (const step of steps.slice(0, -1)) {
        at[step] ??= {};
        at = at[step] as Record<string, unknown>;
      }
      at[steps.at(-1) as string] = quantity.value;
    }
    return root;
  };
  return { quantities, change, content };
}
