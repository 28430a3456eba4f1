"use client";
/** Entries that the server does not have yet. Shown on top until they are sent or thrown away on purpose. */
import { useState } from "react";
import { Button } from "@/app/_ui/button";
import { Notice } from "@/app/_ui/notice";
import type { Problem } from "@/lib/api/contracts";
import styles from "./judge.module.css";
import { isAboutEntry, isEntry, type KeptEntry, type KeptWrite, type Outbox, type Waiting } from "./outbox";

/** What may have reached the server stays as it is; what somebody else corrected has a way of its own. */
const mayPutRight = (entry: KeptWrite): entry is KeptEntry =>
  isEntry(entry) &&
  !entry.tried &&
  entry.refused !== null &&
  isAboutEntry(entry.refused) &&
  !("current" in entry.refused);

export function Unsent({
  waiting,
  outbox,
  mayTakeOver,
  onCorrect,
  onPutRight,
}: {
  waiting: Waiting;
  outbox: Outbox;
  /** Whether a judge is signed in here, who may enter what another badge left on this phone. */
  mayTakeOver: boolean;
  /** For an entry that came after another's. Without the two the page has no form to put it right in. */
  onCorrect?: (entry: KeptEntry, refusal: Problem) => void;
  /** For one that was refused for what it says. */
  onPutRight?: (entry: KeptEntry) => void;
}) {
  const [sending, setSending] = useState<string | null>(null);
  const [asked, setAsked] = useState<string | null>(null);
  return (
    <div aria-live="polite">
      {!waiting.stored && (
        <Notice kind="problem" title="This phone stores nothing">
          <p>
            Its browser refuses to keep entries (private browsing, or no room left). What is not sent is lost
            when this page closes: note it on paper too.
          </p>
        </Notice>
      )}
      {waiting.entries.map((entry) => (
        <Notice key={entry.key} kind={entry.refused ? "problem" : "note"} title="Not sent yet">
          <p>
            <strong>{entry.result}</strong>, {entry.title}. Kept on this phone.
          </p>
          {entry.refused && <p>{entry.refused.detail}</p>}
          {!outbox.owns(entry) && (
            <p>
              It was made with another badge, and goes out when that one is signed in on this phone. If that
              badge has ended for good it never will be: enter it as your own if you stand for it
              {entry.tried && "; it may have reached the server, so look at the shot first"}.
            </p>
          )}
          <p className={styles.buttons}>
            {outbox.owns(entry) ? (
              <Button
                look="main"
                aria-disabled={sending === entry.key || undefined}
                onClick={async () => {
                  setSending(entry.key);
                  await outbox.dispatch(entry.key);
                  setSending(null);
                }}
              >
                {sending === entry.key ? "Sending…" : "Send again"}
              </Button>
            ) : (
              mayTakeOver && (
                <Button onClick={() => void outbox.takeOver(entry)}>Enter it with this badge</Button>
              )
            )}
            {entry.refused?.code === "sign-in" && (
              <a className="button button-plain" href="/sign-in" target="_blank" rel="noreferrer">
                Sign in in a new tab
              </a>
            )}
            {onPutRight && mayPutRight(entry) && (
              <Button onClick={() => onPutRight(entry)}>Put it right</Button>
            )}
            {onCorrect && isEntry(entry) && entry.refused && "current" in entry.refused && (
              <Button onClick={() => entry.refused && onCorrect(entry, entry.refused)}>
                Make it a correction
              </Button>
            )}
            {(entry.refused || !outbox.owns(entry)) &&
              (asked === entry.key ? (
                <Button
                  onClick={() => {
                    void outbox.drop(entry.key);
                    setAsked(null);
                  }}
                >
                  Yes, throw this entry away
                </Button>
              ) : (
                <Button look="quiet" onClick={() => setAsked(entry.key)}>
                  Throw away
                </Button>
              ))}
          </p>
        </Notice>
      ))}
    </div>
  );
}
