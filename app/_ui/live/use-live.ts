"use client";
/** The live feed as seen by one page: what changed, and when the server was last heard. */
import { useEffect, useRef, useState } from "react";
import type { LiveChange } from "@/lib/api/contracts";

export interface Heard {
  /** When the server last said anything; null before it did. */
  at: Date | null;
  /** False once it has been silent for too long. */
  open: boolean;
}

/** The server's heartbeat comes every few seconds; after this long without one the line counts as dead. */
const SILENCE = 20_000;
const RETRY = 3_000;

/**
 * Listens until the page goes away. `feed`: the address of the contest's live feed; `known`: sequence of the newest
 * scorebook entry that the page was made with, so that nothing falls between page and feed. The browser reconnects by
 * itself after most failures; where it gives up, or the line has gone quiet without an error (a phone that slept), it
 * is opened anew from what was heard last.
 */
export function useLive(
  feed: string,
  known: number,
  /** `missed`: others came before this one that were never heard, so anything may have changed. */
  onChange: (change: LiveChange, missed: boolean) => void,
): Heard {
  const [heard, setHeard] = useState<Heard>({ at: null, open: false });
  const handler = useRef(onChange);
  handler.current = onChange;
  const sequence = useRef(known);

  useEffect(() => {
    let source: EventSource | null = null;
    let last = Date.now();
    const note = () => {
      last = Date.now();
      setHeard({ at: new Date(last), open: true });
    };
    const lost = () => setHeard(({ at }) => ({ at, open: false }));
    const open = () => {
      source?.close();
      last = Date.now();
      source = new EventSource(`${feed}?after=${sequence.current}`);
      source.addEventListener("open", note);
      source.addEventListener("heartbeat", note);
      source.addEventListener("change", (event) => {
        note();
        const change = JSON.parse((event as MessageEvent<string>).data) as LiveChange;
        const missed = change.sequence > sequence.current + 1;
        sequence.current = Math.max(sequence.current, change.sequence);
        handler.current(change, missed);
      });
      source.addEventListener("error", lost);
    };
    open();
    addEventListener("offline", lost);
    addEventListener("online", open);
    const watch = setInterval(() => {
      const silent = Date.now() - last > SILENCE;
      if (silent) lost();
      if (silent || source?.readyState === EventSource.CLOSED) open();
    }, RETRY);
    return () => {
      clearInterval(watch);
      removeEventListener("offline", lost);
      removeEventListener("online", open);
      source?.close();
    };
  }, [feed]);
  return heard;
}
