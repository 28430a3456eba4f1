"use client";
/** A file, its preview, and the confirmation: until that nothing on the site changes. */
import { useRouter } from "next/navigation";
import { type ComponentProps, useState } from "react";
import { importedWords } from "@/app/_ui/site-import/choices";
import { FileImport } from "@/app/_ui/site-import/file-import";
import { Preview } from "@/app/_ui/site-import/preview";
import { useWrite } from "@/app/_ui/write/use-write";
import type { Site } from "@/app/_ui/zones/scene-of";
import type { ImportAnswer } from "@/lib/api/contracts";
import { askPreview } from "./ask-preview";

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
  const [done, setDone] = useState<string | null>(null);
  return (
    <FileImport
      previewOf={(file, swapped) => askPreview(slug, file, swapped)}
      place="at the site"
      done={done}
      onRead={() => setDone(null)}
    >
      {({ file, preview }, close) => (
        <SentPreview
          slug={slug}
          site={site}
          middle={middle}
          name={file.name}
          preview={preview}
          onCancel={close}
          onDone={(answer) => {
            close();
            setDone(`${importedWords(file.name, answer)} They are on the map, and in the scorebook.`);
            router.refresh();
          }}
        />
      )}
    </FileImport>
  );
}

type Shown = Omit<ComponentProps<typeof Preview>, "importing">;

function SentPreview({
  slug,
  onDone,
  ...props
}: Shown & { slug: string; onDone: (answer: ImportAnswer) => void }) {
  const { write, sending, trouble, problem } = useWrite<ImportAnswer>();
  // In a contest a bearing is the machine's that stands there, and part of what was agreed on for it.
  const aims = props.preview.items.filter(({ bearing }) => bearing !== null).length;
  const preview =
    aims === 0
      ? props.preview
      : {
          ...props.preview,
          notes: [
            ...props.preview.notes,
            `${aims === 1 ? "A firing point has" : `${aims} firing points have`} a bearing in this file. It is not brought in: in a contest each machine has its bearing, which is set under “Where machines stand and aim”.`,
          ],
        };
  const bringIn = async (items: unknown[]) => {
    const answer = await write("POST", `/api/v1/contests/${slug}/import`, { items });
    if (answer.ok) onDone(answer.data);
  };
  return (
    <Preview
      {...props}
      preview={preview}
      importing={{ bringIn: (items) => void bringIn(items), sending, trouble, errors: problem?.errors ?? [] }}
    />
  );
}
