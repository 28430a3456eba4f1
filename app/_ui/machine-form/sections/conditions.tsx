"use client";
/** What is thrown, through which air and over which ground. */
import { SelectField } from "@/app/_ui/field";
import { PROJECTILE_SHAPES } from "@/lib/throw";
import { airFields, dragFields, projectileFields, terrainFields, windFields } from "../form/fields";
import type { Options } from "../form/state";
import { Fields, Fold, type SectionProps } from "./fields";

const shapeLabels: Record<Options["shape"], string> = {
  "smooth-sphere": "Smooth ball",
  "rough-sphere": "Rough ball",
  pumpkin: "Pumpkin",
  irregular: "Irregular",
};

export function ProjectileSection(props: SectionProps) {
  const { form, change } = props;
  return (
    <section>
      <h2>Projectile</h2>
      <div className="field-grid">
        <Fields specs={projectileFields} {...props} />
        <SelectField
          id="field-shape"
          label="Shape"
          help="Sets drag and lift unless they are given."
          choices={PROJECTILE_SHAPES.map((value) => ({ value, label: shapeLabels[value] }))}
          value={form.options.shape}
          onChange={(event) =>
            change({ type: "option", option: { shape: event.target.value as Options["shape"] } })
          }
        />
      </div>
      <Fold title="Drag and lift">
        <div className="field-grid">
          <Fields specs={dragFields} {...props} />
        </div>
      </Fold>
    </section>
  );
}

export function AirSection(props: SectionProps) {
  return (
    <section>
      <h2>Wind, air and ground</h2>
      <p>The strongest wind in which it may be fired counts, not today's.</p>
      <div className="field-grid">
        <Fields specs={windFields} {...props} />
      </div>
      <Fold title="The day's air">
        <div className="field-grid">
          <Fields specs={airFields} {...props} />
        </div>
      </Fold>
      <Fold title="Ground that lies lower or slopes">
        <p>A throw flies farther where the ground falls away. The machine itself stands on level ground.</p>
        <div className="field-grid">
          <Fields specs={terrainFields} {...props} />
        </div>
      </Fold>
    </section>
  );
}
