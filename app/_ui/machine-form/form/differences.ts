/** In what several forms differ, number by number. Pure. */
import type { UnitSystem } from "@/app/_ui/units-cookie";
import { machineKind } from "@/lib/throw";
import { formatQuantity } from "@/lib/units";
import { askedChoices, choiceAt, type FormState, fieldsOf, quantityAt } from "./state";

export interface Difference {
  label: string;
  /** One for each form, in order. */
  texts: string[];
}

/** Kind, choices and fields of which not all forms have the same; fields that a form does not ask for are a dash. */
export function differences(forms: readonly FormState[], system: UnitSystem): Difference[] {
  const rows = new Map<string, Difference & { values: unknown[] }>();
  const put = (key: string, label: string, index: number, text: string, value: unknown = text) => {
    const row = rows.get(key) ?? { label, texts: forms.map(() => "–"), values: forms.map(() => undefined) };
    row.texts[index] = text;
    row.values[index] = value;
    rows.set(key, row);
  };
  for (const [index, form] of forms.entries()) {
    put("kind", "Kind", index, machineKind(form.kind).title);
    for (const spec of askedChoices(form)) {
      const value = choiceAt(form, spec);
      put(spec.path, spec.label, index, spec.options.find((each) => each.value === value)?.label ?? value);
    }
    for (const { path, label, dimension } of fieldsOf(form)) {
      const { value, text } = quantityAt(form, path);
      put(
        path,
        label,
        index,
        value === null ? text || "left empty" : formatQuantity(value, dimension, system),
        value ?? text,
      );
    }
  }
  return [...rows.values()].flatMap(({ label, texts, values }) =>
    new Set(values).size > 1 ? [{ label, texts }] : [],
  );
}
