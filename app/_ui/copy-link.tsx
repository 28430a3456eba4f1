"use client";
/** A link put on the clipboard, or shown to copy by hand; what was said of it goes when the link becomes another. */
import { type ReactNode, useState } from "react";
import { Button } from "./button";

export function CopyLink({
  path,
  button,
  done,
  children,
}: {
  /** From the root, with its search and hash. */
  path: string;
  button: string;
  /** Said once it is copied. */
  done: string;
  /** Further buttons beside it. */
  children?: ReactNode;
}) {
  const [copied, setCopied] = useState({ path: "", words: "" });
  const copy = async () => {
    const link = `${location.origin}${path}`;
    try {
      await navigator.clipboard.writeText(link);
      setCopied({ path, words: done });
    } catch {
      // Over plain HTTP a page may not write to the clipboard: show the link to copy by hand.
      setCopied({ path, words: link });
    }
  };
  return (
    <>
      <p className="button-row">
        <Button onClick={copy}>{button}</Button>
        {children}
      </p>
      <p role="status" className="copied">
        {copied.path === path ? copied.words : ""}
      </p>
    </>
  );
}
