"use client";
/** Handing a machine on: a link, a file, into a contest, on paper. */
import { useRef, useState } from "react";
import { Button } from "@/app/_ui/button";
import { CopyLink } from "@/app/_ui/copy-link";
import { formToHash } from "@/app/_ui/machine-form/form/link";
import { Notice } from "@/app/_ui/notice";
import { saveFile } from "@/app/_ui/save-file";
import { useUnits } from "@/app/_ui/units";
import { newRevisionId, useBench } from "../bench/use-bench";
import { ContestEntry } from "./contest-entry";
import { benchFromFile, benchToFile, fileNameOf, LARGEST } from "./machine-file";
import { MachinePaper } from "./machine-paper";

export function ShareDesk() {
  const { revision, reading } = useBench();
  return (
    <>
      <div className="no-print">
        <LinkSection />
        <FileSection />
        <section aria-labelledby="enter-title">
          <h2 id="enter-title">Into a contest</h2>
          <ContestEntry />
        </section>
        <section aria-labelledby="paper-title">
          <h2 id="paper-title">On paper</h2>
          <p>
            Two pages of “{revision.name}”: the drawing with its numbers, and what it would do. For the yard;
            the contest&rsquo;s hazard sheet is another paper.
          </p>
          <p className="button-row">
            <Button onClick={() => window.print()} aria-disabled={!reading.ok}>
              Print two pages
            </Button>
          </p>
          {!reading.ok && <p>Numbers are missing or wrong: put them right on the page Machine first.</p>}
        </section>
      </div>
      <MachinePaper />
    </>
  );
}

function LinkSection() {
  const { revision } = useBench();
  return (
    <section aria-labelledby="link-title">
      <h2 id="link-title">By link</h2>
      <p>
        Whoever opens it finds “{revision.name}” as a further revision, “From a link”, on a bench of their
        own. Nothing goes to a server: the numbers stand in the link itself.
      </p>
      <CopyLink
        path={`/workbench#${formToHash(revision.form)}`}
        button="Copy a link to this revision"
        done="Copied. The link holds the numbers of this revision and nothing else."
      />
    </section>
  );
}

function FileSection() {
  const system = useUnits();
  const { bench, change } = useBench();
  const [said, setSaid] = useState<{ kind: "done" | "problem"; words: string[] } | null>(null);
  const input = useRef<HTMLInputElement>(null);
  const save = () => saveFile(benchToFile(bench), fileNameOf(bench.name), "application/json");
  const open = async (file: File | undefined) => {
    if (!file) return;
    // What cannot be ours is not read into memory.
    const read = benchFromFile(file.size > LARGEST ? "x".repeat(LARGEST + 1) : await file.text(), system);
    if (!read.ok) {
      setSaid({ kind: "problem", words: [read.message, "Nothing on the bench was changed."] });
      return;
    }
    const revisions = read.revisions.map((each) => ({ ...each, id: newRevisionId() }));
    change({
      do: "replace",
      bench: { name: read.name, revisions, chosen: revisions[read.chosen]?.id ?? "" },
    });
    setSaid({ kind: "done", words: [`${file.name} is on the bench.`, ...read.notes] });
  };
  return (
    <section aria-labelledby="file-title">
      <h2 id="file-title">As a file</h2>
      <p>
        All revisions in one file (JSON, SI units). Keep one before you clear this browser, and take one to
        another phone.
      </p>
      <p className="button-row">
        <Button onClick={save}>Save the machine as a file</Button>
        <Button
          onClick={() => {
            if (
              confirm(
                "What is in the file takes the place of what is on the bench. Save that first if you need it.",
              )
            )
              input.current?.click();
          }}
        >
          Open a file
        </Button>
      </p>
      <input
        ref={input}
        type="file"
        accept="application/json,.json"
        aria-label="Machine file"
        hidden
        onChange={(event) => {
          void open(event.target.files?.[0]);
          event.target.value = "";
        }}
      />
      <div role="status">
        {said && (
          <Notice kind={said.kind} title={said.kind === "done" ? "Opened" : "Not opened"}>
            {said.words.map((sentence) => (
              <p key={sentence}>{sentence}</p>
            ))}
          </Notice>
        )}
      </div>
    </section>
  );
}
