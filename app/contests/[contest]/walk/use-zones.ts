"use client";
import { useCallback, useEffect, useState } from "react";
import { useLive } from "@/app/_ui/live/use-live";
import { useStale } from "@/app/_ui/live/use-stale";
import type { Zones } from "@/lib/api/contracts";
import { type KeptZones, keepZones, keptZones, machinesOf } from "./kept-zones";

const SHOWS = new Set(["layout", "machine", "conditions", "sheet", "entry"]);
/** While a zone is missing or the server has not answered, it is asked again after this, ms. */
const AGAIN = 5_000;
/** What the server knows may change without an event: a reading of the wind expires. */
const ANYWAY = 60_000;

/**
 * The newest zones there are: from the server, else those kept on this phone. `online`: whether the server is heard.
 * `stale`: whether something changed since, so that they are being computed anew.
 */
export function useZones(
  slug: string,
  sequence: number,
): { zones: KeptZones | null; online: boolean; stale: boolean } {
  const [zones, setZones] = useState<KeptZones | null>(null);
  const [fresh, setFresh] = useState(false);
  const base = `/api/v1/contests/${slug}`;
  const { stale, changed, ask } = useStale();
  const refresh = useCallback(async () => {
    const newest = ask();
    try {
      const response = await fetch(`${base}/zones`, { cache: "no-store" });
      if (!response.ok) throw new Error(String(response.status));
      const answer = (await response.json()) as Zones;
      if (!newest()) return;
      const kept = { at: new Date().toISOString(), machines: machinesOf(answer), caution: answer.caution };
      setZones(kept);
      setFresh(true);
      keepZones(slug, kept);
    } catch {
      setFresh(false);
      setZones((before) => before ?? keptZones(slug));
    }
  }, [base, slug, ask]);
  useEffect(() => {
    setZones((before) => before ?? keptZones(slug));
    void refresh();
  }, [refresh, slug]);
  const heard = useLive(`${base}/live`, sequence, ({ kind }, missed) => {
    if (!missed && !SHOWS.has(kind)) return;
    // The server holds its answer back for some seconds while sheets are computed.
    changed();
    void refresh();
  });
  const lacking = !fresh || (zones?.machines.some(({ geometry }) => !geometry) ?? true);
  useEffect(() => {
    const timer = setInterval(() => navigator.onLine && void refresh(), lacking ? AGAIN : ANYWAY);
    return () => clearInterval(timer);
  }, [lacking, refresh]);
  return { zones, online: heard.open && fresh, stale };
}
