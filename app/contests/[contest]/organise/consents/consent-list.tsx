"use client";
import { Table } from "@/app/_ui/table";
import { WriteForm } from "@/app/_ui/write/write-form";
import type { ConsentInfo } from "@/lib/api/contracts";
import { ConsentForm, type Named } from "./consent-form";
import { CONSENT_STATE_WORDS, CONSENT_TITLES } from "./words";

/** All consents, those with something to do first; each can be changed or retired below the table. */
export function ConsentList({
  slug,
  consents,
  features,
}: {
  slug: string;
  consents: readonly ConsentInfo[];
  features: readonly Named[];
}) {
  const state = ({ retired, state }: ConsentInfo) => (retired ? "retired" : CONSENT_STATE_WORDS[state]);
  return (
    <>
      <Table
        caption="Consents"
        stacks
        hideCaption
        rows={consents}
        rowKey={({ id }) => id}
        empty="Nothing is entered yet."
        columns={[
          { key: "party", head: "Who", rowHead: true, cell: ({ party }) => party },
          {
            key: "state",
            head: "State",
            cell: (consent) =>
              consent.retired || consent.state === "holds" ? (
                state(consent)
              ) : (
                <strong>{state(consent)}</strong>
              ),
          },
          { key: "kind", head: "Kind", cell: ({ kind }) => CONSENT_TITLES[kind] },
          { key: "about", head: "About", cell: ({ featureName }) => featureName ?? "the whole range" },
          { key: "given", head: "Given", cell: ({ givenOn }) => givenOn ?? "not yet" },
          { key: "until", head: "Until", cell: ({ expiresOn }) => expiresOn ?? "no end" },
          { key: "paper", head: "Paper", cell: ({ reference }) => reference || "–" },
        ]}
      />
      {consents.map((consent) => (
        <details key={consent.id}>
          <summary>
            Change or retire: {consent.party}, {CONSENT_TITLES[consent.kind].toLowerCase()}
          </summary>
          <ConsentForm slug={slug} features={features} before={consent} />
          <WriteForm
            label={`${consent.retired ? "Restore" : "Retire"} the consent of ${consent.party}`}
            method="PATCH"
            url={`/api/v1/contests/${slug}/consents/${consent.id}`}
            body={() => ({ retired: !consent.retired })}
            look="plain"
            submit={consent.retired ? "Restore it" : "Retire it"}
          >
            {() => (
              <p>
                {consent.retired
                  ? "Retired: it is kept and counts for nothing."
                  : "Retired, it is kept and counts for nothing."}
              </p>
            )}
          </WriteForm>
        </details>
      ))}
    </>
  );
}
