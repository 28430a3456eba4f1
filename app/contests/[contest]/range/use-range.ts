"use client";
/** The range as its own pages see it: read anew with every change, and the beats of who must be heard. */
import { useCallback, useEffect, useRef, useState } from "react";
import { nowAndThen } from "@/app/_ui/live/now-and-then";
import { useLive } from "@/app/_ui/live/use-live";
import { BEAT, type RangeBrief, type RangeView } from "@/lib/api/contracts";
import { useLitScreen } from "../walk/use-position";

/** Between readings, ms: time alone makes a post lost or a clear old. */
const ANYWAY = 4000;
const PAUSE = 250;
/** An answer that takes longer is none, ms. */
const PATIENCE = 3000;

export function useRange(slug: string, first: RangeView, machine: string | null) {
  const [view, setView] = useState(first);
  const base = `/api/v1/contests/${slug}`;
  const asked = useRef(machine);
  asked.current = machine;
  const order = useRef({ asked: 0, shown: 0 });
  const read = useRef<() => void>(() => {});
  useEffect(() => {
    read.current = nowAndThen(async () => {
      const own = ++order.current.asked;
      const query = asked.current ? `?machine=${asked.current}` : "";
      const response = await fetch(`${base}/range${query}`, { cache: "no-store" });
      if (!response.ok || own < order.current.shown) return;
      order.current.shown = own;
      setView((await response.json()) as RangeView);
    }, PAUSE);
    const timer = setInterval(() => read.current(), ANYWAY);
    return () => clearInterval(timer);
  }, [base]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: another machine is asked about
  useEffect(() => read.current(), [machine]);
  const refresh = useCallback(() => read.current(), []);
  const heard = useLive(`${base}/live`, first.sequence, refresh, refresh);
  /** What `view` shows may be old: nobody goes by it. */
  const lost = heard.at !== null && !heard.open;
  return { view, refresh, lost };
}

export interface Beats {
  hot?: string;
  post?: { id: string; phone: string };
}

/** Says every two seconds that this page is there. `lost`: since when nothing answered, ms; null while all is well. */
export function useBeats(slug: string, beats: Beats | null): { lost: number | null; heardAt: number | null } {
  const [state, setState] = useState<{ lost: number | null; heardAt: number | null }>({
    lost: null,
    heardAt: null,
  });
  const what = JSON.stringify(beats);
  useLitScreen(beats !== null);
  useEffect(() => {
    if (what === "null") return setState({ lost: null, heardAt: null });
    const lost = () => setState(({ lost: since, heardAt }) => ({ lost: since ?? Date.now(), heardAt }));
    const beat = async () => {
      try {
        const answer = await fetch(`/api/v1/contests/${slug}/range/beats`, {
          method: "POST",
          headers: { "Content-Type": "application/json" },
          body: what,
          cache: "no-store",
          signal: AbortSignal.timeout(PATIENCE),
        });
        if (!answer.ok) return lost();
        (await answer.json()) as RangeBrief;
        setState({ lost: null, heardAt: Date.now() });
      } catch {
        lost();
      }
    };
    void beat();
    const timer = setInterval(beat, BEAT);
    addEventListener("offline", lost);
    return () => {
      clearInterval(timer);
      removeEventListener("offline", lost);
    };
  }, [slug, what]);
  return state;
}
