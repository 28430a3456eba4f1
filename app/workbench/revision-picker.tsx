"use client";
/** Which revision is being worked on: copy it before something is changed, name it, say why. */
import { useState } from "react";
import { Button } from "@/app/_ui/button";
import { SelectField, TextField } from "@/app/_ui/field";
import { MOST_REVISIONS } from "./bench/bench";
import { newRevisionId, useBench } from "./bench/use-bench";
import styles from "./workbench.module.css";

export function RevisionPicker() {
  const { bench, revision, change } = useBench();
  const { id, name, note } = revision;
  const full = bench.revisions.length >= MOST_REVISIONS;
  /** The copy that was made last, and of what. */
  const [copied, setCopied] = useState<{ id: string; of: string } | null>(null);
  const copy = () => {
    if (full) return;
    const made = { id: newRevisionId(), of: name || "the revision without a name" };
    change({ do: "copy", id: made.id, name: `${name || "Revision"}, changed` });
    setCopied(made);
  };
  return (
    <section aria-labelledby="revision-title" className={`${styles.revisions} no-print`}>
      <h2 id="revision-title">Machine and revision</h2>
      <TextField
        id="bench-name"
        label="Name of the machine"
        optional
        maxLength={80}
        value={bench.name}
        onChange={(event) => change({ do: "name", name: event.target.value })}
      />
      <SelectField
        id="bench-revision"
        label="Revision"
        help="Everything on these pages is of this one."
        value={id}
        onChange={(event) => change({ do: "choose", id: event.target.value })}
        choices={bench.revisions.map((each, index) => ({
          value: each.id,
          label: `${index + 1}. ${each.name || "without a name"}`,
        }))}
      />
      <TextField
        id="revision-name"
        label="What this revision is called"
        maxLength={80}
        value={name}
        onChange={(event) => change({ do: "describe", id, name: event.target.value })}
      />
      <TextField
        id="revision-note"
        label="What was changed, and why"
        optional
        maxLength={500}
        value={note}
        onChange={(event) => change({ do: "describe", id, note: event.target.value })}
      />
      <p className="button-row">
        <Button aria-disabled={full} onClick={copy}>
          Copy into a new revision
        </Button>
        {bench.revisions.length > 1 && (
          <Button
            onClick={() => {
              if (confirm(`Take revision “${name}” off the bench? Its numbers are lost.`))
                change({ do: "remove", id });
            }}
          >
            Take it off the bench
          </Button>
        )}
      </p>
      <p role="status">
        {copied?.id === id &&
          `Copied from “${copied.of}”. Its checklist went along: a tick stands while its numbers stay the same, and is marked until somebody looks again.`}
      </p>
      {full && <p>{MOST_REVISIONS} revisions are as many as the bench holds: take one off first.</p>}
    </section>
  );
}
