"use client";
/** What a team may declare beside its machine's numbers: how well it knows them, and what the parts bear. */
import { strengthChoices, strengthFields, toleranceFields } from "../form/fields";
import { parametersOf } from "../form/machine-specs";
import { quantityAt } from "../form/state";
import { projectileToleranceWords, toleranceWords } from "../form/tolerance-words";
import { Choices, Fields, Fold, type SectionProps } from "./fields";

export function ToleranceSection(props: SectionProps) {
  const { form } = props;
  const parameters = new Map(parametersOf(form.kind).map((each) => [each.name, each]));
  const specs = toleranceFields(form.kind).map((spec) => {
    const name = spec.path.slice("tolerances.".length);
    const parameter = parameters.get(name);
    const help = parameter
      ? toleranceWords(parameter, quantityAt(form, `machine.${name}`).value, form.system)
      : projectileToleranceWords(spec.dimension, quantityAt(form, `projectile.${name}`).value, form.system);
    return { ...spec, help };
  });
  return (
    <Fold title="Tolerances: how well each number is known">
      <p>
        The ± of each number, in its own unit. The worst throws are sought over all that lies within. 0 says
        that a number is exact.
      </p>
      <div className="field-grid">
        <Fields specs={specs} {...props} />
      </div>
    </Fold>
  );
}

export function StrengthSection(props: SectionProps) {
  return hasStrengths(props.form.kind) ? (
    <Fold title="Strengths: what the parts bear">
      <StrengthFields {...props} />
    </Fold>
  ) : null;
}

/** Whether anything of a kind can be declared to bear something. */
export const hasStrengths = (kind: SectionProps["form"]["kind"]): boolean =>
  strengthChoices(kind).length + strengthFields(kind).length > 0;

/** The same without its fold, for a page that is about them. */
export function StrengthFields(props: SectionProps) {
  const { kind } = props.form;
  const choices = strengthChoices(kind);
  const fields = strengthFields(kind);
  const part = (title: string, ...prefixes: string[]) => {
    const inPart = ({ path }: { path: string }) =>
      prefixes.some((prefix) => path === `strengths.${prefix}` || path.startsWith(`strengths.${prefix}.`));
    const own = { choices: choices.filter(inPart), fields: fields.filter(inPart) };
    return own.choices.length + own.fields.length === 0 ? null : (
      <section key={title} aria-label={`Strength: ${title.toLowerCase()}`}>
        <h3>{title}</h3>
        <div className="field-grid">
          <Choices specs={own.choices} {...props} />
          <Fields specs={own.fields} {...props} />
        </div>
      </section>
    );
  };
  return (
    <>
      <p>
        For the reserves on the sheet. What is not declared has no reserve; nothing is ever assumed to hold.
      </p>
      {part("Sling", "sling")}
      {part("Arm", "arm")}
      {part("Pivot, hanger and stop", "pivot", "hanger", "stop")}
      {part("Frame on the ground", "frame")}
    </>
  );
}
