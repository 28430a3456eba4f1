"use client";
import { useState } from "react";
import { LongTextField, TextField } from "@/app/_ui/field";
import { Notice } from "@/app/_ui/notice";
import { QuantityField, quantityOf, quantityProblem } from "@/app/_ui/quantity-field";
import { useUnits } from "@/app/_ui/units";
import { WriteForm } from "@/app/_ui/write/write-form";
import type { SafetyPlan, SafetyPlanAnswer } from "@/lib/api/contracts";
import { BRIEFINGS, briefedText, NATURE, planOf, SECTIONS, shown, type TextAsked } from "./plan-fields";

/** Sound's way in a second, km: what a flash counted to its thunder means. */
const SOUND = 0.34;

export function PlanForm({ slug, plan, updatedAt }: SafetyPlanAnswer & { slug: string }) {
  const system = useUnits();
  const [visibility, setVisibility] = useState(() => quantityOf(plan.light.visibility, "distance", system));
  return (
    <>
      {updatedAt === null && <Notice title="No safety plan is saved yet" />}
      <WriteForm<SafetyPlanAnswer>
        label="The safety plan"
        method="PUT"
        url={`/api/v1/contests/${slug}/safety-plan`}
        submit="Save the safety plan"
        body={(form) => {
          const wrong = quantityProblem("Visibility", visibility, "distance", system, true);
          const content = wrong ?? planOf(form, visibility.value);
          return typeof content === "string" ? content : { plan: content, replaces: updatedAt };
        }}
        done={() => <p>The safety plan is saved. Safety files frozen before keep the one they had.</p>}
      >
        {(errorFor) => (
          <>
            {SECTIONS.map(({ title, fields }) => (
              <section key={title}>
                <h2>{title}</h2>
                <Texts fields={fields} plan={plan} errorFor={errorFor} />
              </section>
            ))}
            <h2>Lightning and light</h2>
            <TextField
              id="plan-flash"
              name="lightning.flashToBang"
              inputMode="numeric"
              label="Stop when thunder follows a flash within, seconds"
              help={`Sound takes about 3 s for a kilometre (5 s for a mile): ${plan.lightning.flashToBang} s is about ${Math.round(plan.lightning.flashToBang * SOUND)} km. Common practice, no source: 30 s.`}
              defaultValue={plan.lightning.flashToBang}
              error={errorFor("plan.lightning.flashToBang")}
            />
            <TextField
              id="plan-wait"
              name="lightning.wait"
              inputMode="numeric"
              label="Wait after the last thunder, minutes"
              help="Common practice, no source: 30 min."
              defaultValue={plan.lightning.wait / 60}
              error={errorFor("plan.lightning.wait")}
            />
            <TextField
              id="plan-earliest"
              name="light.earliest"
              type="time"
              label="No shot before"
              optional
              defaultValue={plan.light.earliest ?? ""}
              error={errorFor("plan.light.earliest")}
            />
            <TextField
              id="plan-latest"
              name="light.latest"
              type="time"
              label="No shot after"
              optional
              defaultValue={plan.light.latest ?? ""}
              error={errorFor("plan.light.latest")}
            />
            <QuantityField
              id="plan-visibility"
              label="A person must still be seen at"
              fieldName="Visibility"
              dimension="distance"
              quantity={visibility}
              onChange={setVisibility}
              optional
              help="Fog, dust, dusk. Common practice, no source: the far end of the longest zone."
              error={errorFor("plan.light.visibility")}
            />
            <h2>Field and grass</h2>
            <Texts fields={NATURE} plan={plan} errorFor={errorFor} />
            <h2>Briefings</h2>
            <Texts fields={BRIEFINGS} plan={plan} errorFor={errorFor} />
            <Text
              asked={{
                path: "briefed",
                label: "Who is briefed and signs, one a line: role or team; when",
                help: "Such as: Judges; before the gates open. Each gets a line to sign on paper.",
                rows: 6,
              }}
              value={briefedText(plan.briefed)}
              error={errorFor("plan.briefed")}
            />
          </>
        )}
      </WriteForm>
    </>
  );
}

function Texts({
  fields,
  plan,
  errorFor,
}: {
  fields: readonly TextAsked[];
  plan: SafetyPlan;
  errorFor: (field: string) => string | null;
}) {
  return fields.map((asked) => (
    <Text
      key={asked.path}
      asked={asked}
      value={shown(plan, asked.path)}
      error={
        errorFor(`plan.${asked.path}`) ??
        (asked.path.endsWith(".at") ? errorFor(`plan.${asked.path}.latitude`) : null)
      }
    />
  ));
}

function Text({ asked, value, error }: { asked: TextAsked; value: string; error: string | null }) {
  const { path, label, help, rows } = asked;
  const words = { id: `plan-${path.replace(".", "-")}`, label, help, error };
  if (!rows) return <TextField {...words} name={path} defaultValue={value} />;
  return <LongTextField {...words} name={path} rows={rows} defaultValue={value} />;
}
