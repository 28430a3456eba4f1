"use client";
/** Everything that is entered of a machine and its throw but the policy: for pages on which nothing is official. */
import { MachineEntry } from "./drawing/machine-entry";
import { KindPicker } from "./kind-picker";
import { AirSection, ProjectileSection } from "./sections/conditions";
import { StrengthSection, ToleranceSection } from "./sections/declared";
import type { SectionProps } from "./sections/fields";

export function MachineSections(props: SectionProps) {
  const { form, change } = props;
  return (
    <>
      <KindPicker kind={form.kind} onKind={(kind) => change({ type: "kind", kind })} />
      <section aria-labelledby="machine-title">
        <h2 id="machine-title">The machine</h2>
        <p>
          The numbers are an invented example: put yours in their place. Units may be typed, such as 12 ft 6
          in or 3,5 m.
        </p>
        <MachineEntry {...props} />
      </section>
      <ProjectileSection {...props} />
      <AirSection {...props} />
      <ToleranceSection {...props} />
      <StrengthSection {...props} />
    </>
  );
}
