"use client";
import { SelectField, TextField } from "@/app/_ui/field";
import { textOf } from "@/app/_ui/write/form-values";
import { WriteForm } from "@/app/_ui/write/write-form";
import type { ProtestInfo } from "@/lib/api/contracts";

/** A team its own protest; an official, who sees the list of teams, for one of them and late ones too. */
export function ProtestForm({
  slug,
  shotId,
  own,
  teams,
}: {
  slug: string;
  shotId: string;
  own: string;
  teams: readonly { id: string; name: string }[];
}) {
  const official = teams.length > 0;
  return (
    <section>
      <h2>Protest against this shot</h2>
      <WriteForm<ProtestInfo>
        label="Enter a protest"
        url={`/api/v1/contests/${slug}/protests`}
        fields={["entrantId", "text", "lateReason"]}
        body={(form) => ({
          shotId,
          entrantId: official ? textOf(form, "entrantId") : own,
          text: textOf(form, "text"),
          ...(textOf(form, "lateReason") !== "" && { lateReason: textOf(form, "lateReason") }),
        })}
        submit="Enter this protest"
        done={() => <p>The protest is entered, and an official will rule on it.</p>}
      >
        {(errorFor) => (
          <>
            {official && (
              <SelectField
                id="protest-team"
                name="entrantId"
                label="For the team"
                defaultValue={own}
                error={errorFor("entrantId")}
                choices={teams.map(({ id, name }) => ({ value: id, label: name }))}
              />
            )}
            <TextField
              id="protest-text"
              name="text"
              label="What is protested, and why"
              help="All can read it here; no person’s name."
              required
              error={errorFor("text")}
            />
            {official && (
              <TextField
                id="protest-late"
                name="lateReason"
                label="Why it is taken in after the deadline"
                optional
                error={errorFor("lateReason")}
              />
            )}
          </>
        )}
      </WriteForm>
    </section>
  );
}
