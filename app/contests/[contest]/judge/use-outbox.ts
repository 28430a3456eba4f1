"use client";
import { useEffect, useRef, useState, useSyncExternalStore } from "react";
import { Outbox, type Waiting, type WhenSaved } from "./outbox";

const NOTHING: Waiting = { entries: [], stored: true, loading: true };

/**
 * A judge's entries and sightings on this phone. They go out when the page opens, when the network comes back, when the page is
 * looked at again, after growing pauses, and whenever the judge asks.
 */
export function useOutbox(slug: string, owner: string | null, whenSaved: WhenSaved) {
  const saved = useRef(whenSaved);
  saved.current = whenSaved;
  const [outbox] = useState(
    () =>
      new Outbox(slug, owner, {
        fix: (entry, answer) => saved.current.fix?.(entry, answer),
        sighting: (entry, answer) => saved.current.sighting?.(entry, answer),
        incident: (entry, answer) => saved.current.incident?.(entry, answer),
      }),
  );
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
