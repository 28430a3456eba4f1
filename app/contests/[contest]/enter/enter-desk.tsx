"use client";
/** By which link the page was opened: an invitation, or the team's own way back to its entry. */
import { useCallback, useEffect, useState } from "react";
import { Button } from "@/app/_ui/button";
import { Notice } from "@/app/_ui/notice";
import type { UnitSystem } from "@/app/_ui/units-cookie";
import { contestDays } from "@/app/_ui/words";
import { newKey } from "@/app/_ui/write/key";
import { send } from "@/app/_ui/write/send";
import { UNREACHED } from "@/app/_ui/write/use-write";
import type { Invitation } from "@/lib/api/contracts";
import type { Policy } from "@/lib/throw";
import { askAs } from "./ask-as";
import { keepSecret, keptSecret } from "./kept-entry";
import { OwnEntryDesk } from "./own-entry-desk";

interface Opened {
  invitation: string | null;
  secret: string | null;
}

/** #i.… is an invitation, #t.… the team's own. Behind the # they go to no server. */
const opened = (): Opened => {
  const [, kind, token = null] = /^#([it])\.([\w-]{20,64})$/.exec(location.hash) ?? [];
  return { invitation: kind === "i" ? token : null, secret: kind === "t" ? token : null };
};

function newSecret(): string {
  const bytes = crypto.getRandomValues(new Uint8Array(32));
  return btoa(String.fromCharCode(...bytes))
    .replace(/\+/g, "-")
    .replace(/\//g, "_")
    .replace(/=+$/, "");
}

export function EnterDesk({
  slug,
  policy,
  startingUnits,
}: {
  slug: string;
  policy: Policy;
  startingUnits: UnitSystem;
}) {
  const [by, setBy] = useState<Opened | null>(null);
  const [before, setBefore] = useState<string | null>(null);
  useEffect(() => {
    const read = () => {
      const found = opened();
      setBefore(keptSecret(slug));
      setBy(found.invitation || found.secret ? found : { invitation: null, secret: keptSecret(slug) });
    };
    read();
    addEventListener("hashchange", read);
    return () => removeEventListener("hashchange", read);
  }, [slug]);

  const goOn = useCallback(
    (secret: string) => {
      keepSecret(slug, secret);
      // A reload, and whoever saves the address, comes back to the entry.
      history.replaceState(null, "", `${location.pathname}${location.search}#t.${secret}`);
      setBy({ invitation: null, secret });
    },
    [slug],
  );
  const leave = useCallback(() => {
    keepSecret(slug, null);
    history.replaceState(null, "", location.pathname + location.search);
    setBy({ invitation: null, secret: null });
  }, [slug]);

  if (!by) return <p role="status">Looking at the link…</p>;
  if (by.secret)
    return (
      <OwnEntryDesk
        key={by.secret}
        slug={slug}
        secret={by.secret}
        policy={policy}
        startingUnits={startingUnits}
        onGone={leave}
      />
    );
  if (by.invitation) return <Invited slug={slug} token={by.invitation} before={before} onBegun={goOn} />;
  return (
    <Notice title="By the organiser’s link">
      <p>
        Teams enter themselves by a link that the organiser gives them. Open it as it was given: it ends in a
        # and what follows, and messages sometimes cut that off. A team that has begun comes back by its own
        link.
      </p>
    </Notice>
  );
}

function Invited({
  slug,
  token,
  before,
  onBegun,
}: {
  slug: string;
  token: string;
  before: string | null;
  onBegun: (secret: string) => void;
}) {
  const [invitation, setInvitation] = useState<Invitation | null>(null);
  const [trouble, setTrouble] = useState<string | null>(null);
  const [sending, setSending] = useState(false);
  // The same with every try: what arrived without an answer is not begun twice.
  const [secret] = useState(newSecret);
  const [key] = useState(newKey);
  const url = `/api/v1/contests/${slug}`;
  useEffect(() => {
    let here = true;
    void askAs<Invitation>(`${url}/entry-invitation`, token).then((answer) => {
      if (!here) return;
      if (answer.ok) setInvitation(answer.data);
      else setTrouble(answer.detail);
    });
    return () => {
      here = false;
    };
  }, [url, token]);

  const begin = async () => {
    if (sending) return;
    setSending(true);
    setTrouble(null);
    const sent = await send("POST", `${url}/entries`, { secret }, key, undefined, token);
    setSending(false);
    if (sent.ok) onBegun(secret);
    else setTrouble(sent.reached ? sent.problem.detail : UNREACHED);
  };

  return (
    <>
      {trouble && (
        <Notice kind="problem">
          <p>{trouble}</p>
        </Notice>
      )}
      {before && (
        <Notice title="Begun on this phone already">
          <p>An entry into this contest was begun here.</p>
          <p className="button-row">
            <Button look="main" onClick={() => onBegun(before)}>
              Go on with it
            </Button>
          </p>
        </Notice>
      )}
      {!invitation && !trouble && <p role="status">Asking the server…</p>}
      {invitation?.closed && (
        <Notice title="Closed">
          <p>{invitation.closed}</p>
        </Notice>
      )}
      {invitation && !invitation.closed && (
        <>
          <p>You will be asked, one after the other, in as many goes as you like:</p>
          <ul>
            <li>the team’s name and division</li>
            <li>who is of the crew; of minors a guardian’s consent, here or on paper</li>
            <li>the insurance</li>
            <li>the machine’s numbers on its drawing, what its parts bear, and photographs</li>
          </ul>
          <p>Then you see how far it could throw on its worst day, and what the inspector will look at.</p>
          <p>
            Names, contacts, insurance and photographs are for the organiser and the safety officer alone.
            They are erased after {contestDays({ date: invitation.keptUntil })}, or when you withdraw. The
            team’s name and the machine’s are public once the entry is accepted.
          </p>
          <p className="button-row">
            <Button look={before ? "plain" : "main"} onClick={begin} aria-disabled={sending || undefined}>
              {before ? "Begin another entry" : "Begin our entry"}
            </Button>
          </p>
        </>
      )}
    </>
  );
}
