"use client";
/** What lies on the trailer, row by row: a name, a mass, a place. Kept through reloads. */
import { useCallback } from "react";
import { type Quantity, quantityOf } from "@/app/_ui/quantity-field";
import { useUnits } from "@/app/_ui/units";
import type { UnitSystem } from "@/app/_ui/units-cookie";
import type { TrailerItem } from "@/lib/inspection";
import { useKept } from "../../kept/use-kept";
import { isForm } from "../numbers/form";

export interface Row {
  id: string;
  name: string;
  mass: Quantity;
  at: Quantity;
}

const KEY = "fairthrow-before-load";
export const MOST_ROWS = 30;
export const EMPTY: Quantity = { text: "", value: null };

/** Rows kept earlier in these units; none where the text is not one of ours. */
export function rowsFromText(text: string | null, system: UnitSystem): Row[] {
  try {
    const kept = JSON.parse(text ?? "null");
    if (!Array.isArray(kept?.rows)) return [];
    const read = (found: Quantity | undefined, dimension: "mass" | "length"): Quantity => {
      if (typeof found?.text !== "string") return EMPTY;
      if (typeof found.value !== "number") return { text: found.text, value: null };
      return kept.system === system
        ? { text: found.text, value: found.value }
        : quantityOf(found.value, dimension, system);
    };
    return (kept.rows as Partial<Row>[]).slice(0, MOST_ROWS).map((row, index) => ({
      id: typeof row?.id === "string" ? row.id : String(index),
      name: typeof row?.name === "string" ? row.name.slice(0, 80) : "",
      mass: read(row?.mass, "mass"),
      at: read(row?.at, "length"),
    }));
  } catch {
    return [];
  }
}

/** Those that can be reckoned with: a positive mass and a place. */
export const itemsOf = (rows: readonly Row[]): TrailerItem[] =>
  rows.flatMap(({ name, mass, at }) =>
    mass.value !== null && mass.value > 0 && at.value !== null
      ? [{ name, mass: mass.value, at: at.value }]
      : [],
  );

/** Those that have a mass and no place yet: they weigh all the same. */
export const unplacedOf = (rows: readonly Row[]): { name: string; mass: number }[] =>
  rows.flatMap(({ name, mass, at }) =>
    mass.value !== null && mass.value > 0 && at.value === null ? [{ name, mass: mass.value }] : [],
  );

export function useItems() {
  const system = useUnits();
  // Fields that are shown write themselves in other units.
  const [rows, setRows] = useKept<Row[]>(
    KEY,
    () => [],
    (text) => (isForm(text) ? rowsFromText(text, system) : null),
    (now) => JSON.stringify({ system, rows: now }),
  );
  const change = useCallback(
    (id: string, part: Partial<Row>) =>
      setRows((before) => before.map((row) => (row.id === id ? { ...row, ...part } : row))),
    [setRows],
  );
  const add = useCallback(
    (named: readonly { name: string; mass: number | null }[]) =>
      setRows((before) => {
        const first = Math.max(0, ...before.map(({ id }) => Number(id) || 0)) + 1;
        const more = named.map(({ name, mass }, index) => ({
          id: String(first + index),
          name,
          mass: quantityOf(mass, "mass", system),
          at: EMPTY,
        }));
        return [...before, ...more].slice(0, MOST_ROWS);
      }),
    [system, setRows],
  );
  const remove = useCallback(
    (id: string) => setRows((before) => before.filter((row) => row.id !== id)),
    [setRows],
  );
  return { rows, change, add, remove };
}
