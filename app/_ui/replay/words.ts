/** How an accident replay names directions and what differs from the declaration. */
import { parameterWords } from "@/app/_ui/hazard-sheet/words";
import type { UnitSystem } from "@/app/_ui/units-cookie";
import type { Explanation } from "@/lib/throw";
import { formatQuantity } from "@/lib/units";

/** "12° to the right of the bearing", "straight behind". */
export function directionText(degrees: number): string {
  const off = Math.round(Math.abs(degrees));
  if (off === 0) return "straight ahead";
  if (off === 180) return "straight behind";
  return `${off}° to the ${degrees < 0 ? "left" : "right"} of the bearing`;
}

/** The parameters that differ from the declared ones, with their values; "as declared" without any. */
export function cornerText({ tolerance }: Explanation, kind: string, system: UnitSystem): string {
  const parts = Object.entries(tolerance.corner).map(([name, value]) => {
    const { label, dimension } = parameterWords(kind, name);
    return `${label} ${formatQuantity(value, dimension, system, { uncertainty: Math.abs(value) / 500 })}`;
  });
  return parts.length > 0 ? parts.join("; ") : "As declared";
}
