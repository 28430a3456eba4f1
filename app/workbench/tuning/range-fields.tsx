"use client";
/** Which numbers the search may turn, and between what. */
import { CheckField } from "@/app/_ui/field";
import { requestProblem } from "@/app/_ui/machine-form/form/request";
import { type Quantity, QuantityField, quantityOf } from "@/app/_ui/quantity-field";
import { type HazardRequest, tuning } from "@/lib/throw";
import type { UnitSystem } from "@/lib/units";
import styles from "./tuning.module.css";
import { knobText } from "./words";

/** By knob; what is not turned is absent. */
export type RangeTexts = Readonly<Record<string, { low: Quantity; high: Quantity }>>;

/** The ranges as they stand, and what is wrong with them. */
export function rangesIn(
  request: HazardRequest,
  knobs: readonly tuning.Knob[],
  texts: RangeTexts,
  system: UnitSystem,
) {
  const beyond = (label: string, value: number, name: string) => {
    const why = requestProblem(tuning.withValues(request, { [name]: value }), system);
    return `${label}: the range reaches beyond what can be declared. ${why ?? "Narrow it."}`;
  };
  const declarable = (name: string, value: number) =>
    tuning.isInRange(tuning.withValues(request, { [name]: value }));
  const problems: string[] = [];
  const ranges: tuning.Range[] = [];
  for (const { name, label } of knobs) {
    const range = texts[name];
    if (!range) continue;
    const { low, high } = { low: range.low.value, high: range.high.value };
    if (low === null || high === null) problems.push(`${label}: enter both ends of its range.`);
    else if (!(low < high)) problems.push(`${label}: the range must end above where it begins.`);
    else if (!declarable(name, low) || !declarable(name, high))
      problems.push(beyond(label, declarable(name, low) ? high : low, name));
    else ranges.push({ name, low, high });
  }
  if (Object.keys(texts).length === 0) problems.push("Choose at least one number that may be turned.");
  return { problems, ranges };
}

export function RangeFields({
  knobs,
  texts,
  onChange,
  system,
}: {
  knobs: readonly tuning.Knob[];
  texts: RangeTexts;
  onChange: (texts: RangeTexts) => void;
  system: UnitSystem;
}) {
  return (
    <fieldset className={styles.ranges}>
      <legend>What it may turn, and between what</legend>
      {knobs.map(({ name, label, dimension, present, low, high }) => {
        const range = texts[name];
        const usual = () => ({
          low: quantityOf(low, dimension, system),
          high: quantityOf(high, dimension, system),
        });
        const { [name]: _, ...others } = texts;
        return (
          <div key={name} className={styles.range}>
            <CheckField
              id={`range-${name}`}
              label={`${label}, now ${knobText(present, dimension, system)}`}
              checked={range !== undefined}
              onChange={(event) => onChange(event.target.checked ? { ...others, [name]: usual() } : others)}
            />
            {range ? (
              <div className={styles.pair}>
                {(["low", "high"] as const).map((end) => (
                  <QuantityField
                    key={end}
                    id={`range-${name}-${end}`}
                    label={
                      <>
                        {end === "low" ? "From" : "To"}
                        <span className="aloud"> ({label})</span>
                      </>
                    }
                    fieldName={`${label}, ${end === "low" ? "from" : "to"}`}
                    dimension={dimension}
                    quantity={range[end]}
                    onChange={(quantity) => onChange({ ...texts, [name]: { ...range, [end]: quantity } })}
                  />
                ))}
              </div>
            ) : null}
          </div>
        );
      })}
    </fieldset>
  );
}
