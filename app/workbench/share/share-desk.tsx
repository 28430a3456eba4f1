"use client";
/** Handing a machine on: a link, a file, into a contest, on paper. */
import { Button } from "@/app/_ui/button";
import { CopyLink } from "@/app/_ui/copy-link";
import { formToHash, linkTo } from "@/app/_ui/machine-form/form/link";
import { carriedInLink } from "../alarm/carried";
import { useAlarm } from "../alarm/use-alarm";
import { useBench } from "../bench/use-bench";
import { ContestEntry } from "./contest-entry";
import { FileSection } from "./file-section";
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
  const { carried } = useAlarm();
  return (
    <section aria-labelledby="link-title">
      <h2 id="link-title">By link</h2>
      <p>
        Whoever opens it finds “{revision.name}” as a further revision, “From a link”, on a bench of their
        own. Nothing goes to a server: the numbers stand in the link itself.
      </p>
      <CopyLink
        path={linkTo("/workbench", formToHash(revision.form, carriedInLink(carried)))}
        button="Copy a link to this revision"
        done="Copied. The link holds the numbers of this revision, and what calls STOP among your practice throws."
      />
    </section>
  );
}
