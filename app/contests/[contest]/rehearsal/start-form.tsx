"use client";
/** What is played, how fast, and by whom. */
import { CheckField, SelectField, TextField } from "@/app/_ui/field";
import { textOf } from "@/app/_ui/write/form-values";
import { WriteForm } from "@/app/_ui/write/write-form";
import { type Rehearsal, TURNS_MOST } from "@/lib/api/contracts";
import { SURPRISES } from "@/lib/rehearsal";
import { SURPRISE_WORDS } from "./words";

const PACES = [
  { value: "2", label: "Fast: 2 s from step to step" },
  { value: "5", label: "Brisk: 5 s" },
  { value: "12", label: "Calm: 12 s, with radio calls" },
];

export function StartForm({
  url,
  posts,
  onStarted,
}: {
  url: string;
  posts: Rehearsal["posts"];
  onStarted: (answer: Rehearsal) => void;
}) {
  return (
    <WriteForm<Rehearsal>
      label="Rehearsal"
      url={url}
      fields={["turns", "pace", "surprises"]}
      refresh={false}
      body={(form) => ({
        turns: Number(textOf(form, "turns")),
        pace: Number(textOf(form, "pace")),
        surprises: SURPRISES.filter((each) => form.has(each)),
        people: {
          safetyOfficer: form.has("officer"),
          posts: posts.map(({ id }) => id).filter((id) => form.has(`post-${id}`)),
        },
      })}
      submit="Start the rehearsal"
      onDone={onStarted}
    >
      {(errorFor) => (
        <>
          <fieldset>
            <legend>What goes wrong, each once</legend>
            {SURPRISES.map((each) => (
              <CheckField key={each} id={each} name={each} label={SURPRISE_WORDS[each]} defaultChecked />
            ))}
            {errorFor("surprises") && <p className="field-error">{errorFor("surprises")}</p>}
          </fieldset>
          <TextField
            id="turns"
            name="turns"
            label="Turns"
            help={`From one for each thing that goes wrong, to ${TURNS_MOST}.`}
            inputMode="numeric"
            defaultValue="8"
            required
            error={errorFor("turns")}
          />
          <SelectField
            id="pace"
            name="pace"
            label="Pace"
            choices={PACES}
            defaultValue="5"
            error={errorFor("pace")}
          />
          <fieldset>
            <legend>Played by people, on their own pages</legend>
            <CheckField
              id="officer"
              name="officer"
              label="Safety officer"
              help="Puts the range hot and cold, and lifts the hold, on the page Range. The program waits."
              defaultChecked
            />
            {posts.map(({ id, name }) => (
              <CheckField key={id} id={`post-${id}`} name={`post-${id}`} label={name} />
            ))}
          </fieldset>
        </>
      )}
    </WriteForm>
  );
}
