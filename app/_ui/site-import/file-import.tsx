"use client";
/** A file read into a preview, with what was refused and the offer to exchange swapped coordinates. Nothing is brought in. */
import { type ReactNode, useState } from "react";
import type { ImportPreview } from "@/lib/api/contracts";
import { Button } from "../button";
import { Notice } from "../notice";
import { FileDrop } from "./file-drop";

type Previewed<Found> = ({ ok: true; preview: ImportPreview } & Found) | { ok: false; message: string };

export function FileImport<Found>({
  previewOf,
  place,
  refusedToo = "",
  done,
  onRead,
  children,
}: {
  previewOf: (file: File, swapped: boolean) => Promise<Previewed<Found>>;
  /** Where a file's places should lie: "in the yard". */
  place: string;
  /** Said behind the reason of a refusal. */
  refusedToo?: string;
  /** What came in last. */
  done: string | null;
  /** Another file, or the same anew, is being read. */
  onRead?: () => void;
  /** The preview, which closes when it is brought in or given up. */
  children: (open: { file: File; preview: ImportPreview } & Found, close: () => void) => ReactNode;
}) {
  const [open, setOpen] = useState<({ file: File; swapped: boolean; preview: ImportPreview } & Found) | null>(
    null,
  );
  const [busy, setBusy] = useState(false);
  const [refused, setRefused] = useState<{ name: string; message: string } | null>(null);

  const read = async (file: File, swapped: boolean) => {
    setBusy(true);
    setRefused(null);
    onRead?.();
    const found = await previewOf(file, swapped);
    setBusy(false);
    if (found.ok) setOpen({ ...found, file, swapped });
    else {
      setOpen(null);
      setRefused({ name: file.name, message: found.message });
    }
  };

  return (
    <>
      <FileDrop busy={busy} onFile={(file) => void read(file, false)} />
      <p role="status">{busy && "Reading the file…"}</p>
      {refused && (
        <Notice kind="problem" title={`${refused.name} was not read`}>
          <p>
            {refused.message} {refusedToo}
          </p>
        </Notice>
      )}
      {done && !busy && (
        <Notice kind="done" live>
          <p>{done}</p>
        </Notice>
      )}
      {open && !busy && (
        <section
          aria-label={`What is in ${open.file.name}`}
          // Another preview begins with its own choices.
          key={`${open.file.name} ${open.file.lastModified} ${open.swapped}`}
        >
          {(open.preview.swapHelps || open.swapped) && (
            <Notice title="Latitude and longitude">
              <p>
                {open.swapped
                  ? "They are exchanged for this preview."
                  : `Exchanged, more of this file would lie ${place}: they look swapped.`}
              </p>
              <Button onClick={() => void read(open.file, !open.swapped)}>
                {open.swapped ? "Take them as the file has them" : "Exchange latitude and longitude"}
              </Button>
            </Notice>
          )}
          {children(open, () => setOpen(null))}
        </section>
      )}
    </>
  );
}
