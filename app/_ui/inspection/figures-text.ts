/** A line's numbers in the reader's units, and whether its reserve falls short of the usual factor. */
import type { UnitSystem } from "@/app/_ui/units-cookie";
import type { Figure } from "@/lib/inspection";
import { figureText } from "./texts";

const FACTOR = "usual factor";

/** "Peak tension of the throw: 1480 N; what it bears: not declared." */
export function figuresText(figures: readonly Figure[], system: UnitSystem): string {
  const text = figures
    .map(({ label, value, dimension }) =>
      value === null
        ? `${label}: not declared`
        : // A factor is as it is written down; a reserve is never rounded up to it.
          `${label}: ${label === FACTOR ? value : figureText(value, dimension, system)}`,
    )
    .join("; ");
  return text && `${text.charAt(0).toUpperCase()}${text.slice(1)}.`;
}

const named = (figures: readonly Figure[], name: string) =>
  figures.find(({ label }) => label === name)?.value ?? null;

/** It bears less than what loads it. */
export function breaks(figures: readonly Figure[]): boolean {
  const reserve = named(figures, "reserve");
  return reserve !== null && reserve < 1;
}

export function fallsShort(figures: readonly Figure[]): boolean {
  const [reserve, factor] = [named(figures, "reserve"), named(figures, FACTOR)];
  return breaks(figures) || (reserve !== null && factor !== null && reserve < factor);
}
