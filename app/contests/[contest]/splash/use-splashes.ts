"use client";
/** The shots that were sighted last: from the server, else those kept on this phone. */
import { useRouter } from "next/navigation";
import { useCallback, useEffect, useState } from "react";
import { useLive } from "@/app/_ui/live/use-live";
import { hearClock, serverNow } from "@/app/_ui/offline/clock";
import type { LiveChange, ShotInfo } from "@/lib/api/contracts";

export interface Splashes {
  /** When the server gave them, by its clock, ISO 8601. */
  at: string;
  shots: ShotInfo[];
}

const SHOWS: ReadonlySet<LiveChange["kind"]> = new Set(["sighting", "fix", "ruling"]);
/** While the server has not answered it is asked again after this, ms. */
const AGAIN = 5_000;

const name = (slug: string) => `fairthrow:splash:${slug}`;

function keptSplashes(slug: string): Splashes | null {
  try {
    const found = JSON.parse(localStorage.getItem(name(slug)) ?? "null") as Splashes | null;
    return found && Array.isArray(found.shots) ? found : null;
  } catch {
    return null;
  }
}

function keepSplashes(slug: string, splashes: Splashes): void {
  try {
    localStorage.setItem(name(slug), JSON.stringify(splashes));
  } catch {
    // Only a reload without a network would have needed it.
  }
}

/** `online`: whether the server is heard and has answered. `initial`: with the page, which may be an old one. */
export function useSplashes(slug: string, initial: Splashes, sequence: number) {
  const router = useRouter();
  const [splashes, setSplashes] = useState(initial);
  const [fresh, setFresh] = useState(false);
  const base = `/api/v1/contests/${slug}`;
  const refresh = useCallback(async () => {
    try {
      const asked = Date.now();
      const response = await fetch(`${base}/sightings`, { cache: "no-store" });
      hearClock(response.headers.get("date"), asked, Date.now());
      if (!response.ok) throw new Error(String(response.status));
      const { shots } = (await response.json()) as { shots: ShotInfo[] };
      const answer = { at: serverNow().toISOString(), shots };
      setSplashes(answer);
      setFresh(true);
      keepSplashes(slug, answer);
    } catch {
      setFresh(false);
    }
  }, [base, slug]);
  useEffect(() => {
    const kept = keptSplashes(slug);
    setSplashes((now) => (kept && kept.at > now.at ? kept : now));
    void refresh();
  }, [refresh, slug]);
  const heard = useLive(`${base}/live`, sequence, ({ kind }, missed) => {
    if (missed || SHOWS.has(kind)) void refresh();
    // A peg or a firing point that was moved comes with the page.
    if (kind === "layout") router.refresh();
  });
  useEffect(() => {
    if (fresh) return;
    const timer = setInterval(() => navigator.onLine && void refresh(), AGAIN);
    return () => clearInterval(timer);
  }, [fresh, refresh]);
  return { splashes, online: heard.open && fresh };
}
