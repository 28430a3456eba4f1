"use client";
import { SelectField, TextField } from "@/app/_ui/field";
import { SeenFields, seenIn } from "@/app/_ui/seen-fields";
import { textOf } from "@/app/_ui/write/form-values";
import { WriteForm } from "@/app/_ui/write/write-form";
import type { IncidentInfo, IncidentReceipt } from "@/lib/api/contracts";
import { HURT_WORDS, PART_WORDS } from "../words";

const choices = (words: Record<string, string>) =>
  Object.entries(words).map(([value, label]) => ({ value, label }));

/** A correction is a new report; the one before is kept. */
export function ReportForm({ slug, incident }: { slug: string; incident: IncidentInfo }) {
  return (
    <details>
      <summary>Correct the report</summary>
      <WriteForm<IncidentReceipt>
        label="Correct the report"
        url={`/api/v1/contests/${slug}/incidents/${incident.id}/reports`}
        fields={["part", "hurt", "reason", "observedAt", "witness"]}
        body={(form) => ({
          part: textOf(form, "part"),
          hurt: textOf(form, "hurt"),
          reason: textOf(form, "reason"),
          ...seenIn(form),
        })}
        submit="Correct the report"
        look="plain"
        done={({ held }) => <p>Corrected.{held && " The range is on hold for it."}</p>}
      >
        {(errorFor) => (
          <>
            <SelectField
              id="report-part"
              name="part"
              label="What failed"
              defaultValue={incident.part}
              choices={choices(PART_WORDS)}
              error={errorFor("part")}
            />
            <SelectField
              id="report-hurt"
              name="hurt"
              label="Is anybody hurt"
              defaultValue={incident.hurt}
              choices={choices(HURT_WORDS)}
              error={errorFor("hurt")}
            />
            <SeenFields id="report" errorFor={errorFor} />
            <TextField
              id="report-reason"
              name="reason"
              label="Why it is corrected"
              help="Kept with the other words of this incident, and erased with them."
              required
              error={errorFor("reason")}
            />
          </>
        )}
      </WriteForm>
    </details>
  );
}
