"use client";
import { useEffect, useState } from "react";
import { instantOf, localText } from "@/app/_ui/clock-fields";
import { SelectField, TextField } from "@/app/_ui/field";
import { textOf } from "@/app/_ui/write/form-values";
import { WriteForm } from "@/app/_ui/write/write-form";
import type { Role } from "@/lib/api/contracts";
import { type MadeBadge, NewCode } from "./new-code";

export type Entrants = readonly { id: string; name: string; number: number }[];

/** An empty end is none, which only an organiser's badge may have; a text that is no time is a sentence. */
export const endIn = (form: FormData): string | null => {
  const text = textOf(form, "endsAt");
  return text === "" ? null : instantOf(text);
};

export function BadgeForm({
  slug,
  contest,
  entrants,
  usualEnd,
}: {
  slug: string;
  contest: string;
  entrants: Entrants;
  usualEnd: string;
}) {
  const [role, setRole] = useState<Role>("judge");
  const [made, setMade] = useState<MadeBadge | null>(null);
  // In the zone of this device, which the server does not know.
  const [end, setEnd] = useState("");
  useEffect(() => setEnd(localText(usualEnd)), [usualEnd]);
  return (
    <>
      <WriteForm<MadeBadge>
        label="Make a badge"
        url={`/api/v1/contests/${slug}/badges`}
        fields={["role", "label", "entrantId", "endsAt"]}
        body={(form) => ({
          role,
          label: textOf(form, "label"),
          endsAt: endIn(form),
          ...(role === "team" ? { entrantId: textOf(form, "entrantId") } : {}),
        })}
        submit="Make the badge"
        onDone={setMade}
      >
        {(errorFor) => (
          <>
            <SelectField
              id="badge-role"
              label="Role"
              value={role}
              onChange={(event) => setRole(event.target.value as Role)}
              error={errorFor("role")}
              choices={[
                { value: "judge", label: "Judge: enters landing points" },
                { value: "safety-officer", label: "Safety officer: policy, air, rulings" },
                { value: "organiser", label: "Organiser: everything else" },
                { value: "team", label: "Team: declares its own machine" },
              ]}
            />
            {role === "team" && (
              <SelectField
                id="badge-entrant"
                name="entrantId"
                label="Team"
                error={errorFor("entrantId")}
                choices={entrants.map(({ id, name, number }) => ({ value: id, label: `${number} ${name}` }))}
              />
            )}
            <TextField
              id="badge-label"
              name="label"
              label="Label"
              help="What the scorebook shows, such as “Judge 1”: no person’s name."
              required
              error={errorFor("label")}
            />
            <TextField
              key={end}
              id="badge-end"
              name="endsAt"
              type="datetime-local"
              defaultValue={end}
              label="Ends"
              help={
                role === "organiser"
                  ? "By this device’s clock. Left empty it is an account: no end, and its code signs in again and again."
                  : "By this device’s clock. Its devices are told before; you can give more time later."
              }
              error={errorFor("endsAt")}
            />
          </>
        )}
      </WriteForm>
      <div aria-live="polite">
        {made && <NewCode made={made} contest={contest} onDone={() => setMade(null)} />}
      </div>
    </>
  );
}
