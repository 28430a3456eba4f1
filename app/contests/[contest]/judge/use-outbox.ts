"use client";
import { useEffect, useRef, useState, useSyncExternalStore } from "react";
import type { FixAnswer } from "@/lib/api/contracts";
import { type KeptEntry, Outbox, type Waiting } from "./outbox";

const NOTHING: Waiting = { entries: [], stored: true, loading: true };

/**
 * A judge's entries on this phone. They go out when the page opens, when the network comes back, when the page is
 * looked at again, after growing pauses, and whenever the judge asks.
 */
export function useOutbox(
  slug: string,
  owner: string | null,
  onSaved: (entry: KeptEntry, answer: FixAnswer) => void,
) {
  const saved = useRef(onSaved);
  saved.current = onSaved;
  const [outbox] = useState(() => new Outbox(slug, owner, (entry, answer) => saved.current(entry, answer)));
  const waiting = useSyncExternalStore(outbox.subscribe, outbox.snapshot, () => NOTHING);

  useEffect(() => {
    const look = () => {
      if (document.visibilityState === "visible") outbox.wake();
    };
    void outbox.open();
    addEventListener("online", outbox.wake);
    document.addEventListener("visibilitychange", look);
    return () => {
      outbox.close();
      removeEventListener("online", outbox.wake);
      document.removeEventListener("visibilitychange", look);
    };
  }, [outbox]);
  return { outbox, waiting };
}
