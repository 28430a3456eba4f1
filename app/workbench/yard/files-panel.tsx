"use client";
/** The yard in and out of files: read on this device by the same rules as a contest's, previewed, then confirmed. */
import { useState } from "react";
import { Button } from "@/app/_ui/button";
import { Notice } from "@/app/_ui/notice";
import { importedWords } from "@/app/_ui/site-import/choices";
import { FileDrop } from "@/app/_ui/site-import/file-drop";
import { Preview } from "@/app/_ui/site-import/preview";
import type { ImportPreview } from "@/lib/api/contracts";
import { isRefusal } from "@/lib/contest/errors";
import { newRevisionId } from "../bench/use-bench";
import { broughtIn } from "./changes";
import { siteOf } from "./site";
import type { Yard } from "./yard";

interface Open {
  file: File;
  swapped: boolean;
  /** The yard that it comes into: a new one around its first place where there is none. */
  into: Yard;
  preview: ImportPreview;
}

interface Trouble {
  words: string;
  errors: readonly { field: string; message: string }[];
}

export function FilesPanel({
  yard,
  done,
  onImported,
}: {
  yard: Yard | null;
  /** What came in last: kept outside, as a first file brings another page. */
  done: string | null;
  onImported: (yard: Yard, words: string) => void;
}) {
  const [open, setOpen] = useState<Open | null>(null);
  const [busy, setBusy] = useState(false);
  const [refused, setRefused] = useState<{ name: string; message: string } | null>(null);
  const [trouble, setTrouble] = useState<Trouble | null>(null);

  const read = async (file: File, swapped: boolean) => {
    setBusy(true);
    setRefused(null);
    setTrouble(null);
    // What reads files comes when it is needed.
    const { previewOfFile } = await import("./read-file");
    const found = await previewOfFile(file, yard, swapped);
    setBusy(false);
    if (found.ok) setOpen({ file, swapped, into: found.into, preview: found.preview });
    else {
      setOpen(null);
      setRefused({ name: file.name, message: found.message });
    }
  };
  const bringIn = (items: unknown[], from: readonly number[]) => {
    if (!open) return;
    try {
      const bearings = from.map((index) => open.preview.items[index]?.bearing ?? null);
      const { yard: next, answer } = broughtIn(open.into, items, bearings, newRevisionId);
      const unaimed = next.firingPoints.filter(({ bearing }) => bearing === null).length;
      onImported(
        next,
        `${importedWords(open.file.name, answer)} They are on the map.${unaimed > 0 ? " Firing points without a bearing have no zone: give each its bearing." : ""}`,
      );
      setOpen(null);
    } catch (error) {
      if (!isRefusal(error)) throw error;
      setTrouble({ words: error.detail, errors: error.errors });
    }
  };

  return (
    <>
      <FileDrop busy={busy} onFile={(file) => void read(file, false)} />
      <p role="status">{busy && "Reading the file…"}</p>
      {refused && (
        <Notice kind="problem" title={`${refused.name} was not read`}>
          <p>{refused.message} Nothing in the yard was changed.</p>
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
                  : "Exchanged, more of this file would lie in the yard: they look swapped."}
              </p>
              <Button onClick={() => void read(open.file, !open.swapped)}>
                {open.swapped ? "Take them as the file has them" : "Exchange latitude and longitude"}
              </Button>
            </Notice>
          )}
          <Preview
            // Another preview begins with its own choices.
            key={`${open.file.name} ${open.file.lastModified} ${open.swapped}`}
            site={siteOf(open.into)}
            middle={open.into}
            name={open.file.name}
            preview={open.preview}
            importing={{
              bringIn,
              sending: false,
              trouble: trouble?.words ?? null,
              errors: trouble?.errors ?? [],
            }}
            onCancel={() => setOpen(null)}
          />
        </section>
      )}
    </>
  );
}
