"use client";
/** What the machine and the site can bear. */
import { type Quantity, QuantityField, quantityOf, quantityProblem } from "@/app/_ui/quantity-field";
import { tuning } from "@/lib/throw";
import type { Dimension, UnitSystem } from "@/lib/units";
import type { Answers } from "./questions";
import styles from "./tuning.module.css";
import { measureText } from "./words";

/** What was typed, by limit; absent while it stands as declared strengths have it. */
export type LimitTexts = Readonly<Partial<Record<tuning.Measure, Quantity>>>;

const fields: Record<tuning.Measure, { label: string; dimension: Dimension; help: string }> = {
  slingPull: {
    label: "Pull in the sling at most",
    dimension: "force",
    help: "Until the loop slips, jerks included: the rope's rating, knotted and wet, over its design factor. When the projectile hangs up the sling is pulled harder.",
  },
  armReserve: {
    label: "Arm's reserve at least",
    dimension: "ratio",
    help: "How many times what bends it the arm bears, by the strength that is declared.",
  },
  stopEnergy: {
    label: "Energy at the end stop at most",
    dimension: "energy",
    help: "After a throw as meant or a dry fire, whichever is more. A sling that tears mid-swing can bring more yet.",
  },
  forward: {
    label: "Room ahead",
    dimension: "distance",
    help: "No release at these very numbers may land beyond. The keep-out zone is larger: margin, tolerances, bounce and roll come on top.",
  },
  backward: {
    label: "Room behind",
    dimension: "distance",
    help: "The same backwards: behind a machine stand the people.",
  },
};

/** The limits as they stand, and what is wrong with them. */
export function limitsIn(texts: LimitTexts, usual: tuning.Limits, system: UnitSystem) {
  const problems: string[] = [];
  const limits: tuning.Limits = {};
  for (const measure of tuning.MEASURES) {
    const { label, dimension } = fields[measure];
    const typed = texts[measure];
    const value = typed ? typed.value : usual[measure];
    const problem = typed ? quantityProblem(label, typed, dimension, system, true) : null;
    if (problem) problems.push(problem);
    else if (typeof value === "number" && !(value > 0))
      problems.push(`${label}: enter more than 0, or nothing.`);
    else if (typeof value === "number") limits[measure] = value;
  }
  return { problems, limits };
}

export function LimitFields({
  texts,
  onChange,
  measured,
  system,
}: {
  texts: LimitTexts;
  onChange: (texts: LimitTexts) => void;
  /** Of the revision as it is; null until it is known. */
  measured: Answers["measures"] | null;
  system: UnitSystem;
}) {
  const usual = measured?.usual ?? {};
  const shown = tuning.MEASURES.filter((measure) => measured?.evaluation?.[measure] != null);
  return (
    <fieldset className={styles.limits}>
      <legend>Limits, where there are any</legend>
      {shown.map((measure) => {
        const { label, dimension, help } = fields[measure];
        const now = measureText(measure, measured?.evaluation?.[measure] ?? null, system);
        return (
          <QuantityField
            key={measure}
            id={`limit-${measure}`}
            label={label}
            fieldName={label}
            dimension={dimension}
            optional
            help={`${help} Now ${now}.`}
            quantity={texts[measure] ?? quantityOf(usual[measure], dimension, system)}
            onChange={(quantity) => onChange({ ...texts, [measure]: quantity })}
          />
        );
      })}
      {measured && !shown.includes("armReserve") && shown.includes("slingPull") ? (
        <p>Declare the arm's material and section on the page Machine, and its reserve can be a limit too.</p>
      ) : null}
    </fieldset>
  );
}
