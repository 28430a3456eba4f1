"use client";
/** The firing order as the page brought it, as this phone last knew it, and as it is now. */
import { useCallback, useEffect, useMemo, useState } from "react";
import { nowAndThen } from "@/app/_ui/live/now-and-then";
import { useLive } from "@/app/_ui/live/use-live";
import { hearClock, serverNow } from "@/app/_ui/offline/clock";
import type { FiringOrder, LiveChange } from "@/lib/api/contracts";
import { keepOrder, newerOrder } from "./kept-order";

/** Kinds of change after which turns or their times may be others. */
const MOVES: ReadonlySet<LiveChange["kind"]> = new Set(["round", "fix", "ruling", "machine"]);
/** A page that has just opened is given so long to hear the server before it says that it does not, ms. */
const PATIENCE = 6000;
/** Times to come move on although nobody does anything. */
const TICK = 30_000;

export function useOrder(
  slug: string,
  first: FiringOrder,
  sequence: number,
): { order: FiringOrder; now: number | null; silent: boolean; refresh: () => Promise<void> } {
  const [order, setOrder] = useState(first);
  /** By the server's clock; null until the browser runs, so that server and browser draw the same at first. */
  const [now, setNow] = useState<number | null>(null);
  const show = useCallback(
    (next: FiringOrder) => {
      setOrder(next);
      keepOrder(slug, next);
    },
    [slug],
  );
  useEffect(() => {
    const newer = newerOrder(slug, first.at);
    if (newer) setOrder(newer);
    else show(first);
  }, [slug, first, show]);
  const refresh = useCallback(async () => {
    try {
      const asked = Date.now();
      const response = await fetch(`/api/v1/contests/${slug}/firing-order`, { cache: "no-store" });
      hearClock(response.headers.get("date"), asked, Date.now());
      if (response.ok) show((await response.json()) as FiringOrder);
    } catch {
      // No network: what is shown stays, with its time.
    }
  }, [slug, show]);
  const readAnew = useMemo(() => nowAndThen(refresh), [refresh]);
  const heard = useLive(`/api/v1/contests/${slug}/live`, sequence, ({ kind }, missed) => {
    if (missed || MOVES.has(kind)) readAnew();
  });
  useEffect(() => {
    const tick = () => setNow(serverNow().getTime());
    tick();
    const timer = setInterval(tick, TICK);
    return () => clearInterval(timer);
  }, []);
  const [late, setLate] = useState(false);
  useEffect(() => {
    const timer = setTimeout(setLate, PATIENCE, true);
    return () => clearTimeout(timer);
  }, []);
  return { order, now, silent: !heard.open && (late || heard.at !== null), refresh };
}

/**
 * When a turn begins, seen from now: what was reckoned a while ago and has not begun moves on with the clock, and all
 * behind it. ms.
 */
export function slipOf(order: FiringOrder, now: number | null): number {
  const up = order.turns.find(({ shotId }) => shotId === order.upId);
  return now !== null && up?.expectedAt ? Math.max(0, now - Date.parse(up.expectedAt)) : 0;
}
