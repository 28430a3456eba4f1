"use client";
import { TextField } from "@/app/_ui/field";
import { textOf } from "@/app/_ui/write/form-values";
import { WriteForm } from "@/app/_ui/write/write-form";
import type { PermitInfo } from "@/lib/api/contracts";

/** Taking a permit back: at once, with a reason, for good. */
export function WithdrawForm({ slug, permit }: { slug: string; permit: PermitInfo }) {
  return (
    <details>
      <summary>Take permit {permit.number} back</summary>
      <WriteForm
        label={`Take permit ${permit.number} back`}
        url={`/api/v1/contests/${slug}/permits/${permit.id}/withdrawal`}
        fields={["reason"]}
        body={(form) => ({ reason: textOf(form, "reason") })}
        submit={`Take permit ${permit.number} back`}
        look="plain"
        done={() => <p>Taken back: the machine may not throw.</p>}
      >
        {(errorFor) => (
          <TextField
            id="withdraw-reason"
            name="reason"
            label="Why it is taken back"
            help="Stands in the scorebook for good, which all can read: no names of people."
            required
            error={errorFor("reason")}
          />
        )}
      </WriteForm>
    </details>
  );
}
