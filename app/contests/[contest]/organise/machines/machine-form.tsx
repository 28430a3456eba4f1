"use client";
import Link from "next/link";
import { SelectField, TextField } from "@/app/_ui/field";
import { textOf } from "@/app/_ui/write/form-values";
import { WriteForm } from "@/app/_ui/write/write-form";

export function MachineForm({
  slug,
  entrants,
}: {
  slug: string;
  entrants: readonly { id: string; number: number; name: string }[];
}) {
  return (
    <WriteForm<{ id: string; name: string }>
      label="Enter a machine"
      url={`/api/v1/contests/${slug}/machines`}
      fields={["entrantId", "name"]}
      body={(form) => ({ entrantId: textOf(form, "entrantId"), name: textOf(form, "name") })}
      submit="Enter the machine"
      done={({ id, name }) => (
        <p>
          {name} is entered. Next: <Link href={`/contests/${slug}/machines/${id}`}>declare what it is</Link>.
        </p>
      )}
    >
      {(errorFor) => (
        <>
          <SelectField
            id="machine-team"
            name="entrantId"
            label="Team"
            error={errorFor("entrantId")}
            choices={entrants.map(({ id, number, name }) => ({ value: id, label: `${number} ${name}` }))}
          />
          <TextField
            id="machine-name"
            name="name"
            label="Name of the machine"
            required
            error={errorFor("name")}
          />
        </>
      )}
    </WriteForm>
  );
}
