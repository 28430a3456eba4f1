"use client";
/** The numbers of one section: typed in either units, kept through reloads, told when they mean nothing. */
import { useCallback, useEffect } from "react";
import { type Quantity, quantityProblem } from "@/app/_ui/quantity-field";
import { useUnits } from "@/app/_ui/units";
import { useKept } from "../../kept/use-kept";
import { type Asks, type Options, outOfRange } from "./asks";
import { type Form, formFromText, isForm, startingForm } from "./form";

export interface Numbers<Name extends string, Choice extends string> {
  asks: Asks<Name>;
  form: Form<Name, Choice>;
  set: (name: Name, quantity: Quantity) => void;
  choose: (name: Choice, value: string) => void;
  /** SI; undefined where nothing usable is typed. */
  value: (name: Name) => number | undefined;
  /** Why what is typed cannot be used, in a sentence. */
  problem: (name: Name) => string | null;
  /** Labels of those that are typed and cannot be used: nothing may stand in their place unseen. */
  wrong: (names: readonly Name[]) => string[];
  /** Labels of those without a usable number. */
  missing: (...names: Name[]) => string[];
}

/** @param asks and `options` stay the same from call to call: constants of their module */
export function useNumbers<Name extends string, Choice extends string>(
  key: string,
  asks: Asks<Name>,
  options: Options<Choice>,
): Numbers<Name, Choice> {
  const system = useUnits();
  const [form, setForm, loaded] = useKept(
    key,
    () => startingForm(asks, options, system),
    (text) => (isForm(text) ? formFromText(text, asks, options, system) : null),
    JSON.stringify,
  );
  // Fields rewrite themselves when the units change; what is not shown then is rewritten here.
  useEffect(() => {
    if (loaded) setForm((before) => formFromText(JSON.stringify(before), asks, options, system));
  }, [asks, options, system, loaded, setForm]);

  const set = useCallback(
    (name: Name, quantity: Quantity) =>
      setForm((before) => ({ ...before, quantities: { ...before.quantities, [name]: quantity } })),
    [setForm],
  );
  const choose = useCallback(
    (name: Choice, value: string) =>
      setForm((before) => ({ ...before, choices: { ...before.choices, [name]: value } })),
    [setForm],
  );
  const problem = (name: Name): string | null => {
    const quantity = form.quantities[name];
    const { label, dimension } = asks[name];
    if (quantity.value === null) return quantityProblem(label, quantity, dimension, form.system, true);
    return outOfRange(asks[name], quantity.value);
  };
  const value = (name: Name) => (problem(name) ? undefined : (form.quantities[name].value ?? undefined));
  const wrong = (names: readonly Name[]) => names.filter(problem).map((name) => asks[name].label);
  const missing = (...names: Name[]) =>
    names.filter((name) => value(name) === undefined).map((name) => asks[name].label);
  return { asks, form, set, choose, value, problem, wrong, missing };
}
