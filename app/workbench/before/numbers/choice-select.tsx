"use client";
/** One of a section's choices, kept with its numbers. */
import { SelectField } from "@/app/_ui/field";
import type { Numbers } from "./use-numbers";

export function ChoiceSelect<Choice extends string>({
  id,
  name,
  label,
  help,
  numbers,
  values,
  words,
}: {
  /** The section's, unlike any other on the page. */
  id: string;
  name: Choice;
  label: string;
  help: string;
  numbers: Pick<Numbers<never, Choice>, "form" | "choose">;
  values: readonly string[];
  words: Readonly<Record<string, string>>;
}) {
  return (
    <SelectField
      id={`${id}-${name}`}
      label={label}
      help={help}
      value={numbers.form.choices[name]}
      onChange={(event) => numbers.choose(name, event.target.value)}
      choices={values.map((value) => ({ value, label: words[value] ?? value }))}
    />
  );
}
