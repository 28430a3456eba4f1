"use client";
/** The safety officer's margins and the rule of what may be thrown. */
import { Caution } from "@/app/_ui/caution";
import { CheckField, SelectField, TextField } from "@/app/_ui/field";
import { GROUND_FIRMNESS } from "@/lib/throw";
import { fieldId, policyFields, ruleFields } from "../form/fields";
import type { Options } from "../form/state";
import { Fields, Fold, type SectionProps } from "./fields";

const groundLabels: Record<Options["ground"], string> = { soft: "Soft", firm: "Firm", hard: "Hard" };

export function PolicySection(props: SectionProps) {
  const { form, change, errors } = props;
  const { options } = form;
  return (
    <Fold title="Policy: margins and angles">
      <Caution kind="mandatory" title="the safety officer's alone">
        <p>
          These are common practice, with no source behind them. At a contest only its safety officer sets
          them; here they show what follows from each.
        </p>
      </Caution>
      <div className="field-grid">
        <Fields specs={policyFields} {...props} />
        <SelectField
          id="field-ground"
          label="Ground"
          help="Sets bounce and roll after the first impact."
          choices={GROUND_FIRMNESS.map((value) => ({ value, label: groundLabels[value] }))}
          value={options.ground}
          onChange={(event) =>
            change({ type: "option", option: { ground: event.target.value as Options["ground"] } })
          }
        />
      </div>
      <h3>What may be thrown</h3>
      <p>
        The contest&rsquo;s rule, where it allows more than the projectile above: worst throws count all of
        it.
      </p>
      <div className="field-grid">
        <Fields specs={ruleFields} {...props} />
      </div>
      <CheckField
        id="field-hangUp"
        label="Hang-ups count"
        help="The loop does not slip and the projectile whirls on. Leaving them out takes a reason."
        checked={options.hangUp}
        onChange={(event) => change({ type: "option", option: { hangUp: event.target.checked } })}
      />
      {options.hangUp ? null : (
        <TextField
          id={fieldId("policy.hangUpReason")}
          label="Why hang-ups are left out"
          help="Stands on the sheet."
          maxLength={500}
          value={options.hangUpReason}
          error={errors["policy.hangUpReason"]}
          onChange={(event) => change({ type: "option", option: { hangUpReason: event.target.value } })}
        />
      )}
    </Fold>
  );
}
