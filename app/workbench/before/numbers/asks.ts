/** Numbers and choices that a section asks for. */
import type { Dimension } from "@/lib/units";

export interface Asked {
  label: string;
  dimension: Dimension;
  help: string;
  /** SI. */
  start?: number;
  /** Nothing of its section is told without it. */
  needed?: boolean;
  /** Which numbers it takes: any where it is not said. */
  range?: "positive" | "factor" | "not-negative" | "share" | "lean" | "fall";
}

export type Asks<Name extends string> = Readonly<Record<Name, Asked>>;
export type Options<Choice extends string> = Readonly<Record<Choice, readonly string[]>>;

/** Why a number is none of those that are asked for, in a sentence; null when it is. */
export function outOfRange({ label, range }: Asked, value: number): string | null {
  if (range === "positive" && !(value > 0)) return `${label}: enter more than 0.`;
  if (range === "factor" && !(value >= 1))
    return `${label}: enter 1 or more. Less asks for less than what pulls.`;
  if (range === "not-negative" && value < 0) return `${label}: enter 0 or more.`;
  if (range === "share" && (value < 0 || value >= 1))
    return `${label}: enter at least 0 and less than 1 (100 %).`;
  if (range === "lean" && Math.abs(value) > 45) return `${label}: enter from −45° to 45°.`;
  if (range === "fall" && Math.abs(value) > 1) return `${label}: enter from −100 % to 100 %.`;
  return null;
}
