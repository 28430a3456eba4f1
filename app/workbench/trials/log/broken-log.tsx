"use client";
import { Button } from "@/app/_ui/button";
import { Notice } from "@/app/_ui/notice";
import { saveFile } from "@/app/_ui/save-file";
import type { KeptLog } from "./use-log";

/** What this browser kept is not lost: it is shown as a file, and put aside only when somebody says so. */
export function BrokenLog({ kept }: { kept: KeptLog }) {
  const { broken, putAside, unkept } = kept;
  if (!broken) return null;
  const save = () => saveFile(broken.text, "practice-throws-unreadable.txt", "text/plain");
  return (
    <Notice kind="problem" title="The throws that this browser kept cannot be read">
      <p>{broken.wrong}</p>
      <p>
        Nothing is written over them. Save the text as a file for somebody who can mend it; then put it aside
        to begin a new log, and read the throws in again from CSV where you have one.
      </p>
      <p className="button-row">
        <Button onClick={save}>Save the text as a file</Button>
        <Button onClick={putAside}>Put it aside and begin a new log</Button>
      </p>
      {unkept ? (
        <p>It could not be put aside: the storage of this browser is full. Save it as a file first.</p>
      ) : null}
    </Notice>
  );
}
