"use client";
/** Accepting an entry, sending it back, refusing it, erasing its people's data. */
import { useState } from "react";
import { Button } from "@/app/_ui/button";
import { LongTextField } from "@/app/_ui/field";
import { Notice } from "@/app/_ui/notice";
import { PrintButton } from "@/app/_ui/print-button";
import { textOf } from "@/app/_ui/write/form-values";
import { WriteForm } from "@/app/_ui/write/write-form";
import type { BadgeInfo, Entry } from "@/lib/api/contracts";
import { mayBe } from "@/lib/contest/entry-missing";
import { BadgeCard } from "../../badges/badge-card";
import styles from "../entries.module.css";

type Badge = BadgeInfo & { code: string };

export function Decide({ slug, contest, entry }: { slug: string; contest: string; entry: Entry }) {
  const url = `/api/v1/contests/${slug}/entries/${entry.id}`;
  const [badge, setBadge] = useState<Badge | null>(null);
  const [asked, setAsked] = useState<"refuse" | "erase" | null>(null);
  const { version, state, missing, erasedAt } = entry;
  const open = !erasedAt && state !== "accepted" && state !== "refused";
  const blocking = missing.filter(({ blocks }) => blocks !== null).map(({ text }) => text);
  return (
    <>
      <div aria-live="polite">
        {badge && (
          <Notice kind="done" title={`${entry.team} is accepted`}>
            <p>
              Team, machine and badge are made. The badge’s code is shown this once: print the card for the
              team’s captain, or write the code down.
            </p>
            <BadgeCard {...badge} contest={contest} />
            <p className="button-row no-print">
              <PrintButton>Print the card</PrintButton>
              <Button onClick={() => setBadge(null)}>I have printed it or written it down</Button>
            </p>
          </Notice>
        )}
      </div>
      {open && (
        <>
          <h2>Your answer</h2>
          {state === "sent" && mayBe("accepted", missing) ? (
            <WriteForm<{ entry: Entry; badge: Badge }>
              label="Accept this entry"
              url={`${url}/acceptance`}
              body={() => ({ version })}
              submit={`Accept ${entry.team}`}
              onDone={(answer) => setBadge(answer.badge)}
            >
              {() => <p>It becomes a team of the contest with its machine and its badge.</p>}
            </WriteForm>
          ) : (
            <p>
              {state === "sent"
                ? "It cannot be accepted while something is missing."
                : "The team is still working on it: it can be accepted once it is sent."}
            </p>
          )}
          {state === "sent" && (
            <details className={styles.answer} open={blocking.length > 0}>
              <summary>Send it back with what is missing</summary>
              <Answer
                label="Send it back"
                url={`${url}/return`}
                version={version}
                words={blocking.join("\n")}
                field="What is missing"
              />
            </details>
          )}
          {asked === "refuse" ? (
            <Answer label="Refuse this entry" url={`${url}/refusal`} version={version} words="" field="Why" />
          ) : (
            <p className="button-row">
              <Button onClick={() => setAsked("refuse")}>Refuse this entry</Button>
            </p>
          )}
        </>
      )}
      {!erasedAt &&
        (asked === "erase" ? (
          <WriteForm
            label="Erase people’s data"
            url={`${url}/erasure`}
            body={() => ({})}
            submit="Yes, erase all of it"
            look="plain"
            onDone={() => setAsked(null)}
          >
            {() => (
              <p>
                People, guardians, insurance and photographs of this entry are gone for good
                {open ? ", and the entry is over" : "; team and machine stay in the contest"}. Backups made
                earlier still hold them.
              </p>
            )}
          </WriteForm>
        ) : (
          <p className="button-row">
            <Button onClick={() => setAsked("erase")}>Erase people’s data of this entry</Button>
          </p>
        ))}
    </>
  );
}

function Answer({
  label,
  url,
  version,
  words,
  field,
}: {
  label: string;
  url: string;
  version: number;
  words: string;
  field: string;
}) {
  const id = `answer-${url.split("/").at(-1)}`;
  return (
    <WriteForm
      label={label}
      url={url}
      fields={["answer"]}
      body={(form) => ({ version, answer: textOf(form, "answer") })}
      submit={label}
      look="plain"
    >
      {(errorFor) => (
        <LongTextField
          id={id}
          label={field}
          help="The team reads this. It goes with the people’s data, and is not in the scorebook."
          error={errorFor("answer")}
          name="answer"
          rows={4}
          maxLength={1000}
          defaultValue={words}
        />
      )}
    </WriteForm>
  );
}
