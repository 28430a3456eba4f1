"use client";
/** The yard in and out of files: read on this device by the same rules as a contest's, previewed, then confirmed. */
import { useState } from "react";
import { importedWords } from "@/app/_ui/site-import/choices";
import { FileImport } from "@/app/_ui/site-import/file-import";
import { Preview } from "@/app/_ui/site-import/preview";
import type { ImportPreview } from "@/lib/api/contracts";
import { isRefusal } from "@/lib/contest/errors";
import { newRevisionId } from "../bench/use-bench";
import { broughtIn } from "./changes";
import { siteOf } from "./site";
import type { Yard } from "./yard";

interface Open {
  file: File;
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
  const [trouble, setTrouble] = useState<Trouble | null>(null);

  const bringIn = ({ file, into, preview }: Open, items: unknown[], from: readonly number[]): boolean => {
    try {
      const bearings = from.map((index) => preview.items[index]?.bearing ?? null);
      const { yard: next, answer } = broughtIn(into, items, bearings, newRevisionId);
      const unaimed = next.firingPoints.filter(({ bearing }) => bearing === null).length;
      onImported(
        next,
        `${importedWords(file.name, answer)} They are on the map.${unaimed > 0 ? " Firing points without a bearing have no zone: give each its bearing." : ""}`,
      );
      return true;
    } catch (error) {
      if (!isRefusal(error)) throw error;
      setTrouble({ words: error.detail, errors: error.errors });
      return false;
    }
  };

  return (
    <FileImport
      // What reads files comes when it is needed.
      previewOf={async (file, swapped) => (await import("./read-file")).previewOfFile(file, yard, swapped)}
      place="in the yard"
      refusedToo="Nothing in the yard was changed."
      done={done}
      onRead={() => setTrouble(null)}
    >
      {(open, close) => (
        <Preview
          site={siteOf(open.into)}
          middle={open.into}
          name={open.file.name}
          preview={open.preview}
          importing={{
            bringIn: (items, from) => {
              if (bringIn(open, items, from)) close();
            },
            sending: false,
            trouble: trouble?.words ?? null,
            errors: trouble?.errors ?? [],
          }}
          onCancel={close}
        />
      )}
    </FileImport>
  );
}
