"use client";
/** What there is to say of a link that was to bring a machine: why it was not opened, or that nothing checked it. */
import { Button } from "../button";
import { Notice } from "../notice";
import { type LinkRead, withoutMachine } from "./form/link";

export interface LinkTold {
  opened: boolean;
  title: string;
  words: readonly string[];
}

export function toldOf(read: LinkRead): LinkTold | null {
  if (read.state === "refused")
    return {
      opened: false,
      title: "The link was not opened",
      words: [
        read.why,
        "Nothing was taken from it and nothing here was changed: what you see is not its machine.",
        "Copy the whole link again from where it was sent, or ask its sender for the machine as a file.",
      ],
    };
  if (read.state === "open" && !read.checked)
    return {
      opened: true,
      title: "Opened from a link that carries no check",
      words: [
        "It is an older link and carries no check sum: whether all of it has come cannot be told.",
        "Compare the numbers with its sender’s, wind and gust too, or ask for a new link.",
      ],
    };
  return null;
}

/** Where practice throws are not kept nobody can answer it: told, and left to the workbench. */
export function stopTold(read: LinkRead): LinkTold | null {
  if (read.state !== "open" || !read.stops?.length) return null;
  return {
    opened: true,
    title: "STOP stands on practice throws of this machine",
    words: [
      "Whoever made the link has not answered it: a throw went farther than the machine can by these numbers, or was not judged.",
      "Nobody throws until it is known why. Open the same link in the workbench to read which throw, and ask its sender.",
    ],
  };
}

/** The address keeps a link that was refused until this is closed, so that a reload says it again. */
export function LinkNotice({ told, onClose }: { told: LinkTold | null; onClose: () => void }) {
  if (!told) return null;
  return (
    <section aria-label="The link" className="link-notice no-print">
      <Notice kind={told.opened ? "note" : "problem"} title={told.title} live>
        {told.words.map((sentence) => (
          <p key={sentence}>{sentence}</p>
        ))}
        <p className="button-row">
          <Button onClick={onClose}>Close this notice</Button>
        </p>
      </Notice>
    </section>
  );
}

/** The link is out of the address: from here on what is typed counts. */
export const forgetLink = (): void =>
  history.replaceState(null, "", location.pathname + withoutMachine(location.search));
