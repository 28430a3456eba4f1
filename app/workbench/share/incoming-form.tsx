"use client";
/** One of the workbench's small forms in a file, as a browser without room gave it: shown, then put back. */
import { Button } from "@/app/_ui/button";
import { keptText } from "@/app/_ui/kept-text";
import type { Opened } from "./read-file";
import type { Taken } from "./taken";

export function IncomingForm({
  name: file,
  read: { key, title, reads, text },
  onTaken,
  onLeave,
}: Omit<Extract<Opened, { kind: "form" }>, "kind"> & {
  onTaken: (taken: Taken) => void;
  onLeave: () => void;
}) {
  const store = keptText(key);
  const before = store.read();
  const take = () => {
    store.write(text);
    onTaken({
      title: `${file} is open`,
      words: `It brought ${title}. It can be undone until this page is reloaded or closed.`,
      back: { of: "form", key, before, after: text },
    });
  };
  return (
    <>
      <p>It holds {title}:</p>
      <ul>
        {reads.map((line, index) => (
          <li key={index}>{line}</li>
        ))}
      </ul>
      {before !== null && before !== text && <p>It takes the place of what this browser keeps of it.</p>}
      <p className="button-row">
        <Button look="main" onClick={take}>
          {before === null ? "Put it into this browser" : "Replace what is here"}
        </Button>
        <Button onClick={onLeave}>Leave it</Button>
      </p>
    </>
  );
}
