"use client";
import { useState } from "react";
import { Button } from "@/app/_ui/button";
import { LocalTime } from "@/app/_ui/local-time";
import { Table } from "@/app/_ui/table";
import { WriteForm } from "@/app/_ui/write/write-form";
import type { Entry, EntryPerson } from "@/lib/api/contracts";

export function PeopleTable({ slug, entry, mayDecide }: { slug: string; entry: Entry; mayDecide: boolean }) {
  const [asked, setAsked] = useState<string | null>(null);
  const url = `/api/v1/contests/${slug}/entries/${entry.id}`;
  return (
    <Table
      caption="People of this entry"
      hideCaption
      stacks
      rows={entry.people}
      rowKey={({ id }) => id}
      empty="Nobody is named."
      columns={[
        {
          key: "name",
          head: "Name",
          rowHead: true,
          cell: ({ name, captain }) => `${name || "no name yet"}${captain ? ", captain" : ""}`,
        },
        { key: "contact", head: "Reached by", cell: ({ contact }) => contact || "–" },
        {
          key: "age",
          head: "Age",
          cell: ({ ofAge }) => (ofAge === null ? "not said" : ofAge ? "of age" : "minor"),
        },
        {
          key: "guardian",
          head: "Guardian",
          cell: ({ ofAge, guardianName, guardianContact }) =>
            ofAge === false ? `${guardianName || "not named"}, ${guardianContact || "no number"}` : "–",
        },
        {
          key: "consent",
          head: "Consent",
          cell: (person) => (
            <Consent
              url={url}
              person={person}
              version={entry.version}
              mayMark={
                mayDecide && (entry.state === "sent" || entry.state === "returned" || entry.state === "draft")
              }
            />
          ),
        },
        ...(mayDecide
          ? [
              {
                key: "erase",
                head: "Erase",
                cell: ({ id, name }: EntryPerson) =>
                  asked === id ? (
                    <WriteForm
                      label={`Erase ${name}`}
                      url={`${url}/erasure`}
                      body={() => ({ personId: id })}
                      submit={`Yes, erase ${name || "this person"}`}
                      look="plain"
                      onDone={() => setAsked(null)}
                    >
                      {() => <p>Name, contact and guardian are gone for good.</p>}
                    </WriteForm>
                  ) : (
                    <Button aria-label={`Erase ${name || "this person"}`} onClick={() => setAsked(id)}>
                      Erase
                    </Button>
                  ),
              },
            ]
          : []),
      ]}
    />
  );
}

function Consent({
  url,
  person,
  version,
  mayMark,
}: {
  url: string;
  person: EntryPerson;
  version: number;
  mayMark: boolean;
}) {
  const { ofAge, consentWay, consentAt, agreedTo, guardianName, name, id } = person;
  if (ofAge !== false) return <>–</>;
  if (consentAt)
    return (
      <>
        ✓ {consentWay === "paper" ? "form seen" : "ticked"} <LocalTime iso={consentAt} day />
        {agreedTo && (
          <details>
            <summary>What was agreed to</summary>
            <p>{agreedTo}</p>
          </details>
        )}
      </>
    );
  return (
    <>
      ! missing
      {mayMark && guardianName && (
        <WriteForm
          label={`Form for ${name}`}
          url={`${url}/people/${id}/form-seen`}
          body={() => ({ version })}
          submit={`I have the form signed by ${guardianName}`}
          look="plain"
        >
          {() => null}
        </WriteForm>
      )}
    </>
  );
}
