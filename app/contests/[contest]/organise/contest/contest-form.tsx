"use client";
import { ContestFields, PARTICULARS, particularsIn } from "@/app/_ui/contest-fields";
import { TextField } from "@/app/_ui/field";
import { textOf } from "@/app/_ui/write/form-values";
import { WriteForm } from "@/app/_ui/write/write-form";
import type { ContestSummary } from "@/lib/api/contracts";

export function ContestForm({ contest }: { contest: ContestSummary }) {
  return (
    <WriteForm
      label="Particulars of the contest"
      method="PATCH"
      url={`/api/v1/contests/${contest.slug}`}
      fields={["name", ...PARTICULARS]}
      // An emptied height or declination is the 0 that the form says it is.
      body={(form) => ({ name: textOf(form, "name"), height: 0, declination: 0, ...particularsIn(form) })}
      submit="Save the particulars"
      done={() => (
        <p>
          Saved. Landing points entered before keep the declination that they were entered with; pegs and
          firing points keep the heights that somebody gave them, the others have the contest&rsquo;s.
        </p>
      )}
    >
      {(errorFor) => (
        <>
          <TextField
            id="contest-name"
            name="name"
            label="Name of the contest"
            required
            defaultValue={contest.name}
            error={errorFor("name")}
          />
          <ContestFields values={contest} errorFor={errorFor} />
        </>
      )}
    </WriteForm>
  );
}
