/** What stands at the sliders, and how it becomes a revision. Pure. */
import { type Quantity, quantityOf } from "@/app/_ui/quantity-field";
import { type HazardRequest, tuning } from "@/lib/throw";
import type { Dimension, UnitSystem } from "@/lib/units";
import type { BenchAction } from "../bench/bench";

/** By knob; those that nobody has touched are absent. */
export type Turned = Readonly<Record<string, Quantity>>;

/** Of the knobs that stand at a number. */
export const valuesOf = (turned: Turned): Record<string, number> =>
  Object.fromEntries(
    Object.entries(turned).flatMap(([name, { value }]) => (value === null ? [] : [[name, value]])),
  );

/** Positions of a slider, so many at most. */
const POSITIONS = 500;

/** A slider's ends and its step, SI: plain numbers in the reader's units, the present value between them. */
export function trackOf({ dimension, present, low, high }: tuning.Knob, system: UnitSystem) {
  const plain = tuning.plainStep(dimension, present, system);
  let step = dimension === "angle" ? plain.step / 2 : plain.step;
  while ((high - low) / step > POSITIONS) step *= 10;
  while ((high - low) / step < 20) step /= 10;
  const tidy = (count: number) => Number((count * step).toPrecision(10));
  return { low: tidy(Math.ceil(low / step - 1e-9)), high: tidy(Math.floor(high / step + 1e-9)), step };
}

/** The fields of the form in which two machines of one kind differ, and what they become. */
function changedFields(from: HazardRequest, to: HazardRequest, system: UnitSystem) {
  const dimensions = new Map<string, Dimension>([
    ["longArm", "length"],
    ["shortArm", "length"],
    ...tuning.knobsOf(from).map(({ name, dimension }) => [name, dimension] as const),
  ]);
  return [...dimensions].flatMap(([name, dimension]) => {
    const value = tuning.knobValue(to, name);
    if (name === tuning.ARM_RATIO || value === undefined || value === tuning.knobValue(from, name)) return [];
    const path = name === "mass" || name === "diameter" ? `projectile.${name}` : `machine.${name}`;
    // Sizes that follow from a ratio have no end of digits: a tenth of a millimetre can be built.
    const built = dimension === "length" ? Number(value.toFixed(4)) : value;
    return [{ path, quantity: quantityOf(built, dimension, system) }];
  });
}

/** A copy of the chosen revision that holds another machine, and why. */
export const asRevision = (
  from: HazardRequest,
  to: HazardRequest,
  { id, name, note }: { id: string; name: string; note: string },
  system: UnitSystem,
): BenchAction[] => [
  { do: "copy", id, name },
  { do: "describe", id, note },
  ...changedFields(from, to, system).map(
    (field): BenchAction => ({ do: "form", change: { type: "quantity", ...field } }),
  ),
];
