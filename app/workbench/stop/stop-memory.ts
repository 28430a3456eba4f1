/** What a browser keeps of the stop's form, and how it comes back in the reader's units. */
import { type Quantity, quantityOf } from "@/app/_ui/quantity-field";
import type { UnitSystem } from "@/app/_ui/units-cookie";
import { BOLT_CLASSES, BOLT_SIZES, STOP_KINDS, STOP_LIMITS } from "@/lib/throw";
import type { Dimension } from "@/lib/units";
import { QUANTITIES, type QuantityName } from "./stop-asks";
import { type CurvePoint, EMPTY, type StopForm, startingStop } from "./stop-form";

/** A form kept earlier, in these units; null when the text is not one of ours. */
export function stopFromText(text: string | null, system: UnitSystem): StopForm | null {
  try {
    const found = JSON.parse(text ?? "null");
    const start = startingStop(system);
    if (!found || typeof found !== "object" || typeof found.quantities !== "object") return null;
    const one = <T extends string>(options: readonly T[], value: unknown, otherwise: T): T =>
      options.find((option) => option === value) ?? otherwise;
    const quantity = (value: unknown, dimension: Dimension, otherwise: Quantity): Quantity => {
      const kept = value as Quantity | undefined;
      if (typeof kept?.text !== "string") return otherwise;
      if (typeof kept.value !== "number")
        return found.system === system ? { text: kept.text, value: null } : otherwise;
      return found.system === system
        ? { text: kept.text, value: kept.value }
        : quantityOf(kept.value, dimension, system);
    };
    const curve = Array.isArray(found.curve) ? (found.curve as CurvePoint[]).slice(0, 30) : [];
    return {
      system,
      source: typeof found.source === "string" ? found.source : "",
      kind: one(STOP_KINDS, found.kind, start.kind),
      limit: one(STOP_LIMITS, found.limit, start.limit),
      size: one(BOLT_SIZES, found.size, start.size),
      class: one(BOLT_CLASSES, found.class, start.class),
      planes: one(["1", "2"], found.planes, start.planes),
      quantities: Object.fromEntries(
        Object.entries(QUANTITIES).map(([name, { dimension }]) => [
          name,
          quantity(found.quantities[name], dimension, start.quantities[name as QuantityName]),
        ]),
      ) as Record<QuantityName, Quantity>,
      curve:
        curve.length >= 2
          ? curve.map((point, i) => ({
              stroke: quantity(point?.stroke, "length", start.curve[i]?.stroke ?? EMPTY),
              force: quantity(point?.force, "force", start.curve[i]?.force ?? EMPTY),
            }))
          : start.curve,
    };
  } catch {
    return null;
  }
}
