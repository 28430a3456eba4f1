"use client";
import { useCallback, useEffect, useState } from "react";

export interface PhoneFix {
  latitude: number;
  longitude: number;
  /** m, as the phone says: 95 % of its positions lie within. */
  accuracy: number;
  /** By the phone's clock, ms. */
  at: number;
}

export type Watching =
  /** What the browser can do is not known before the page runs. */
  "unknown" | "insecure" | "unable" | "ready" | "asking" | "watching" | "denied";

/** The phone's position, second by second, from when it is asked for. */
export function usePosition(): { watching: Watching; fix: PhoneFix | null; start: () => void } {
  const [watching, setWatching] = useState<Watching>("unknown");
  const [fix, setFix] = useState<PhoneFix | null>(null);
  const [wanted, setWanted] = useState(false);
  const start = useCallback(() => setWanted(true), []);

  useEffect(() => {
    if (!window.isSecureContext) return setWatching("insecure");
    if (!("geolocation" in navigator)) return setWatching("unable");
    setWatching("ready");
    // Who allowed it before need not press anything.
    navigator.permissions?.query({ name: "geolocation" }).then(
      ({ state }) => state === "granted" && setWanted(true),
      () => {},
    );
  }, []);

  useEffect(() => {
    if (!wanted || !("geolocation" in navigator)) return;
    setWatching((before) => (before === "watching" ? before : "asking"));
    const watch = navigator.geolocation.watchPosition(
      ({ coords, timestamp }) => {
        const { latitude, longitude, accuracy } = coords;
        setFix({ latitude, longitude, accuracy, at: timestamp });
        setWatching("watching");
      },
      ({ code, PERMISSION_DENIED }) => {
        if (code !== PERMISSION_DENIED) return;
        setWatching("denied");
        setFix(null);
        setWanted(false);
      },
      { enableHighAccuracy: true, maximumAge: 0 },
    );
    return () => navigator.geolocation.clearWatch(watch);
  }, [wanted]);

  return { watching, fix, start };
}

/** Keeps the screen lit while somebody walks, where the phone can. */
export function useLitScreen(on: boolean): void {
  useEffect(() => {
    if (!on || !("wakeLock" in navigator)) return;
    let lock: WakeLockSentinel | null = null;
    let over = false;
    const light = async () => {
      if (document.visibilityState !== "visible") return;
      try {
        lock = await navigator.wakeLock.request("screen");
        if (over) await lock.release();
      } catch {
        // Battery saving may forbid it: the page works in the dark as well.
      }
    };
    void light();
    // A page that was hidden has lost its lock.
    document.addEventListener("visibilitychange", light);
    return () => {
      over = true;
      document.removeEventListener("visibilitychange", light);
      void lock?.release();
    };
  }, [on]);
}

/** The phone's clock, every second while it matters. */
export function useClock(on: boolean): number {
  const [now, setNow] = useState(() => Date.now());
  useEffect(() => {
    if (!on) return;
    const timer = setInterval(() => setNow(Date.now()), 1000);
    return () => clearInterval(timer);
  }, [on]);
  return now;
}
