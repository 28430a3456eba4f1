"use client";
/** What is typed of a log and not saved yet: it outlives the page. */
import { useEffect, useState } from "react";
import { serverNow } from "@/app/_ui/offline/clock";
import type { FixMethod } from "@/lib/survey";
import { USUAL_PAPER_METHOD } from "../../landing-log/columns";
import { loadTyped, saveTyped } from "../drafts";
import { clockHere, type Days, type PaperHead, type PaperRow, usualDay } from "./paper-row";

interface Typed {
  head: PaperHead;
  /** By shot. */
  rows: Record<string, PaperRow>;
}

const untyped = (day: string, method: FixMethod | null): Typed => ({
  head: { day, method: method ?? USUAL_PAPER_METHOD, witness: "" },
  rows: {},
});

/** `store`: the name under which it is kept; `method`: what the log at hand was printed for, null when nobody said. */
export function useTypedLog(store: string, days: Days, method: FixMethod | null) {
  const { date, lastDate } = days;
  const [typed, setTyped] = useState<Typed>(() => untyped("", method));
  const [loaded, setLoaded] = useState(false);
  // After the first picture, which must agree with the server's.
  useEffect(() => {
    const found = loadTyped(store, untyped(usualDay({ date, lastDate }, clockHere(serverNow()).day), method));
    setTyped({ ...found, head: { ...found.head, ...(method && { method }) } });
    setLoaded(true);
  }, [store, date, lastDate, method]);
  useEffect(() => {
    if (loaded) saveTyped(store, typed);
  }, [loaded, store, typed]);

  const setHead = (part: Partial<PaperHead>) =>
    setTyped((now) => ({ ...now, head: { ...now.head, ...part } }));
  const setRow = (shotId: string, row: PaperRow | null) =>
    setTyped(({ head, rows: { [shotId]: _, ...others } }) => ({
      head,
      rows: row ? { ...others, [shotId]: row } : others,
    }));
  return { ...typed, setHead, setRow };
}
