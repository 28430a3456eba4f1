"use client";
import { SelectField, TextField } from "@/app/_ui/field";
import type { OnEntry } from "./use-own-entry";

export function TeamPart({ entry: { own, draft, setValues } }: { entry: OnEntry }) {
  const { team, divisionId } = draft.values;
  return (
    <>
      <TextField
        id="entry-team-name"
        label="Team name"
        help="What the public sees; no person’s name."
        maxLength={80}
        value={team}
        onChange={(event) => setValues({ team: event.target.value })}
      />
      <SelectField
        id="entry-division"
        label="Division"
        value={divisionId ?? ""}
        onChange={(event) => setValues({ divisionId: event.target.value || null })}
        choices={[
          { value: "", label: "Choose one" },
          ...own.invitation.divisions.map(({ id, name }) => ({ value: id, label: name })),
        ]}
      />
    </>
  );
}
