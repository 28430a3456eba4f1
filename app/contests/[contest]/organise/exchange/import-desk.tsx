"use client";
/** A file, its preview, and the confirmation: until that nothing on the site changes. */
import { useRouter } from "next/navigation";
import { type ComponentProps, useState } from "react";
import { Button } from "@/app/_ui/button";
import { Notice } from "@/app/_ui/notice";
import { importedWords } from "@/app/_ui/site-import/choices";
import { FileDrop } from "@/app/_ui/site-import/file-drop";
import { Preview } from "@/app/_ui/site-import/preview";
import { useWrite } from "@/app/_ui/write/use-write";
import type { Site } from "@/app/_ui/zones/scene-of";
import type { ImportAnswer, ImportPreview } from "@/lib/api/contracts";
import { askPreview } from "./ask-preview";

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
          <SentPreview
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
              setDone(`${importedWords(open.file.name, answer)} They are on the map, and in the scorebook.`);
              router.refresh();
            }}
          />
        </section>
      )}
    </>
  );
}

type Shown = Omit<ComponentProps<typeof Preview>, "importing">;

function SentPreview({
  slug,
  onDone,
  ...props
}: Shown & { slug: string; onDone: (answer: ImportAnswer) => void }) {
  const { write, sending, trouble, problem } = useWrite<ImportAnswer>();
  const bringIn = async (items: unknown[]) => {
    const answer = await write("POST", `/api/v1/contests/${slug}/import`, { items });
    if (answer.ok) onDone(answer.data);
  };
  return (
    <Preview
      {...props}
      importing={{ bringIn: (items) => void bringIn(items), sending, trouble, errors: problem?.errors ?? [] }}
    />
  );
}
