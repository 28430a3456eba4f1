"use client";
/** A file, its preview, and the confirmation: until that nothing on the site changes. */
import { useRouter } from "next/navigation";
import { useState } from "react";
import { Button } from "@/app/_ui/button";
import { Notice } from "@/app/_ui/notice";
import type { Site } from "@/app/_ui/zones/scene-of";
import type { ImportAnswer, ImportPreview } from "@/lib/api/contracts";
import { askPreview } from "./ask-preview";
import { FileDrop } from "@/app/_ui/site-import/file-drop";
import { Preview } from "@/app/_ui/site-import/preview";

interface Open {
  file: File;
  swapped: boolean;
  preview: ImportPreview;
}

export function ImportDesk({
  slug,
  site,
  middle,
}: {
  slug: string;
  site: Site;
  middle: { latitude: number; longitude: number };
}) {
  const router = useRouter();
  const [open, setOpen] = useState<Open | null>(null);
  const [busy, setBusy] = useState(false);
  const [refused, setRefused] = useState<{ name: string; message: string } | null>(null);
  const [done, setDone] = useState<string | null>(null);

  const read = async (file: File, swapped: boolean) => {
    setBusy(true);
    setRefused(null);
    setDone(null);
    const answer = await askPreview(slug, file, swapped);
    setBusy(false);
    if (answer.ok) setOpen({ file, swapped, preview: answer.preview });
    else {
      setOpen(null);
      setRefused({ name: file.name, message: answer.message });
    }
  };

  return (
    <>
      <FileDrop busy={busy} onFile={(file) => read(file, false)} />
      <p role="status">{busy && "Reading the file…"}</p>
      {refused && (
        <Notice kind="problem" title={`${refused.name} was not read`}>
          <p>{refused.message}</p>
        </Notice>
      )}
      {done && (
        <Notice kind="done" live>
          <p>{done}</p>
        </Notice>
      )}
      {open && !busy && (
        <section aria-label={`What is in ${open.file.name}`}>
          {(open.preview.swapHelps || open.swapped) && (
            <Notice title="Latitude and longitude">
              <p>
                {open.swapped
                  ? "They are exchanged for this preview."
                  : "Exchanged, more of this file would lie at the site: they look swapped."}
              </p>
              <Button onClick={() => read(open.file, !open.swapped)}>
                {open.swapped ? "Take them as the file has them" : "Exchange latitude and longitude"}
              </Button>
            </Notice>
          )}
          <Preview
            // Another preview begins with its own choices.
            key={`${open.file.name} ${open.file.lastModified} ${open.swapped}`}
            slug={slug}
            site={site}
            middle={middle}
            name={open.file.name}
            preview={open.preview}
            onCancel={() => setOpen(null)}
            onDone={(answer) => {
              setOpen(null);
              setDone(doneWords(open.file.name, answer));
              router.refresh();
            }}
          />
        </section>
      )}
    </>
  );
}

function doneWords(
  name: string,
  { features, firingPoints, controlPoints, spotHeights }: ImportAnswer,
): string {
  const some = (count: number, one: string) =>
    count === 0 ? [] : [`${count} ${one}${count === 1 ? "" : "s"}`];
  const parts = [
    ...some(features, "site feature"),
    ...some(firingPoints, "firing point"),
    ...some(controlPoints, "control point"),
    ...some(spotHeights, "spot height"),
  ];
  return `From ${name} came ${parts.join(", ")}. They are on the map, and in the scorebook.`;
}
