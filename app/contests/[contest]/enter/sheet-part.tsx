"use client";
/** What the machine would do there, worked out by the server under the contest's policy and air. */
import { useState } from "react";
import { Button } from "@/app/_ui/button";
import { HazardSheetView } from "@/app/_ui/hazard-sheet";
import { Notice } from "@/app/_ui/notice";
import { readEvents } from "@/app/_ui/read-events";
import { useUnits } from "@/app/_ui/units";
import type { EntrySheet, Problem } from "@/lib/api/contracts";
import type { Declaration, Policy } from "@/lib/throw";
import { bearing } from "./ask-as";
import { declarationOf } from "./kept-entry";
import type { OnEntry } from "./use-own-entry";

interface Made {
  answer: EntrySheet;
  declaration: Declaration;
}

export function SheetPart({
  slug,
  secret,
  policy,
  entry,
}: {
  slug: string;
  secret: string;
  policy: Policy;
  entry: OnEntry;
}) {
  const system = useUnits();
  const [made, setMade] = useState<Made | null>(null);
  /** How far it is, 0 to 1; null: nothing is being worked out. */
  const [done, setDone] = useState<number | null>(null);
  const [trouble, setTrouble] = useState<string | null>(null);
  const declaration = declarationOf(entry.draft.form);
  const old = made && JSON.stringify(made.declaration) !== JSON.stringify(declaration);

  const ask = async () => {
    if (done !== null) return;
    if (!declaration) return setTrouble("Put the machine’s numbers right first.");
    setTrouble(null);
    setDone(0);
    try {
      if (!(await entry.flush()))
        throw new Error("The server has not got these numbers yet: it works out what it has. Try again.");
      const answer = await sheetFrom(`/api/v1/contests/${slug}/entries/own/sheet`, secret, setDone);
      setMade({ answer, declaration });
    } catch (error) {
      setTrouble(error instanceof Error ? error.message : String(error));
    }
    setDone(null);
  };

  return (
    <>
      <p>
        How far it could throw on its worst day, forwards and back, under this contest’s policy and air. The
        official sheet is made in the same way once the entry is accepted.
      </p>
      <p className="button-row">
        <Button look="main" onClick={ask} aria-disabled={done !== null || undefined}>
          {done !== null ? "Working it out…" : made ? "Work it out again" : "Work out our hazard sheet"}
        </Button>
      </p>
      {done !== null && (
        <p>
          <progress aria-label="Hazard sheet" max={1} value={done} />{" "}
          <span aria-hidden="true">{Math.round(100 * done)} %</span>
        </p>
      )}
      {trouble && (
        <Notice kind="problem">
          <p>{trouble}</p>
        </Notice>
      )}
      {old && (
        <Notice title="Of earlier numbers">
          <p>The machine’s numbers have changed since: work it out again.</p>
        </Notice>
      )}
      {made && (
        <HazardSheetView
          sheet={{
            ...made.answer.sheet,
            assumptions: [...made.answer.given, ...made.answer.sheet.assumptions],
          }}
          system={system}
          declaration={made.declaration}
          air={made.answer.air}
          policy={policy}
        />
      )}
    </>
  );
}

const NO_ANSWER = "The server did not answer: check the network and try again.";

async function sheetFrom(url: string, secret: string, onDone: (done: number) => void): Promise<EntrySheet> {
  const response = await fetch(url, {
    headers: { ...bearing(secret), accept: "text/event-stream, application/json;q=0.9" },
    cache: "no-store",
  }).catch(() => {
    throw new Error(NO_ANSWER);
  });
  if (!response.ok || !response.body || !response.headers.get("content-type")?.includes("event-stream")) {
    const answer = await response.json().catch(() => null);
    if (response.ok && answer) return answer;
    throw new Error((answer as Problem | null)?.detail ?? NO_ANSWER);
  }
  for await (const { event, data } of readEvents(response.body)) {
    if (event === "progress") onDone(JSON.parse(data).done);
    if (event === "answer") return JSON.parse(data);
    if (event === "problem") throw new Error((JSON.parse(data) as Problem).detail);
  }
  throw new Error("The server’s answer broke off: ask again.");
}
