"use client";
/** What is written of an incident: for the organiser and the safety officer, until its day, or until it is erased. */
import { useState } from "react";
import { Button } from "@/app/_ui/button";
import { LongTextField, SelectField, TextField } from "@/app/_ui/field";
import { LocalTime } from "@/app/_ui/local-time";
import { longDay } from "@/app/_ui/words";
import { textOf } from "@/app/_ui/write/form-values";
import { WriteForm } from "@/app/_ui/write/write-form";
import type { IncidentInfo, IncidentReceipt, IncidentWordsInfo } from "@/lib/api/contracts";
import styles from "../incidents.module.css";

const KINDS: Record<IncidentWordsInfo["kind"], string> = {
  account: "What happened",
  person: "What happened to a person",
  reason: "Why the report was corrected",
};

export function WordsPanel({
  slug,
  incident,
  mayErase,
}: {
  slug: string;
  incident: IncidentInfo;
  mayErase: boolean;
}) {
  const { words, id } = incident;
  const base = `/api/v1/contests/${slug}/incidents/${id}/words`;
  return (
    <section aria-labelledby="words-title">
      <h2 id="words-title">What was written</h2>
      {words.length === 0 ? (
        <p>Nothing is written yet.</p>
      ) : (
        <dl className={styles.seen}>
          {words.map((each) => (
            <div key={each.id}>
              <dt>
                {KINDS[each.kind]}
                {each.name && `: ${each.name}`}
              </dt>
              <dd>
                {each.text ?? "Erased."}{" "}
                <small>
                  By {each.by}, <LocalTime iso={each.createdAt} day />.{" "}
                  {each.text !== null && `Kept until ${longDay(each.keepUntil)}.`}
                </small>
              </dd>
            </div>
          ))}
        </dl>
      )}
      <details>
        <summary>Write something down</summary>
        <WriteForm<IncidentReceipt>
          label="Write something down"
          url={base}
          fields={["kind", "name", "text", "keepUntil"]}
          body={(form) => ({
            kind: textOf(form, "kind"),
            text: textOf(form, "text"),
            ...(textOf(form, "name") && { name: textOf(form, "name") }),
            ...(textOf(form, "keepUntil") && { keepUntil: textOf(form, "keepUntil") }),
          })}
          submit="Write it down"
          look="plain"
          done={() => <p>Written down.</p>}
        >
          {(errorFor) => (
            <>
              <SelectField
                id="words-kind"
                name="kind"
                label="About"
                choices={(["account", "person"] as const).map((value) => ({ value, label: KINDS[value] }))}
                error={errorFor("kind")}
              />
              <TextField
                id="words-name"
                name="name"
                label="Name of the person"
                optional
                error={errorFor("name")}
              />
              <LongTextField
                id="words-text"
                name="text"
                rows={4}
                maxLength={4000}
                label="What is to be kept"
                help="Only what whoever looks into it needs. It never comes into the scorebook."
                required
                error={errorFor("text")}
              />
              <TextField
                id="words-until"
                name="keepUntil"
                type="date"
                label="Kept until"
                help="Three years after the contest if left empty; then it is erased by itself."
                optional
                error={errorFor("keepUntil")}
              />
            </>
          )}
        </WriteForm>
      </details>
      {mayErase && words.some(({ erasedAt }) => erasedAt === null) && <Erase base={base} />}
    </section>
  );
}

function Erase({ base }: { base: string }) {
  const [asked, setAsked] = useState(false);
  if (!asked)
    return <Button onClick={() => setAsked(true)}>Erase all that was written of this incident</Button>;
  return (
    <WriteForm<{ erased: number }>
      label="Erase what was written"
      url={`${base}/erase`}
      body={() => ({})}
      submit="Yes, erase it for good"
      look="plain"
      onDone={() => setAsked(false)}
    >
      {() => (
        <p>
          It cannot be brought back. Backups made before keep it until they are replaced. Ask the insurer
          first if a claim may follow.
        </p>
      )}
    </WriteForm>
  );
}
