/** What a section's form holds, as it starts and as it comes back from what was kept. Pure. */
import { type Quantity, quantityOf } from "@/app/_ui/quantity-field";
import type { UnitSystem } from "@/app/_ui/units-cookie";
import type { Asked, Asks, Options } from "./asks";

export interface Form<Name extends string, Choice extends string> {
  /** The units the texts are written in. */
  system: UnitSystem;
  quantities: Readonly<Record<Name, Quantity>>;
  choices: Readonly<Record<Choice, string>>;
}

export const startingForm = <Name extends string, Choice extends string>(
  asks: Asks<Name>,
  options: Options<Choice>,
  system: UnitSystem,
): Form<Name, Choice> => ({
  system,
  quantities: Object.fromEntries(
    (Object.entries(asks) as [Name, Asked][]).map(([name, { dimension, start }]) => [
      name,
      quantityOf(start, dimension, system),
    ]),
  ) as Record<Name, Quantity>,
  choices: Object.fromEntries(
    (Object.entries(options) as [Choice, readonly string[]][]).map(([name, [first]]) => [name, first ?? ""]),
  ) as Record<Choice, string>,
});

/** Whether a text can be one of ours at all: what cannot is not written over. */
export function isForm(text: string | null): boolean {
  try {
    const kept = JSON.parse(text ?? "{}");
    return typeof kept === "object" && kept !== null && !Array.isArray(kept);
  } catch {
    return false;
  }
}

/** In the reader's units; whatever is not there or not ours as it starts. */
export function formFromText<Name extends string, Choice extends string>(
  text: string | null,
  asks: Asks<Name>,
  options: Options<Choice>,
  system: UnitSystem,
): Form<Name, Choice> {
  const start = startingForm(asks, options, system);
  let kept: Partial<Form<string, string>> | null;
  try {
    kept = JSON.parse(text ?? "null");
  } catch {
    return start;
  }
  if (typeof kept !== "object" || kept === null) return start;
  const { quantities, choices, system: before } = kept;
  return {
    system,
    quantities: Object.fromEntries(
      (Object.entries(asks) as [Name, Asked][]).map(([name, { dimension }]) => {
        const found = quantities?.[name];
        if (typeof found?.text !== "string") return [name, start.quantities[name]];
        const value = typeof found.value === "number" && Number.isFinite(found.value) ? found.value : null;
        if (before === system) return [name, { text: found.text, value }];
        return [name, value === null ? start.quantities[name] : quantityOf(value, dimension, system)];
      }),
    ) as Record<Name, Quantity>,
    choices: Object.fromEntries(
      (Object.entries(options) as [Choice, readonly string[]][]).map(([name, offered]) => [
        name,
        offered.find((each) => each === choices?.[name]) ?? start.choices[name],
      ]),
    ) as Record<Choice, string>,
  };
}
