"use client";
/** The numbers of one section: typed in either units, kept through reloads, told when they mean nothing. */
import { useCallback, useEffect, useState } from "react";
import { keptText } from "@/app/_ui/kept-text";
import { type Quantity, quantityProblem } from "@/app/_ui/quantity-field";
import { useUnits } from "@/app/_ui/units";
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
  const [form, setForm] = useState(() => startingForm(asks, options, system));
  const [loaded, setLoaded] = useState(false);
  useEffect(() => {
    if (loaded) setForm((before) => formFromText(JSON.stringify(before), asks, options, system));
    else {
      const text = keptText(key).read();
      if (!isForm(text)) keptText(key).setAside();
      setForm(formFromText(text, asks, options, system));
    }
    setLoaded(true);
  }, [key, asks, options, system, loaded]);
  useEffect(() => {
    if (loaded) keptText(key).write(JSON.stringify(form));
  }, [key, form, loaded]);
  // Another tab may fill in the same section.
  useEffect(
    () =>
      keptText(key).hear((text) => {
        if (isForm(text)) setForm(formFromText(text, asks, options, system));
        else keptText(key).hold();
      }),
    [key, asks, options, system],
  );

  const set = useCallback(
    (name: Name, quantity: Quantity) =>
      setForm((before) => ({ ...before, quantities: { ...before.quantities, [name]: quantity } })),
    [],
  );
  const choose = useCallback(
    (name: Choice, value: string) =>
      setForm((before) => ({ ...before, choices: { ...before.choices, [name]: value } })),
    [],
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
