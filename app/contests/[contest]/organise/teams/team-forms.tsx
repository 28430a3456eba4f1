"use client";
import { SelectField, TextField } from "@/app/_ui/field";
import { numberOrNothing, textOf } from "@/app/_ui/write/form-values";
import { WriteForm } from "@/app/_ui/write/write-form";

export function DivisionForm({ slug }: { slug: string }) {
  return (
    <WriteForm<{ name: string }>
      label="Make a division"
      url={`/api/v1/contests/${slug}/divisions`}
      fields={["name"]}
      body={(form) => ({ name: textOf(form, "name") })}
      submit="Make the division"
      look="plain"
      done={({ name }) => <p>Division {name} is made.</p>}
    >
      {(errorFor) => (
        <TextField
          id="division-name"
          name="name"
          label="Division"
          help="A class of machine, such as “Counterweight, over 200 kg”."
          required
          error={errorFor("name")}
        />
      )}
    </WriteForm>
  );
}

export function EntrantForm({
  slug,
  divisions,
}: {
  slug: string;
  divisions: readonly { id: string; name: string }[];
}) {
  return (
    <WriteForm<{ name: string; number: number }>
      label="Enter a team"
      url={`/api/v1/contests/${slug}/entrants`}
      fields={["name", "divisionId", "number"]}
      body={(form) => ({
        name: textOf(form, "name"),
        divisionId: textOf(form, "divisionId"),
        ...numberOrNothing(form, "number"),
      })}
      submit="Enter the team"
      done={({ name, number }) => (
        <p>
          {name} is entered with number {number}.
        </p>
      )}
    >
      {(errorFor) => (
        <>
          <TextField
            id="entrant-name"
            name="name"
            label="Team"
            help="The name the public sees; no person’s name."
            required
            error={errorFor("name")}
          />
          <SelectField
            id="entrant-division"
            name="divisionId"
            label="Division"
            error={errorFor("divisionId")}
            choices={divisions.map(({ id, name }) => ({ value: id, label: name }))}
          />
          <TextField
            id="entrant-number"
            name="number"
            label="Number"
            help="The next free one if left empty."
            optional
            inputMode="numeric"
            error={errorFor("number")}
          />
        </>
      )}
    </WriteForm>
  );
}
