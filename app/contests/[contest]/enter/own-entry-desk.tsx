"use client";
import { useState } from "react";
import { Button } from "@/app/_ui/button";
import { Notice } from "@/app/_ui/notice";
import { UnfoldingLines } from "@/app/_ui/unfolding-lines/unfolding-lines";
import type { UnitSystem } from "@/app/_ui/units-cookie";
/** The team's own entry, part by part: what is complete, what is missing, whether the server has it. */
import { contestDays } from "@/app/_ui/words";
import type { Missing, PhotographInfo } from "@/lib/api/contracts";
import { missingOf } from "@/lib/contest/entry-missing";
import type { Policy } from "@/lib/throw";
import { AskedThere } from "./asked-there";
import styles from "./enter.module.css";
import { InsurancePart } from "./insurance-part";
import { declarationOf, forgetDraft } from "./kept-entry";
import { MachinePart } from "./machine-part";
import { PeoplePart } from "./people-part";
import { PhotographPart } from "./photograph-part";
import { SendPart } from "./send-part";
import { SheetPart } from "./sheet-part";
import { TeamPart } from "./team-part";
import { type OnEntry, useOwnEntry } from "./use-own-entry";
import { WhereKept } from "./where-kept";

interface Given {
  slug: string;
  secret: string;
  policy: Policy;
  startingUnits: UnitSystem;
  /** The entry is no more, or this phone lets go of it. */
  onGone: () => void;
}

export function OwnEntryDesk(given: Given) {
  const loaded = useOwnEntry(given.slug, given.secret, given.startingUnits);
  // The draft of people's data goes too, also where another phone has withdrawn the entry.
  const onGone = () => {
    forgetDraft(given.secret);
    given.onGone();
  };
  if (loaded.state === "asking") return <p role="status">Fetching your entry…</p>;
  if (loaded.state === "failed")
    return (
      <Notice kind="problem">
        <p>{loaded.detail}</p>
        <p className="button-row">
          <Button onClick={() => location.reload()}>Try again</Button>
          {loaded.gone && <Button onClick={onGone}>Let go of it on this phone</Button>}
        </p>
      </Notice>
    );
  return <Parts {...given} onGone={onGone} entry={loaded.entry} />;
}

function Parts({ slug, secret, policy, entry, onGone }: Given & { entry: OnEntry }) {
  const { own, draft, open } = entry;
  const { values, form } = draft;
  const [photographs, setPhotographs] = useState<readonly PhotographInfo[]>(own.entry.photographs);
  const declaration = declarationOf(form);
  const { date: first, lastDay: last } = own.invitation.contest;
  const missing = open ? missingOf({ ...values, declaration, photographs }, { first, last }) : [];
  const state = (part: Missing["part"]) => {
    const open = missing.filter((each) => each.part === part && each.blocks !== null).length;
    return open > 0 ? `! ${open} missing` : "✓ Complete";
  };
  const props = { slug, secret, entry };
  if (!open) return <Decided {...props} onGone={onGone} />;
  return (
    <>
      <Told entry={entry} />
      <WhereKept entry={entry} />
      <UnfoldingLines
        className={styles.parts}
        first={own.entry.state === "draft" ? "entry-team" : "entry-send"}
        lines={[
          { id: "entry-team", title: "Team", state: state("team"), body: () => <TeamPart {...props} /> },
          {
            id: "entry-people",
            title: "People",
            state: state("people"),
            body: () => <PeoplePart {...props} />,
          },
          {
            id: "entry-insurance",
            title: "Insurance",
            state: state("insurance"),
            body: () => <InsurancePart {...props} />,
          },
          {
            id: "entry-machine",
            title: "Machine",
            state: state("machine"),
            body: () => <MachinePart {...props} />,
          },
          {
            id: "entry-photographs",
            title: "Photographs",
            state: photographs.length === 0 ? "– None yet" : `✓ ${photographs.length}`,
            body: () => (
              <PhotographPart
                slug={slug}
                secret={secret}
                photographs={photographs}
                onPhotographs={setPhotographs}
              />
            ),
          },
          {
            id: "entry-sheet",
            title: "What it will do there",
            state: "To read",
            body: () => <SheetPart {...props} policy={policy} />,
          },
          {
            id: "entry-inspector",
            title: "What the inspector will look at",
            state: "To read",
            body: () => <AskedThere declaration={declaration} />,
          },
          {
            id: "entry-send",
            title: "Send it",
            state: own.entry.state === "sent" ? "✓ Sent" : "– Not sent",
            body: () => <SendPart {...props} missing={missing} onGone={onGone} />,
          },
        ]}
      />
    </>
  );
}

/** What the organiser said, and how it stands. */
function Told({ entry: { own } }: { entry: OnEntry }) {
  const { state, answer } = own.entry;
  if (state === "returned")
    return (
      <Notice title="The organiser asks for more">
        <p>{answer}</p>
        <p>Put it right below, then send it again.</p>
      </Notice>
    );
  if (state === "sent")
    return (
      <Notice kind="done" title="Sent">
        <p>The organiser has your entry. You may still change it until it is decided.</p>
      </Notice>
    );
  return null;
}

function Decided({
  entry,
  slug,
  secret,
  onGone,
}: {
  entry: OnEntry;
  slug: string;
  secret: string;
  onGone: () => void;
}) {
  const { state, answer, team, machineName, erasedAt, keptUntil, machineId } = entry.own.entry;
  return (
    <>
      {state === "accepted" ? (
        <Notice kind="done" title="Accepted">
          <p>
            {team} is entered with {machineName}. The organiser hands you the team’s badge: sign in with its
            code for the official hazard sheet, for changes to the machine, and on the day.
          </p>
          {machineId && (
            <p>
              <a href={`/sign-in?next=/contests/${slug}/machines/${machineId}`}>Sign in with the badge</a>
            </p>
          )}
        </Notice>
      ) : state === "refused" ? (
        <Notice kind="problem" title="Refused">
          <p>{answer ?? "The organiser has refused this entry."}</p>
        </Notice>
      ) : null}
      {erasedAt ? (
        <p>Names, contacts, insurance and photographs of this entry have been erased.</p>
      ) : (
        <p>Names, contacts, insurance and photographs are erased after {contestDays({ date: keptUntil })}.</p>
      )}
      <AskedThere declaration={entry.own.entry.declaration} />
      {!erasedAt && <SendPart slug={slug} secret={secret} entry={entry} missing={[]} onGone={onGone} />}
    </>
  );
}
