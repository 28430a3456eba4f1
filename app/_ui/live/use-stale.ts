"use client";
/** Whether what a page shows is older than a change that it has heard of, and which of several answers is the newest. */
import { useCallback, useRef, useState } from "react";

export interface Staleness {
  stale: boolean;
  /** Something changed: what is shown is stale until an answer is there that was asked for after this. */
  changed: () => void;
  /** Before asking. Answers what to call with the answer at hand: false when a newer one is shown already. */
  ask: () => () => boolean;
}

export function useStale(): Staleness {
  const [stale, setStale] = useState(false);
  const counts = useRef({ changes: 0, asked: 0, shown: 0 });
  const changed = useCallback(() => {
    counts.current.changes++;
    setStale(true);
  }, []);
  const ask = useCallback(() => {
    const { current } = counts;
    const own = ++current.asked;
    const known = current.changes;
    return () => {
      if (own < current.shown) return false;
      current.shown = own;
      if (known === current.changes) setStale(false);
      return true;
    };
  }, []);
  return { stale, changed, ask };
}
