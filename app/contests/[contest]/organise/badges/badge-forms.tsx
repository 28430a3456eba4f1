"use client";
import { useState } from "react";
import { Button } from "@/app/_ui/button";
import { SelectField, TextField } from "@/app/_ui/field";
import { Notice } from "@/app/_ui/notice";
import { PrintButton } from "@/app/_ui/print-button";
import { Table } from "@/app/_ui/table";
import { instantText, ROLE_WORDS } from "@/app/_ui/words";
import { textOf } from "@/app/_ui/write/form-values";
import { WriteForm } from "@/app/_ui/write/write-form";
import type { BadgeInfo, Role } from "@/lib/api/contracts";
import { BadgeCard } from "./badge-card";

type Entrants = readonly { id: string; name: string; number: number }[];

export function BadgeForm({
  slug,
  contest,
  entrants,
}: {
  slug: string;
  contest: string;
  entrants: Entrants;
}) {
  const [role, setRole] = useState<Role>("judge");
  const [made, setMade] = useState<(BadgeInfo & { code: string }) | null>(null);
  return (
    <>
      <WriteForm<BadgeInfo & { code: string }>
        label="Make a badge"
        url={`/api/v1/contests/${slug}/badges`}
        fields={["role", "label", "entrantId"]}
        body={(form) => ({
          role,
          label: textOf(form, "label"),
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
          </>
        )}
      </WriteForm>
      <div aria-live="polite">
        {made && (
          <Notice kind="done" title={`Badge ${made.label} is made`}>
            <p>Its code, shown this once. Print the card now, or write the code down.</p>
            <BadgeCard {...made} contest={contest} />
            <p className="button-row no-print">
              <PrintButton>Print the card</PrintButton>
              <Button onClick={() => setMade(null)}>I have printed it or written it down</Button>
            </p>
          </Notice>
        )}
      </div>
    </>
  );
}

export function BadgeList({
  slug,
  badges,
  entrants,
}: {
  slug: string;
  badges: readonly BadgeInfo[];
  entrants: Entrants;
}) {
  const [asked, setAsked] = useState<string | null>(null);
  return (
    <Table
      caption="Badges"
      stacks
      hideCaption
      rows={badges}
      rowKey={({ id }) => id}
      columns={[
        { key: "label", head: "Label", rowHead: true, cell: ({ label }) => label },
        {
          key: "role",
          head: "Role",
          cell: ({ role, entrantId }) =>
            role === "team"
              ? `team: ${entrants.find(({ id }) => id === entrantId)?.name ?? ""}`
              : ROLE_WORDS[role],
        },
        {
          key: "used",
          head: "Signed in",
          cell: ({ signIns: { count, last } }) =>
            count === 0 ? (
              "not yet"
            ) : (
              <details>
                <summary>{count === 1 ? "once" : `${count} times`}</summary>
                <ul>
                  {last.map(({ at, device }) => (
                    <li key={at}>
                      {instantText(at)}, {device}
                    </li>
                  ))}
                  {count > last.length && <li>and before</li>}
                </ul>
              </details>
            ),
        },
        { key: "made", head: "Made", cell: ({ createdAt }) => instantText(createdAt) },
        {
          key: "state",
          head: "State",
          cell: ({ id, label, revokedAt }) =>
            revokedAt ? (
              `revoked ${instantText(revokedAt)}`
            ) : asked === id ? (
              <WriteForm
                label={`Revoke ${label}`}
                url={`/api/v1/contests/${slug}/badges/${id}/revoke`}
                body={() => ({})}
                submit={`Yes, revoke ${label}`}
                look="plain"
                onDone={() => setAsked(null)}
              >
                {() => (
                  <p>
                    Whoever is signed in with it is signed out at once. What its phone had seen before and
                    delivers later waits under Rulings until you confirm it.
                  </p>
                )}
              </WriteForm>
            ) : (
              <Button aria-label={`Revoke ${label}`} onClick={() => setAsked(id)}>
                Revoke
              </Button>
            ),
        },
      ]}
    />
  );
}
