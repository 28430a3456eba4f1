"use client";
/** What is missing, sending it, the team's own way back, and withdrawing. */
import { useState } from "react";
import { Button } from "@/app/_ui/button";
import { CopyLink } from "@/app/_ui/copy-link";
import { Notice } from "@/app/_ui/notice";
import { newKey } from "@/app/_ui/write/key";
import { send } from "@/app/_ui/write/send";
import { UNREACHED } from "@/app/_ui/write/use-write";
import type { Missing } from "@/lib/api/contracts";
import { mayBe } from "@/lib/contest/entry-missing";
import type { OnEntry } from "./use-own-entry";

export function SendPart({
  slug,
  secret,
  entry,
  missing,
  onGone,
}: {
  slug: string;
  secret: string;
  entry: OnEntry;
  missing: readonly Missing[];
  onGone: () => void;
}) {
  const url = `/api/v1/contests/${slug}/entries/own`;
  const [trouble, setTrouble] = useState<readonly string[]>([]);
  const [busy, setBusy] = useState(false);
  const [asked, setAsked] = useState(false);
  const { state } = entry.own.entry;
  // Below a part's own heading, or where there are no parts any more.
  const Heading = entry.open ? "h4" : "h2";
  const act = async (path: string, then: () => void | Promise<void>) => {
    if (busy) return;
    setBusy(true);
    setTrouble([]);
    const sent = await send("POST", `${url}/${path}`, {}, newKey(), undefined, secret);
    setBusy(false);
    if (sent.ok) await then();
    else
      setTrouble(
        sent.reached
          ? (sent.problem.errors?.map(({ message }) => message) ?? [sent.problem.detail])
          : [UNREACHED],
      );
  };
  const sendIt = async () => {
    if (!(await entry.flush()))
      return setTrouble(["The server has not got all of it yet: look at the network, then send it again."]);
    await act("sending", () => entry.reload());
  };
  const of = (blocks: Missing["blocks"]) => missing.filter((each) => each.blocks === blocks);
  return (
    <>
      {entry.open && (
        <>
          <List title="In the way of sending it" of={of("send")} />
          <List title="Needed before it can be accepted; may follow" of={of("accept")} />
          <List title="Would help" of={of(null)} />
          {trouble.length > 0 && (
            <Notice kind="problem">
              <ul>
                {trouble.map((words) => (
                  <li key={words}>{words}</li>
                ))}
              </ul>
            </Notice>
          )}
          {mayBe("sent", missing) ? (
            <p className="button-row">
              <Button look="main" onClick={sendIt} aria-disabled={busy || undefined}>
                {state === "draft" ? "Send our entry" : "Send it again"}
              </Button>
            </p>
          ) : (
            <p>It can be sent once nothing is in the way.</p>
          )}
        </>
      )}
      <Heading>The way back</Heading>
      <p>
        This page comes back to your entry on this phone. For another one keep the link; whoever has it can
        read and change the entry.
      </p>
      <CopyLink
        path={`/contests/${slug}/enter#t.${secret}`}
        button="Copy our own link"
        done="Copied. Keep it where only the crew’s captain finds it."
      />
      <Heading>{state === "accepted" ? "Erase what is people’s" : "Withdraw"}</Heading>
      {asked ? (
        <>
          <p>
            {state === "accepted"
              ? "Names, contacts, insurance and photographs are erased at once. The team’s name and its machine stay in the contest: tell the organiser if you are not coming."
              : "The whole entry is erased at once: people, insurance, machine, photographs."}
          </p>
          <p className="button-row">
            <Button onClick={() => void act("withdrawal", onGone)} aria-disabled={busy || undefined}>
              Yes, erase it
            </Button>
            <Button onClick={() => setAsked(false)}>No, keep it</Button>
          </p>
        </>
      ) : (
        <p className="button-row">
          <Button onClick={() => setAsked(true)}>
            {state === "accepted" ? "Erase our people’s data" : "Withdraw our entry"}
          </Button>
        </p>
      )}
      {!entry.open && trouble.map((words) => <p key={words}>{words}</p>)}
    </>
  );
}

function List({ title, of }: { title: string; of: readonly Missing[] }) {
  if (of.length === 0) return null;
  return (
    <>
      <h4>{title}</h4>
      <ul>
        {of.map(({ text }) => (
          <li key={text}>{text}</li>
        ))}
      </ul>
    </>
  );
}
