"use client";
/** The live feed as seen by one page: what changed, and when the server was last heard. */
import { useEffect, useRef, useState } from "react";
import type { LiveChange, RangeBrief } from "@/lib/api/contracts";
import { listenTo } from "./feed";

export interface Heard {
  /** When the server last said anything; null before it did. */
  at: Date | null;
  /** False once it has been silent for too long. */
  open: boolean;
}

/**
 * Listens until the page goes away. `feed`: the address of the contest's live feed; `known`: sequence of the newest
 * scorebook entry that the page was made with, so that nothing falls between page and feed.
 */
export function useLive(
  feed: string,
  known: number,
  /** `missed`: others came before this one that were never heard, so anything may have changed. */
  onChange: (change: LiveChange, missed: boolean) => void,
  /** What every page shows of the range, told before anything else. */
  onRange?: (brief: RangeBrief) => void,
): Heard {
  const [heard, setHeard] = useState<Heard>({ at: null, open: false });
  const handlers = useRef({ onChange, onRange });
  handlers.current = { onChange, onRange };
  const sequence = useRef(known);

  useEffect(
    () =>
      listenTo(feed, {
        known: sequence.current,
        onChange: (change, missed) => {
          sequence.current = Math.max(sequence.current, change.sequence);
          handlers.current.onChange(change, missed);
        },
        onRange: (brief) => handlers.current.onRange?.(brief),
        onHeard: (at, open) => setHeard({ at: at === null ? null : new Date(at), open }),
      }),
    [feed],
  );
  return heard;
}
