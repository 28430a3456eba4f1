"use client";
/** The yard of this browser: kept with every change, the last changes undone one by one. */
import { useCallback, useEffect, useState } from "react";
import { keptText } from "@/app/_ui/kept-text";
import { YARD_KEY } from "../kept/names";
import { type Yard, yardFromText, yardToText } from "./yard";

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

  useEffect(() => {
    const store = keptText(YARD_KEY);
    setNow(keptYard(store.read()));
    // Another tab may work on the same yard: the newest word counts in both.
    return store.hear((text) => setNow(keptYard(text)));
  }, []);

  const put = useCallback((next: Kept) => {
    setNow(next);
    keptText(YARD_KEY).write(next.state === "there" ? yardToText(next.yard) : null);
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
  return { now, change, undo, clear };
}
