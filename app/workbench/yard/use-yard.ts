"use client";
/** The yard of this browser: kept with every change, the last changes undone one by one. */
import { useCallback, useEffect, useState } from "react";
import { keep, kept } from "@/app/_ui/browser-memory";
import { YARD_KEY, type Yard, yardFromText, yardToText } from "./yard";

export type Kept =
  | { state: "reading" }
  | { state: "none" }
  /** What is kept cannot be read, and is left as it is. */
  | { state: "broken"; message: string; text: string }
  | { state: "there"; yard: Yard; past: readonly Yard[] };

/** Changes that can be undone. */
const MEMORY = 30;

function keptYard(text: string | null): Kept {
  const read = yardFromText(text);
  if (read.ok) return { state: "there", yard: read.yard, past: [] };
  return read.none ? { state: "none" } : { state: "broken", message: read.message, text: text ?? "" };
}

export function useYard() {
  const [now, setNow] = useState<Kept>({ state: "reading" });
  /** Whether the browser took what is on the page. */
  const [stored, setStored] = useState(true);

  useEffect(() => {
    setNow(keptYard(kept(YARD_KEY)));
    // Another tab may work on the same yard: the newest word counts in both.
    const hear = (event: StorageEvent) => {
      if (event.key === YARD_KEY) setNow(keptYard(event.newValue));
    };
    addEventListener("storage", hear);
    return () => removeEventListener("storage", hear);
  }, []);

  const put = useCallback((next: Kept) => {
    setNow(next);
    setStored(keep(YARD_KEY, next.state === "there" ? yardToText(next.yard) : null));
  }, []);
  const change = useCallback(
    (yard: Yard) =>
      put({
        state: "there",
        yard,
        past: now.state === "there" ? [...now.past, now.yard].slice(-MEMORY) : [],
      }),
    [now, put],
  );
  const undo = useCallback(() => {
    const before = now.state === "there" ? now.past.at(-1) : undefined;
    if (now.state === "there" && before) put({ state: "there", yard: before, past: now.past.slice(0, -1) });
  }, [now, put]);
  /** Takes away whatever is kept. */
  const clear = useCallback(() => put({ state: "none" }), [put]);
  return { now, stored, change, undo, clear };
}
