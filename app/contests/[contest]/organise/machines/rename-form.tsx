"use client";
import { useState } from "react";
import { SelectField, TextField } from "@/app/_ui/field";
import { textOf } from "@/app/_ui/write/form-values";
import { WriteForm } from "@/app/_ui/write/write-form";

export function RenameForm({
  slug,
  machines,
}: {
  slug: string;
  machines: readonly { id: string; name: string }[];
}) {
  const [id, setId] = useState(machines[0]?.id ?? "");
  return (
    <WriteForm<{ name: string }>
      label="Put a machine's name right"
      method="PATCH"
      url={`/api/v1/contests/${slug}/machines/${id}`}
      fields={["name"]}
      body={(form) => ({ name: textOf(form, "newName") })}
      submit="Change the name"
      look="plain"
      done={({ name }) => <p>It is called {name} now.</p>}
    >
      {(errorFor) => (
        <>
          <SelectField
            id="rename-machine"
            label="Machine"
            value={id}
            onChange={(event) => setId(event.target.value)}
            choices={machines.map((machine) => ({ value: machine.id, label: machine.name }))}
          />
          <TextField id="rename-name" name="newName" label="Its name" required error={errorFor("name")} />
        </>
      )}
    </WriteForm>
  );
}
